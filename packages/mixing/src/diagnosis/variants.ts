/**
 * For each unknown, the one stage that it changes, prepared again with the value a step further: what a derivative by
 * differences needs, and no more. Which stage that is follows from the path.
 */
import { prepareFlybarHead } from '../flybar/head.ts';
import { prepare, type PreparedRig, type PreparedServo } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { type PreparedHorn, prepareHorn } from '../servo/horn.ts';
import { type PreparedLever, prepareLever } from '../servo/lever.ts';
import { placeBall, type PreparedRing } from '../swashplate/ring.ts';
import { type PreparedTail, prepareTail } from '../tail/tail.ts';
import { prepareOutput, type PreparedTransmitter, prepareTransmitter } from '../transmitter/outputs.ts';
import type { ReadingPlace } from './readings.ts';
import type { Slot } from './work-machine.ts';

/** A step is this part of a value, or of 1 where that is larger. */
export const STEP = 1e-5;

export type Variant = { k: number; slot: Slot; step: number } & (
  | { group: 'horn'; servo: number; horn?: PreparedHorn }
  | { group: 'servo'; servo: number; horn?: PreparedHorn; lever?: PreparedLever | undefined }
  | { group: 'link'; servo: number }
  | { group: 'ball'; servo: number; ring?: PreparedRing }
  | { group: 'transmitter'; transmitter?: PreparedTransmitter }
  | { group: 'upper'; prepared?: PreparedRig; reaches: (place: ReadingPlace) => boolean }
  | { group: 'whole'; prepared?: PreparedRig }
  | { group: 'tail'; transmitter?: PreparedTransmitter; tail?: PreparedTail | undefined }
);

export function variantOf(path: string, k: number, slot: Slot): Variant {
  const base = { k, slot, step: STEP };
  const servo = /^\/servos\/([0-2])\/(.*)$/.exec(path);
  if (servo) {
    const i = Number(servo[1]);
    const part = servo[2] as string;
    if (part === 'link') return { ...base, group: 'link', servo: i };
    if (part.startsWith('ball/')) return { ...base, group: 'ball', servo: i };
    if (part === 'rate' || part === 'neutral' || part === 'horn/offset') return { ...base, group: 'horn', servo: i };
    return { ...base, group: 'servo', servo: i };
  }
  if (path.startsWith('/tail/') || path.startsWith('/transmitter/rudder/') || path.startsWith('/transmitter/rates/rudder/')) {
    return { ...base, group: 'tail' };
  }
  if (path.startsWith('/transmitter/')) return { ...base, group: 'transmitter' };
  if (path.startsWith('/rotor/') || path.startsWith('/flybar/')) return { ...base, group: 'upper', reaches: reachedFrom(path) };
  return { ...base, group: 'whole' };
}

/** Which readings a part above the ring can move. */
function reachedFrom(path: string): (place: ReadingPlace) => boolean {
  const pair = /^\/(rotor\/links|flybar\/mixing\/rods)\/(\d+)$/.exec(path);
  if (pair) {
    const of = Number(pair[2]) + 1;
    const alone = pair[1] === 'rotor/links';
    return (place) => place.of === of && (place.measure === 'blade-pitch' || (!alone && place.measure === 'mixing-arm'));
  }
  const ofBlade = (place: ReadingPlace) => place.measure === 'blade-pitch' || place.measure === 'mixing-arm';
  if (path.startsWith('/flybar/mixing/')) return ofBlade;
  if (path.startsWith('/flybar/washout/')) return (place) => !ofBlade(place);
  return () => true;
}

