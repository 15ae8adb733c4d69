/** Pieces of the sheet: text is escaped, pieces are not escaped twice. */
import { htmlEscape } from 'escape-goat';

/** HTML that is safe to put into a page as it is. */
export interface Block {
  html: string;
}

export const safe = (html: string): Block => ({ html });

type Part = string | number | Block | readonly Block[];

const shown = (part: Part): string =>
  typeof part === 'object' ? ('html' in part ? part.html : part.map(({ html }) => html).join('')) : htmlEscape(String(part));

/** A template whose strings and numbers are escaped and whose blocks are taken as they are. */
export function block(strings: TemplateStringsArray, ...parts: readonly Part[]): Block {
  return safe(strings.reduce((html, text, i) => html + text + (i < parts.length ? shown(parts[i] as Part) : ''), ''));
}

export function section(title: string, ...content: readonly Block[]): Block {
  return block`<section><h2>${title}</h2>${content}</section>`;
}

export function list(items: readonly string[], kind: 'plain' | 'boxes' = 'plain'): Block {
  return block`<ul class="${kind}">${items.map((item) => block`<li>${item}</li>`)}</ul>`;
}

/** A table: a heading ending in `|n` is a column of numbers. */
export function rows(headings: readonly string[], body: readonly (readonly string[])[]): Block {
  const numeric = headings.map((heading) => heading.endsWith('|n'));
  const cell = (i: number) => (numeric[i] ? 'n' : 't');
  const head = headings.map((heading, i) => block`<th class="${cell(i)}">${heading.replace('|n', '')}</th>`);
  const lines = body.map((line) => block`<tr>${line.map((text, i) => block`<td class="${cell(i)}">${text}</td>`)}</tr>`);
  return block`<table><thead><tr>${head}</tr></thead><tbody>${lines}</tbody></table>`;
}
