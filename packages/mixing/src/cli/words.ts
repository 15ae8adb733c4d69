/** Numbers and tables as a person reads them. */
import type { Case } from '../rig/rig.ts';

/** A number with so many decimals; never "-0". */
export function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** The same with its sign, for what has two directions. */
export function signed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return Number(text) > 0 ? `+${text}` : text;
}

/** Rows in columns: the first to the left, the others to the right. */
export function table(rows: readonly (readonly string[])[], indent = '  '): string {
  const columns = Math.max(...rows.map((row) => row.length));
  const widths = Array.from({ length: columns }, (_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)));
  return rows
    .map((row) => {
      const cells = row.map((cell, i) => (i === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[i] ?? 0)));
      return (indent + cells.join('  ')).trimEnd();
    })
    .join('\n');
}

/** A case in a few words: "collective +1, elevator -0.5, blade 1 at 90 deg". */
export function caseInWords(kase: Case): string {
  const words = (['collective', 'elevator', 'aileron', 'rudder'] as const).flatMap((stick) => {
    const value = kase[stick];
    return value === undefined || value === 0 ? [] : [`${stick} ${value > 0 ? '+' : ''}${value}`];
  });
  if (words.length === 0) words.push('mid-stick');
  if (kase.mode !== undefined) words.push(`mode ${JSON.stringify(kase.mode)}`);
  if (kase.azimuth !== undefined) words.push(`blade 1 at ${kase.azimuth} deg`);
  if (kase.teeter !== undefined) words.push(`teeter ${kase.teeter} deg`);
  if (kase.settled === true) words.push('flybar settled');
  if (kase.yawRate !== undefined && kase.yawRate !== 0) words.push(`turning at ${kase.yawRate} deg/s`);
  return words.join(', ');
}
