/**
 * The derivatives of ring and blades by the sticks at a case, as a chain: pulses by sticks (each corner on its own side),
 * the ring's pose by horns (from the closure), ring and blades by that pose.
 */
import { DEG_PER_RAD, radOf } from '../quantities/angles.ts';
import { checkCase } from '../rig/case.ts';
import { type Miss, poseRing, setHorns, setSticks, settleFlybar } from '../rig/pose.ts';
import { poseOf, swashOf, unreachableOf } from '../rig/predict.ts';
import type { PreparedRig, PreparedServo } from '../rig/prepare.ts';
import { sampleRevolution } from '../rig/revolution.ts';
import type { Case, Unreachable } from '../rig/rig.ts';
import { ringSlopes } from '../rig/ring-slopes.ts';
import { harmonicsOf, REVOLUTION } from '../rotor/harmonics.ts';
import { meanPulseSlopes, type StickName } from '../transmitter/slopes.ts';
import { bladesByPose, settledByPose, swashByPose } from './by-pose.ts';

export type Matrix3 = [[number, number, number], [number, number, number], [number, number, number]];

/** Degrees, at mid-stick, before anything moves. */
export interface Standing {
  foreAft: number;
  side: number;
  longitudinal: number;
  lateral: number;
}

export interface Slopes {
  swash: Matrix3;
  blade: Matrix3;
  standing: Standing;
  /** theta0 of every blade, degrees */
  bladesDeg: number[];
}

const STICKS: readonly StickName[] = ['collective', 'elevator', 'aileron'];

const samples = new Float64Array(REVOLUTION);
const ringByHorn = new Float64Array(9);
const swashByRing = new Float64Array(9);
const bladeByRing = new Float64Array(9);
/** d pulse (microseconds) / d stick: a row a stick, a column an output */
const pulseByStick = new Float64Array(9);
const slopes = new Float64Array(3);

/** @throws CaseError as `predict` does */
export function slopesAt(prepared: PreparedRig, kase: Case): Slopes | { unreachable: Unreachable } {
  const mode = checkCase(prepared.transmitter, kase);
  const pose = poseOf(prepared);
  const sticks = { collective: kase.collective ?? 0, elevator: kase.elevator ?? 0, aileron: kase.aileron ?? 0 };
  setSticks(prepared, pose, mode, sticks.collective, sticks.elevator, sticks.aileron);
  setHorns(prepared, pose);
  if (!poseRing(prepared, pose)) return { unreachable: unreachableOf(pose.miss as Miss) };
  if (!ringSlopes(prepared, pose, ringByHorn)) return { unreachable: { path: '/servos/0/link', short: 0 } };
  swashByPose(prepared, pose, swashByRing);

  const settled = kase.settled === true && prepared.flybar !== undefined;
  const teeterRad = radOf(kase.teeter ?? 0);
  if (settled && !settleFlybar(prepared, pose)) return { unreachable: unreachableOf(pose.miss as Miss) };
  const wave = settled ? pose.wave : undefined;
  // Blade 1 last: its samples are wanted for the slopes.
  const bladesDeg = prepared.rig.rotor.links.map(() => 0);
  for (let k = bladesDeg.length - 1; k >= 0; k--) {
    const reached = sampleRevolution(prepared, pose, k, teeterRad, wave, samples);
    if (!reached && k === 0) return { unreachable: unreachableOf(pose.miss as Miss) };
    bladesDeg[k] = harmonicsOf(samples, prepared.rotation).collective * DEG_PER_RAD;
  }
  const { longitudinal, lateral } = harmonicsOf(samples, prepared.rotation);
  if (!settled) bladesByPose(prepared, pose, teeterRad, samples, bladeByRing);
  else if (!settledByPose(prepared, pose, bladeByRing)) return { unreachable: unreachableOf(pose.miss as Miss) };

  STICKS.forEach((stick, row) => {
    meanPulseSlopes(prepared.transmitter, mode, sticks, stick, slopes);
    pulseByStick.set(slopes, 3 * row);
  });
  const { foreAft, side } = swashOf(prepared, pose);
  return {
    swash: chain(prepared, swashByRing),
    blade: chain(prepared, bladeByRing),
    standing: { foreAft, side, longitudinal: longitudinal * DEG_PER_RAD, lateral: lateral * DEG_PER_RAD },
    bladesDeg,
  };
}

/** Quantities by the ring's pose (3 x 3), that by horns, horns by sticks: rows the quantities, columns the sticks. */
function chain(prepared: PreparedRig, byRing: Float64Array): Matrix3 {
  const row = (q: number): [number, number, number] => [
    entry(prepared, byRing, q, 0),
    entry(prepared, byRing, q, 1),
    entry(prepared, byRing, q, 2),
  ];
  return [row(0), row(1), row(2)];
}

function entry(prepared: PreparedRig, byRing: Float64Array, q: number, stick: number): number {
  let sum = 0;
  for (let i = 0; i < 3; i++) {
    const servo = prepared.servos[i] as PreparedServo;
    const hornSlope = (pulseByStick[3 * stick + servo.output] as number) * servo.horn.rateRadPerUs;
    for (let k = 0; k < 3; k++) sum += (byRing[3 * q + k] as number) * (ringByHorn[3 * k + i] as number) * hornSlope;
  }
  return sum;
}
