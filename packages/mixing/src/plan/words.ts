/**
 * An adjustment in the words of the bench: which way, how far in turns, holes or clicks, and how to undo it.
 */
import { valueAt } from '../rig/changes.ts';
import { describePath, unitAt } from '../rig/describe.ts';
import { turnsOf } from '../rig/link-step.ts';
import type { Rig } from '../rig/rig.ts';
import { type Alteration, isLead } from './place.ts';

/** Turns of a link's end that a change of length is, signed as the change; undefined where it is no thread. */
export function turnsOfThread(rig: Rig, { path, by }: Alteration): number | undefined {
  if (by === undefined || !isThread(path)) return undefined;
  return Math.round(turnsOf(rig, by) * 1000) / 1000;
}

export function isThread(path: string): boolean {
  return /\/(link|links\/\d+|pushrod|rods\/\d+|rod)$/.test(path);
}

/** What to do, and how to undo it, each a sentence or more. */
type Told = [does: string, undo: string];

/** What to do and how to undo it. `believed` is the machine as it is thought to stand before the change. */
export const adjustmentSays = (believed: Rig, change: Alteration): string => told(believed, change).join(' ');

/** How to undo it alone: for a change whose reason is told in other words. */
export const undoSays = (believed: Rig, change: Alteration): string => told(believed, change)[1];

function told(believed: Rig, change: Alteration): Told {
  const { path } = change;
  const what = describePath(believed, path);
  if (isThread(path) && change.by !== undefined) return threadSays(believed, what, change.by);
  if (/\/horn\/tooth$/.test(path) && change.by !== undefined) return toothSays(believed, path, change.by);
  if (/\/horn\/length$/.test(path) && change.by !== undefined) return holeSays(believed, path, change.by);
  if (isLead(change)) return leadSays(believed, path, change.to);
  if (typeof change.to === 'boolean') return switchSays(what, change.to);
  if (change.by !== undefined) return byOf(believed, path, what, change.by);
  return [`Set ${what} to ${listed(change.to, path)}.`, `To undo, set it back to ${listed(valueAt(believed, path), path)}.`];
}

function threadSays(rig: Rig, what: string, by: number): Told {
  const turns = turnsInWords(Math.abs(turnsOf(rig, by)));
  const [way, back] = by > 0 ? ['longer', 'out'] : ['shorter', 'in'];
  const undo = by > 0 ? 'in' : 'out';
  return [
    `Make ${what} ${millimetres(by)} mm ${way}: ${turns} ${back} (${2 * rig.linkStep} mm a turn).`,
    `To undo, ${turns} ${undo}.`,
  ];
}

/** "half a turn", "one turn", "one and a half turns", "2.25 turns". */
export function turnsInWords(turns: number): string {
  const rounded = Math.round(turns * 100) / 100;
  if (rounded === 0.5) return 'half a turn';
  if (rounded === 1) return 'one turn';
  const names = ['no', 'one', 'two', 'three', 'four', 'five', 'six'];
  const whole = names[Math.floor(rounded)];
  if (whole !== undefined && rounded === Math.floor(rounded)) return `${whole} turns`;
  if (whole !== undefined && rounded - Math.floor(rounded) === 0.5) return `${whole} and a half turns`;
  return `${rounded} turns`;
}

const millimetres = (by: number) => String(Math.round(Math.abs(by) * 1000) / 1000);

function toothSays(rig: Rig, path: string, by: number): Told {
  const servo = describePath(rig, path.replace(/\/horn\/tooth$/, ''));
  const teeth = Number(valueAt(rig, path.replace(/tooth$/, 'teeth')));
  const apart = ((Math.abs(by) * 360) / teeth).toFixed(1);
  const count = Math.abs(by) === 1 ? 'one tooth' : `${Math.abs(by)} teeth`;
  // The tail's horn has no up: its ball goes aft or forward.
  const [up, down] = path.startsWith('/tail/') ? ['aft', 'forward'] : ['up', 'down'];
  const [way, back] = by > 0 ? [up, down] : [down, up];
  return [
    `Take ${servo}'s horn off and put it on ${count} further ${way} (its ball ${way} by ${apart} degrees).`,
    `To undo, ${count} ${back} again.`,
  ];
}

