/**
 * Poses by the block: each pass takes every pose of a block through a few stages before the next pass begins.
 * The formulas are the stages', called here; `passes.kernel.ts`, made from this file, is what runs.
 */
import { atanOf } from '../numerics/trig.ts';
import type { PreparedRig, PreparedServo } from '../rig/prepare.ts';
import { bladeHalfTangent, type PreparedBlade } from '../rotor/blade.ts';
import { normalOverTail, type PreparedTurningBall, turningBall } from '../rotor/turning-ring.ts';
import { hornAngleRad, hornBall } from '../servo/horn.ts';
import { closeLever, type PreparedLever } from '../servo/lever.ts';
import { isContinuous } from '../swashplate/close.ts';
import { ringStep, STEP } from '../swashplate/newton.ts';
import { type PreparedRing, ringNormal } from '../swashplate/ring.ts';
import { guessRing, type RingStart } from '../swashplate/start.ts';
import { curveAt, freePulseUs, heldPulseUs, mixCommands, type PreparedOutput } from '../transmitter/outputs.ts';

/** A count, or a place in an array; all other numbers of a pass are quantities. */
type Whole = number;

/** A pose's places in a block: eyes in G (3 x 3), z, a and b of the ring (z NaN where it does not surely close), its normal over the tail (3). */
export const WORK = { EYES: 0, RING: 9, NORMAL: 12, SIZE: 16 } as const;

/** Newton's steps in a block; what takes more is posed by itself, on the long way. */
const MOST_STEPS = 8;

const u = new Float64Array(3);
const eyes = new Float64Array(9);
const x = new Float64Array(3);
const told = new Float64Array(STEP.LENGTH);
const normal = new Float64Array(3);
const turn = new Float64Array(2);
const eye = new Float64Array(3);

/** Sticks (3 a pose: collective, elevator, aileron), from place `first` on, to the horns' balls. */
export function sticksToHorns(
  rig: PreparedRig,
  curve: Float64Array,
  count: Whole,
  sticks: Float64Array,
  first: Whole,
  work: Float64Array,
): void {
  for (let n = 0; n < count; n++) {
    const s = 3 * (first + n);
    mixCommands(rig.transmitter, curveAt(curve, sticks[s] as number), sticks[s + 1] as number, sticks[s + 2] as number, u);
    for (let i = 0; i < 3; i++) {
      const servo = rig.servos[i] as PreparedServo;
      const output = rig.transmitter.outputs[servo.output] as PreparedOutput;
      const pulseUs = heldPulseUs(output, freePulseUs(output, u[servo.output] as number));
      hornBall(servo.horn, hornAngleRad(servo.horn, pulseUs), eyes, 3 * i);
    }
    const o = WORK.SIZE * n;
    for (let k = 0; k < 9; k++) work[o + (WORK.EYES + k)] = eyes[k] as number;
  }
}

/** The lever of servo `servo` (0 to 2): its horn's ball becomes its swashplate end, or NaN where the pushrod cannot reach. */
export function hornsToLever(lever: PreparedLever, servo: Whole, count: Whole, work: Float64Array): void {
  for (let n = 0; n < count; n++) {
    const o = WORK.SIZE * n + 3 * servo;
    for (let k = 0; k < 3; k++) eye[k] = work[o + k] as number;
    const closed = closeLever(lever, eye, 0, eye, turn);
    for (let k = 0; k < 3; k++) work[o + k] = closed ? (eye[k] as number) : Number.NaN;
  }
}

/** Eyes to the ring: the block's own places, and the columns of its height and its normal in the machine frame from `first` on. */
export function eyesToRing(
  ring: PreparedRing,
  start: RingStart,
  rotation: number,
  count: Whole,
  first: Whole,
  work: Float64Array,
  heightMm: Float64Array,
  normalX: Float64Array,
  normalY: Float64Array,
): void {
  for (let n = 0; n < count; n++) {
    const o = WORK.SIZE * n;
    for (let k = 0; k < 9; k++) eyes[k] = work[o + (WORK.EYES + k)] as number;
    guessRing(start, eyes, x);
    ringStep(ring, eyes, ring.linkMm, x, told);
    ringStep(ring, eyes, ring.linkMm, x, told);
    let steps = 2;
    while ((told[STEP.SIZE] as number) >= ring.lastStepMm && steps < MOST_STEPS) {
      ringStep(ring, eyes, ring.linkMm, x, told);
      steps++;
    }
    const continuous = isContinuous(ring, told, x[1] as number, x[2] as number);
    const z = continuous && (told[STEP.SIZE] as number) < ring.lastStepMm ? (x[0] as number) : Number.NaN;
    ringNormal(x[1] as number, x[2] as number, normal, 0);
    normalOverTail(ring.guideCos, ring.guideSin, rotation, normal[0] as number, normal[1] as number, normal[2] as number, eye, 0);
    work[o + WORK.RING] = z;
    work[o + (WORK.RING + 1)] = x[1] as number;
    work[o + (WORK.RING + 2)] = x[2] as number;
    for (let k = 0; k < 3; k++) work[o + (WORK.NORMAL + k)] = eye[k] as number;
    heightMm[first + n] = z;
    normalX[first + n] = -(eye[0] as number);
    normalY[first + n] = -rotation * (eye[1] as number);
  }
}

/**
 * A posed ring to one blade's pitch (rad; NaN where it cannot reach), into `pitchRad` from place `first` on. `psi` holds
 * cosine and sine of that blade's own azimuth: one pair for the whole block with `perPose` 0, a pair a pose with 2.
 */
export function ringToBlade(
  ball: PreparedTurningBall,
  blade: PreparedBlade,
  linkMm: number,
  psi: Float64Array,
  perPose: Whole,
  count: Whole,
  first: Whole,
  work: Float64Array,
  pitchRad: Float64Array,
): void {
  for (let n = 0; n < count; n++) {
    const o = WORK.SIZE * n;
    const p = perPose * n;
    const c = psi[p] as number;
    const s = psi[p + 1] as number;
    const t0 = work[o + WORK.NORMAL] as number;
    const t1 = work[o + (WORK.NORMAL + 1)] as number;
    turningBall(
      ball,
      work[o + WORK.RING] as number,
      t0 * c + t1 * s,
      t1 * c - t0 * s,
      work[o + (WORK.NORMAL + 2)] as number,
      eye,
      0,
    );
    pitchRad[first + n] = 2 * atanOf(bladeHalfTangent(blade, linkMm, eye, 0));
  }
}
