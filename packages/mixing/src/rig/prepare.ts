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
import type { Rig } from './rig.ts';

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
  const guideDeg = rig.swash.guide;
  const designedEyes = new Float64Array(9);
  const servos = rig.servos.map((servo, i) => {
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
  });
  const { rotor } = rig;
  const apartDeg = Array.from({ length: rotor.blades }, (_, k) => (360 * k) / rotor.blades);
  const prepared: PreparedRig = {
    rig,
    rotation: rotationSign(rotor.rotation),
    transmitter: prepareTransmitter(rig.transmitter, rotor.rotation),
    servos,
    ring: prepareRing(
      rig.servos.map((servo) => servo.ball),
      rig.servos.map((servo) => servo.link),
      designedEyes,
      rig.swash,
    ),
    blade: prepareBlade(rotor),
    bladeLinkMm: Float64Array.from(rotor.links),
    bladeCos: Float64Array.from(apartDeg, cosDeg),
    bladeSin: Float64Array.from(apartDeg, sinDeg),
    bladeBalls: [],
  };
  if (rig.flybar) prepared.flybar = prepareFlybarHead(rig.flybar, rotor.driver, rig.swash.height);
  else if (rotor.ring) {
    const ring = rotor.ring;
    prepared.bladeBalls = apartDeg.map((deg) => prepareTurningBall(ring, rotor.driver - deg));
  }
  if (rig.tail) prepared.tail = prepareTail(rig.tail, rig.transmitter.rudder);
  return prepared;
}
