/**
 * Parts that were found bent or worn: replaced with new ones of the record's length, never adjusted around. And parts that
 * are to be looked at before they are turned: a blade link far from its record hides a bent grip or spindle.
 */
import type { Posterior } from '../diagnosis/posterior.ts';
import type { ReadingsDocument } from '../diagnosis/readings.ts';
import { scatterOf } from '../diagnosis/scatter.ts';
import { valueAt } from '../rig/changes.ts';
import { describePath } from '../rig/describe.ts';
import type { Rig } from '../rig/rig.ts';
import type { DrawnMachine, Renewed } from './machines.ts';

export interface Replacement {
  part: string;
  says: string;
}

export interface Replaced {
  replace: Replacement[];
  /** values that are then as the record says */
  renewed: Renewed[];
  /** a part is bent whose value the record does not know: what it does to the readings cannot be told from a length */
  unknownPart: boolean;
}

/** How far a blade link may be from its record before it is looked at first, mm. */
const LOOKED_AT_MM = 1;

export function replacedParts(record: Rig, readings: ReadingsDocument): Replaced {
  const found = new Map<string, string>();
  for (const item of readings.readings) if (item.kind === 'inspected') found.set(item.part, item.found);
  const scatter = scatterOf(record);
  const words = new Map([...scatter.keys()].map((path) => [describePath(record, path).toLowerCase(), path]));
  const replaced: Replaced = { replace: [], renewed: [], unknownPart: false };
  for (const [part, state] of found) {
    if (state !== 'bent' && state !== 'worn') continue;
    const path = scatter.has(part) ? part : words.get(part.toLowerCase());
    const value = path === undefined ? undefined : valueAt(record, path);
    const name = path === undefined ? part : describePath(record, path);
    const measure =
      typeof value === 'number' && /\/(link|pushrod|rod|links\/\d+|rods\/\d+)$/.test(path ?? '')
        ? ` of ${value.toFixed(1)} mm, eye to eye`
        : '';
    replaced.replace.push({
      part,
      says: `Replace ${name}: found ${state}. Put in a straight one${measure}; it is not adjusted around. Then read again.`,
    });
    if (path !== undefined && typeof value === 'number')
      replaced.renewed.push({ path, record: value, sd: scatter.get(path) ?? 0 });
    else replaced.unknownPart = true;
  }
  return replaced;
}

/** Blade links that are believed further than a millimetre from the record and were not found straight. */
export function lookedAtFirst(
  posterior: Posterior,
  readings: ReadingsDocument,
  machines: readonly DrawnMachine[],
): Replacement[] {
  const { record } = posterior;
  const straight = new Set(
    readings.readings.flatMap((item) => (item.kind === 'inspected' && item.found === 'straight' ? [item.part] : [])),
  );
  return record.rotor.links.flatMap((length, k) => {
    const part = `/rotor/links/${k}`;
    if (straight.has(part) || straight.has(describePath(record, part))) return [];
    const far = machines.filter((machine) => Math.abs((machine.stand().rotor.links[k] as number) - length) > LOOKED_AT_MM);
    if (2 * far.length <= machines.length) return [];
    const name = describePath(record, part);
    return [
      {
        part,
        says: `Inspect ${name}, its blade grip and the spindle first: it seems more than ${LOOKED_AT_MM} mm off its record. Bent or worn is replaced; only what is straight is turned.`,
      },
    ];
  });
}
