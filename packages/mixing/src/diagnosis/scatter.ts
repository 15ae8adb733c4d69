/**
 * The scatter that every machine has: one standard deviation of each value of the record, in the value's own unit.
 * Part of the model and no fault. Common practice, no source; `known` in the rig document says better for single values.
 */
import type { Rig } from '../rig/rig.ts';

export const USUAL_SCATTER = {
  /** part of the servo's rate */
  servoRate: 0.02,
  hornOffsetDeg: 1,
  hornAzimuthDeg: 1,
  /** ring links, pushrods, levers, rods, washout, mixing and tail parts */
  linkMm: 0.1,
  /** made in pairs */
  bladeLinkMm: 0.03,
  ballRadiusMm: 0.1,
  ballAzimuthDeg: 0.5,
} as const;

/** Every scattering value of a rig by its JSON Pointer, with its standard deviation; those of no spread are left out. */
export function scatterOf(rig: Rig): Map<string, number> {
  const sd = new Map<string, number>();
  const { linkMm } = USUAL_SCATTER;
  rig.servos.forEach((servo, i) => {
    const at = `/servos/${i}`;
    sd.set(`${at}/rate`, servo.rate * USUAL_SCATTER.servoRate);
    sd.set(`${at}/horn/offset`, USUAL_SCATTER.hornOffsetDeg);
    sd.set(`${at}/horn/azimuth`, USUAL_SCATTER.hornAzimuthDeg);
    sd.set(`${at}/link`, linkMm);
    sd.set(`${at}/ball/radius`, USUAL_SCATTER.ballRadiusMm);
    sd.set(`${at}/ball/azimuth`, USUAL_SCATTER.ballAzimuthDeg);
    if (servo.lever) {
      sd.set(`${at}/pushrod`, linkMm);
      sd.set(`${at}/lever/servoEnd/length`, linkMm);
      sd.set(`${at}/lever/swashEnd/length`, linkMm);
    }
  });
  rig.rotor.links.forEach((_, k) => sd.set(`/rotor/links/${k}`, USUAL_SCATTER.bladeLinkMm));
  if (rig.flybar) {
    for (const part of [
      'washout/flybarEnd/length',
      'washout/swashEnd/length',
      'washout/links/0',
      'washout/links/1',
      'washout/rods/0',
      'washout/rods/1',
      'mixing/swashEnd/length',
      'mixing/bladeEnd/length',
      'mixing/rods/0',
      'mixing/rods/1',
    ]) {
      sd.set(`/flybar/${part}`, linkMm);
    }
  }
  if (rig.tail) {
    sd.set('/tail/servo/rate', rig.tail.servo.rate * USUAL_SCATTER.servoRate);
    sd.set('/tail/servo/horn/offset', USUAL_SCATTER.hornOffsetDeg);
    for (const part of ['rod', 'lever/servoEnd/length', 'lever/sliderEnd/length', 'grip/link']) sd.set(`/tail/${part}`, linkMm);
  }
  for (const { path, sd: own } of rig.known) {
    if (own > 0) sd.set(path, own);
    else sd.delete(path);
  }
  return sd;
}
