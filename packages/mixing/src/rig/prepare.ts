/**
 * A rig made ready to be posed many times: every constant of every stage, in millimetres and radians, worked out once.
 * A few microseconds; the rig itself is not kept open to change (change the rig, and prepare again).
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import { type RotationSign, rotationSign } from '../quantities/frames.ts';
import { type PreparedFlybarHead, prepareFlybarHead } from '../flybar/head.ts';
import { type PreparedBlade, prepareBlade } from '../rotor/blade.ts';
import { type PreparedTurningBall, prepareTurningBall } from '../rotor/turning-ring.ts';
import { hornBall, type PreparedHorn, prepareHorn } from '../servo/horn.ts';
import { type PreparedLever, prepareLever } from '../servo/lever.ts';
import { type PreparedRing, prepareRing } from '../swashplate/ring.ts';
import { type PreparedTail, prepareTail } from '../tail/tail.ts';
import { type PreparedTransmitter, prepareTransmitter } from '../transmitter/outputs.ts';
import type { Rig, Servo } from './rig.ts';

export interface PreparedServo {
  /** 0 to 2: the output its lead is plugged into */
  output: number;
  horn: PreparedHorn;
  lever?: PreparedLever;
  /** mm: the pushrod that closes the designed pose */
  designedPushrodMm?: number;
}

export interface PreparedRig {
  rig: Rig;
  rotation: RotationSign;
  transmitter: PreparedTransmitter;
  servos: PreparedServo[];
  ring: PreparedRing;
  blade: PreparedBlade;
  bladeLinkMm: Float64Array;
  /** Cosine and sine of each blade's place ahead of blade 1. */
  bladeCos: Float64Array;
  bladeSin: Float64Array;
  /** Each blade's ball on the turning ring, in that blade's R; none on a flybar head. */
  bladeBalls: PreparedTurningBall[];
  flybar?: PreparedFlybarHead;
  tail?: PreparedTail;
}

export function prepare(rig: Rig): PreparedRig {
  const designedEyes = new Float64Array(9);
  const servos = rig.servos.map((_, i) => prepareServo(rig, i, designedEyes));
  const { rotor } = rig;
  const { blades } = rotor;
  const bladeCos = new Float64Array(blades);
  const bladeSin = new Float64Array(blades);
  for (let k = 0; k < blades; k++) {
    bladeCos[k] = cosDeg((360 * k) / blades);
    bladeSin[k] = sinDeg((360 * k) / blades);
  }
  const prepared: PreparedRig = {
    rig,
    rotation: rotationSign(rotor.rotation),
    transmitter: prepareTransmitter(rig.transmitter, rotor.rotation),
    servos,
    ring: prepareRingOf(rig, designedEyes),
    blade: prepareBlade(rotor),
    bladeLinkMm: Float64Array.from(rotor.links),
    bladeCos,
    bladeSin,
    bladeBalls: [],
  };
  if (rig.flybar) prepared.flybar = prepareFlybarHead(rig.flybar, rotor.driver, rig.swash.height);
  else if (rotor.ring) {
    const ring = rotor.ring;
    for (let k = 0; k < blades; k++) prepared.bladeBalls.push(prepareTurningBall(ring, rotor.driver - (360 * k) / blades));
  }
  if (rig.tail) prepared.tail = prepareTail(rig.tail, rig.transmitter.rudder);
  return prepared;
}

/** Servo i (from 0), whose lower eye with horn and lever as designed is written into `designedEyes` (3 x 3 mm). */
export function prepareServo(rig: Rig, i: number, designedEyes: Float64Array): PreparedServo {
  const guideDeg = rig.swash.guide;
  const servo = rig.servos[i] as Servo;
  const horn = prepareHorn(servo, guideDeg);
  const prepared: PreparedServo = { output: servo.output - 1, horn };
  hornBall(horn, 0, designedEyes, 3 * i);
  if (servo.lever && servo.pushrod !== undefined) {
    const lever = prepareLever(servo.lever, servo.pushrod, horn, guideDeg);
    prepared.lever = lever;
    const endX = lever.pivotX + lever.servoEndMm * lever.servoEndCos * lever.directionX;
    const endY = lever.pivotY + lever.servoEndMm * lever.servoEndCos * lever.directionY;
    const endZ = lever.pivotZ + lever.servoEndMm * lever.servoEndSin;
    prepared.designedPushrodMm = Math.hypot(
      endX - (designedEyes[3 * i] as number),
      endY - (designedEyes[3 * i + 1] as number),
      endZ - (designedEyes[3 * i + 2] as number),
    );
    const cos = lever.servoEndCos * lever.betweenCos - lever.servoEndSin * lever.betweenSin;
    const sin = lever.servoEndSin * lever.betweenCos + lever.servoEndCos * lever.betweenSin;
    designedEyes[3 * i] = lever.pivotX + lever.swashEndMm * cos * lever.directionX;
    designedEyes[3 * i + 1] = lever.pivotY + lever.swashEndMm * cos * lever.directionY;
    designedEyes[3 * i + 2] = lever.pivotZ + lever.swashEndMm * sin;
  }
  return prepared;
}

/** Servo i where only what turns its horn has changed since `before`: its lead, neutral, rate, sense, tooth or offset. */
export function prepareHornOnly(before: PreparedServo, rig: Rig, i: number): PreparedServo {
  const servo = rig.servos[i] as Servo;
  return { ...before, output: servo.output - 1, horn: prepareHorn(servo, rig.swash.guide) };
}

export function prepareRingOf({ servos, swash }: Rig, designedEyes: Float64Array): PreparedRing {
  const [first, second, third] = servos;
  return prepareRing([first.ball, second.ball, third.ball], [first.link, second.link, third.link], designedEyes, swash);
}