function holeSays(rig: Rig, path: string, by: number): Told {
  const holes = Math.round(Math.abs(by) / rig.holeStep);
  const count = holes === 1 ? 'the next hole' : `the ${holes === 2 ? 'second' : 'third'} hole`;
  const [way, back] = by > 0 ? ['out from', 'in to'] : ['in to', 'out from'];
  const servo = describePath(rig, path.replace(/\/horn\/length$/, ''));
  return [
    `Move the ball on ${servo}'s horn to ${count} ${way} the shaft (${millimetres(by)} mm).`,
    `To undo, as many ${back} it.`,
  ];
}

function leadSays(rig: Rig, path: string, to: unknown): Told {
  const servo = describePath(rig, path.replace(/\/output$/, ''));
  return [
    `Plug ${servo}'s lead into output ${String(to)}.`,
    `To undo, back into output ${String(valueAt(rig, path))}. Leads are swapped as a pair: move both before anything else.`,
  ];
}

function switchSays(what: string, to: boolean): Told {
  return to
    ? [`Turn on ${what}: reversed.`, `To undo, turn it off again.`]
    : [`Turn off ${what}: not reversed.`, `To undo, turn it on again.`];
}

function byOf(rig: Rig, path: string, what: string, by: number): Told {
  const unit = unitWords(unitAt(path));
  const amount = `${String(Math.round(Math.abs(by) * 100) / 100)}${unit}`;
  const was = Number(valueAt(rig, path));
  const [verb, undo] = by > 0 ? ['Add', 'take off'] : ['Take', 'add'];
  const word = by > 0 ? 'to' : 'off';
  const grows = Math.abs(was + by) > Math.abs(was);
  const effect = /\/(subtrim|phase)$/.test(path) ? '' : grows ? ', so that it moves further' : ', so that it moves less far';
  return [`${verb} ${amount} ${word} ${what}${effect}.`, `To undo, ${undo} ${amount} again.`];
}

const unitWords = (unit: string) => ({ us: ' µs', percent: ' percent', degree: ' degrees', mm: ' mm' })[unit] ?? '';

function listed(value: unknown, path: string): string {
  if (Array.isArray(value)) return value.map((entry) => listed(entry, path)).join(', ');
  if (typeof value === 'number') return `${String(Math.round(value * 100) / 100)}${unitWords(unitAt(path))}`;
  return String(value);
}

/** Never a plain 0 or 100: no reading makes that sure. */
export const chanceInWords = (chance: number): string =>
  chance < 0.01 ? 'under 1 %' : chance > 0.99 ? 'over 99 %' : `${Math.round(100 * chance)} %`;

/** The plan in a sentence. */
export function planSays(
  count: number,
  asItStands: number,
  then: number,
  why: { unknownPart?: boolean; unknown?: boolean } = {},
): string {
  if (why.unknown)
    return 'No fault that is known here fits these readings: nothing is turned on a guess. Check the record and read again.';
  if (why.unknownPart)
    return 'A part is bent or worn: replace it and read again. Until then only what is plainly set wrong is put right.';
  const changes = count === 1 ? 'One change' : `${count} changes`;
  if (count > 0 && asItStands === then)
    return `${changes} of what the targets do not judge, as the tail or the paddles: they are met with a chance of ${chanceInWords(then)} before and after.`;
  if (count > 0)
    return `${changes}: the chance that all targets are met goes from ${chanceInWords(asItStands)} to ${chanceInWords(then)}.`;
  if (asItStands >= 0.5) return `Within the targets with a chance of ${chanceInWords(asItStands)}: leave it alone.`;
  return `No change that a hand can make would surely help (within the targets with a chance of ${chanceInWords(asItStands)} as it stands): read more, see "next" of the diagnosis.`;
}