/** Prepares the changed stage; `rig` is the working copy that holds the variant's slot. */
export function prepareVariant(variant: Variant, prepared: PreparedRig, rig: Rig): void {
  const { slot } = variant;
  const value = slot.holder[slot.key] as number;
  variant.step = STEP * Math.max(1, Math.abs(value));
  slot.holder[slot.key] = value + variant.step;
  switch (variant.group) {
    case 'horn':
      variant.horn = prepareHorn(rig.servos[variant.servo] as Rig['servos'][0], rig.swash.guide);
      break;
    case 'servo': {
      const servo = rig.servos[variant.servo] as Rig['servos'][0];
      const { lever, horn } = prepared.servos[variant.servo] as PreparedServo;
      variant.horn = slot.path.includes('/horn/') || slot.path.includes('/shaft/') ? prepareHorn(servo, rig.swash.guide) : horn;
      variant.lever =
        lever && servo.lever && servo.pushrod !== undefined
          ? slot.path.endsWith('/pushrod')
            ? { ...lever, pushrodMm: servo.pushrod }
            : prepareLever(servo.lever, servo.pushrod, variant.horn, rig.swash.guide)
          : undefined;
      break;
    }
    case 'ball':
      variant.ring = { ...prepared.ring, balls: Float64Array.from(prepared.ring.balls) };
      placeBall((rig.servos[variant.servo] as Rig['servos'][0]).ball, rig.swash.guide, variant.ring.balls, 3 * variant.servo);
      break;
    case 'transmitter':
      variant.transmitter = transmitterOf(prepared.transmitter, rig, slot);
      break;
    case 'upper':
      variant.prepared = upperOf(prepared, rig, slot);
      break;
    case 'whole':
      variant.prepared = prepare(rig);
      break;
    case 'tail':
      variant.transmitter = slot.path.startsWith('/tail/')
        ? prepared.transmitter
        : prepareTransmitter(rig.transmitter, rig.rotor.rotation);
      variant.tail = rig.tail && prepareTail(rig.tail, rig.transmitter.rudder);
      break;
    case 'link':
      break;
  }
  slot.holder[slot.key] = value;
}

/** The transmitter prepared again, or of its outputs the one alone that has changed. */
function transmitterOf(transmitter: PreparedTransmitter, rig: Rig, slot: Slot): PreparedTransmitter {
  const place = /^\/transmitter\/outputs\/([0-2])\//.exec(slot.path)?.[1];
  if (place === undefined) return prepareTransmitter(rig.transmitter, rig.rotor.rotation);
  const j = Number(place);
  const outputs = transmitter.outputs.slice();
  outputs[j] = prepareOutput(rig.transmitter.outputs[j] as Rig['transmitter']['outputs'][0]);
  return { ...transmitter, outputs };
}

/** The rotor and flybar prepared again; a length alone is put in place. */
function upperOf(prepared: PreparedRig, rig: Rig, slot: Slot): PreparedRig {
  if (slot.path.startsWith('/rotor/links/')) return { ...prepared, bladeLinkMm: Float64Array.from(rig.rotor.links) };
  const { flybar } = prepared;
  if (!flybar || !rig.flybar || !slot.path.startsWith('/flybar/')) return prepare(rig);
  const { washout, mixing } = rig.flybar;
  if (/^\/flybar\/washout\/(links|rods)\//.test(slot.path)) {
    const lengths = { linkMm: Float64Array.from(washout.links), rodMm: Float64Array.from(washout.rods) };
    return { ...prepared, flybar: { ...flybar, washout: { ...flybar.washout, ...lengths } } };
  }
  const end = /^\/flybar\/(washout|mixing)\/(flybarEnd|swashEnd|bladeEnd)\/length$/.exec(slot.path);
  if (end) {
    const length = { [`${end[2]}Mm`]: slot.holder[slot.key] as number };
    const part =
      end[1] === 'washout' ? { washout: { ...flybar.washout, ...length } } : { mixing: { ...flybar.mixing, ...length } };
    return { ...prepared, flybar: { ...flybar, ...part } };
  }
  if (slot.path.startsWith('/flybar/mixing/rods/')) {
    return { ...prepared, flybar: { ...flybar, mixing: { ...flybar.mixing, rodMm: Float64Array.from(mixing.rods) } } };
  }
  return { ...prepared, flybar: prepareFlybarHead(rig.flybar, rig.rotor.driver, rig.swash.height) };
}
