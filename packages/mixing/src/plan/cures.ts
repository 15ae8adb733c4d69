/**
 * A hypothesis in, what would undo what is exactly wrong: settings put back, leads, holes and teeth. The places where a
 * hand can: a servo's own sense is cured by its output's reverse, its neutral by its output's.
 *
 * One horn against the others under collective: that output's reverse. All three the wrong way: the sign of the
 * collective value. Collective right and one cyclic wrong: that value's sign. The hypotheses say which, and each is cured
 * where it arose, so that never one servo of three is turned round for a cyclic.
 */
import type { Hypothesis, Posterior } from '../diagnosis/posterior.ts';
import { valueAt } from '../rig/changes.ts';
import type { Rig, Servo } from '../rig/rig.ts';
import type { Alteration } from './place.ts';

/** A servo's neutral further than this from its output's is set at the output: more than sub-trim should take. No source. */
const NEUTRAL_APART_US = 60;

/** Settings that are put back to the record with `to`; what is numbered in them is a place in a list. */
const SETTINGS =
  /^\/transmitter\/(outputs\/\d\/(reverse|neutral|span|limits)|mix\/(collective|elevator|aileron|azimuths|weights|cyclicLimit)|rates\/\w+\/(rate|expo)|flightModes\/\d+\/pitchCurve)|^\/servos\/\d\/output$/;

/** The head's cures of one hypothesis, on the machine as it stands now. */
export function curesOf(posterior: Posterior, hypothesis: Hypothesis): Alteration[] {
  const { record } = posterior;
  const now = posterior.meanNow(hypothesis);
  const cures = new Map<string, Alteration>();
  const reversed = new Set<number>();
  for (const { path: written } of hypothesis.settings) {
    const path = wholeOf(written);
    const is = valueAt(now, path);
    const should = valueAt(record, path);
    if (JSON.stringify(is) === JSON.stringify(should)) continue;
    const part = /^\/servos\/(\d)\/(horn\/length|sense|neutral)$/.exec(path);
    if (part === null) {
      if (SETTINGS.test(path) && should !== undefined) cures.set(path, { path, to: should });
      continue;
    }
    const servo = now.servos[Number(part[1])] as Servo;
    const output = `/transmitter/outputs/${servo.output - 1}`;
    if (part[2] === 'horn/length') cures.set(path, { path, by: (should as number) - (is as number) });
    else if (part[2] === 'sense') reversed.add(servo.output - 1);
    else if (Math.abs((is as number) - (valueAt(now, `${output}/neutral`) as number)) > NEUTRAL_APART_US) {
      cures.set(`${output}/neutral`, { path: `${output}/neutral`, to: is });
    }
  }
  for (const j of reversed) {
    const path = `/transmitter/outputs/${j}/reverse`;
    const cured = cures.get(path);
    // A servo of the other sense behind an output that is itself reversed stands right as it is.
    if (cured) cures.delete(path);
    else cures.set(path, { path, to: !(valueAt(now, path) as boolean) });
  }
  for (const tooth of teethOf(record, now)) cures.set(tooth.path, tooth);
  return [...cures.values()].sort((a, b) => (a.path < b.path ? -1 : 1));
}

/** A layout's azimuths and weights are put back whole. */
function wholeOf(path: string): string {
  return /^\/transmitter\/mix\/(azimuths|weights)/.exec(path)?.[0] ?? path;
}

/** Whole teeth that bring each horn, at its output's neutral, nearest to where the record has it. */
function teethOf(record: Rig, now: Rig): Alteration[] {
  return record.servos.flatMap((servo, i) => {
    const standing = now.servos[i] as Servo;
    const tooth = 360 / standing.horn.teeth;
    const offDeg = standingDeg(now, standing) - standingDeg(record, servo);
    const by = -Math.round(offDeg / tooth) + 0;
    return by === 0 ? [] : [{ path: `/servos/${i}/horn/tooth`, by }];
  });
}

/** Where a horn stands with its output in the middle, degrees; a lead or a neutral that is wrong is not the spline's fault. */
function standingDeg(rig: Rig, { horn, output, sense, rate }: Servo): number {
  const subtrim = rig.transmitter.outputs[output - 1]?.subtrim ?? 0;
  return horn.offset + (horn.tooth * 360) / horn.teeth + sense * rate * subtrim;
}
