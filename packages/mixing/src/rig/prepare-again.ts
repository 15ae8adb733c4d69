/**
 * A rig prepared again after some of its values have changed: only the stages that those values are in, the others taken
 * over. Which stages they are follows from the paths.
 */
import { prepareFlybarHead } from '../flybar/head.ts';
import { prepareTail } from '../tail/tail.ts';
import { prepareTransmitter } from '../transmitter/outputs.ts';
import { prepare, type PreparedRig, prepareHornOnly, prepareRingOf, prepareServo } from './prepare.ts';
import type { Rig } from './rig.ts';

/** Sets of stages, as sums. */
export type Stages = number;

const TRANSMITTER = 1;
const TAIL = 2;
/** the ring's balls and links */
const RING = 4;
const BLADE_LINKS = 8;
const FLYBAR = 16;
/** three of each: how a horn turns; all of a servo, its lever and where the ring's links start */
const HORN = 32;
const SERVO = 256;
/** what too much else hangs on */
const ALL = 2048;

export function stagesOf(path: string): Stages {
  if (path.startsWith('/transmitter/')) return path.startsWith('/transmitter/rudder/') ? TRANSMITTER | TAIL : TRANSMITTER;
  const servo = /^\/servos\/([0-2])\/(.*)$/.exec(path);
  if (servo) {
    const part = servo[2] as string;
    if (part === 'link' || part.startsWith('ball/')) return RING;
    const turning = /^(output|neutral|sense|rate|horn\/(tooth|offset))$/.test(part);
    return (turning ? HORN : SERVO) << Number(servo[1]);
  }
  if (path.startsWith('/rotor/links/')) return BLADE_LINKS;
  if (path.startsWith('/flybar/')) return FLYBAR;
  return path.startsWith('/tail/') ? TAIL : ALL;
}

/** `rig`, of which `before` was prepared when all but the values in `stages` stood as they do now. */
export function prepareAgain(before: PreparedRig, rig: Rig, stages: Stages): PreparedRig {
  if (stages === 0 && before.rig === rig) return before;
  if (stages & ALL) return prepare(rig);
  const { rotor, swash, flybar, tail } = rig;
  const after: PreparedRig = { ...before, rig };
  if (stages & TRANSMITTER) after.transmitter = prepareTransmitter(rig.transmitter, rotor.rotation);
  if (stages & (7 * (HORN | SERVO))) {
    const servos = before.servos.slice();
    const moved = (stages & (7 * SERVO)) !== 0;
    const designedEyes = moved ? Float64Array.from(before.ring.designedEyes) : before.ring.designedEyes;
    for (let i = 0; i < 3; i++) {
      if (stages & (SERVO << i)) servos[i] = prepareServo(rig, i, designedEyes);
      else if (stages & (HORN << i)) servos[i] = prepareHornOnly(before.servos[i] as PreparedRig['servos'][0], rig, i);
    }
    after.servos = servos;
    if (moved) after.ring = prepareRingOf(rig, designedEyes);
  }
  if (stages & RING && !(stages & (7 * SERVO))) after.ring = prepareRingOf(rig, before.ring.designedEyes);
  if (stages & BLADE_LINKS) after.bladeLinkMm = Float64Array.from(rotor.links);
  if (stages & FLYBAR && flybar) after.flybar = prepareFlybarHead(flybar, rotor.driver, swash.height);
  if (stages & TAIL && tail) after.tail = prepareTail(tail, rig.transmitter.rudder);
  return after;
}
