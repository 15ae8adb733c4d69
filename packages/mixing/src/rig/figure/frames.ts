/**
 * From the frames in which a machine is posed to the machine frame F in which it is drawn: places mm, rotations row-major.
 */
import type { Pose } from '../pose.ts';
import { cosDeg, sinDeg } from '../../quantities/angles.ts';
import { RING } from '../../swashplate/ring.ts';
import type { PreparedRig } from '../prepare.ts';
import type { Point } from '../rig.ts';

export function fromG(prepared: PreparedRig, x: number, y: number, z: number): Point {
  const { guideCos: c, guideSin: s } = prepared.ring;
  return [x * c - y * s, x * s + y * c, z];
}

export function at3(prepared: PreparedRig, places: Float64Array, at: number): Point {
  return fromG(prepared, places[at] as number, places[at + 1] as number, places[at + 2] as number);
}

/** The stationary ring's rotation in G, row-major: Ry(p) Rx(r). */
export function ringRotationG(pose: Pose): number[] {
  const a = pose.ring[RING.A] as number;
  const b = pose.ring[RING.B] as number;
  const cp = (1 - a * a) / (1 + a * a);
  const sp = (2 * a) / (1 + a * a);
  const cr = (1 - b * b) / (1 + b * b);
  const sr = (2 * b) / (1 + b * b);
  return [cp, sp * sr, sp * cr, 0, cr, -sr, -sp, cp * sr, cp * cr];
}

export type ToF = (place: Point) => Point;

/** From R of blade 1 to F, blade 1 at psi given by cosine and sine. */
export function rotorToMachine(prepared: PreparedRig, psiCos: number, psiSin: number): ToF {
  const sign = prepared.rotation;
  return ([x, y, z]) => [-(x * psiCos - y * psiSin), -sign * (x * psiSin + y * psiCos), z];
}

export function bladeFrame(prepared: PreparedRig, c: number, s: number, k: number): ToF {
  const [bc, bs] = [prepared.bladeCos[k] as number, prepared.bladeSin[k] as number];
  return rotorToMachine(prepared, c * bc - s * bs, s * bc + c * bs);
}

export function pairs(places: Float64Array, toF: ToF): Point[] {
  return [0, 3].map((at) => toF([places[at] as number, places[at + 1] as number, places[at + 2] as number]));
}

export function turnedRotation(prepared: PreparedRig, pose: Pose): number[] {
  const r = ringRotationG(pose);
  const { guideCos: c, guideSin: s } = prepared.ring;
  // Rz(g) R Rz(-g)
  const left = [0, 1, 2].map((j) => [
    c * (r[j] as number) - s * (r[3 + j] as number),
    s * (r[j] as number) + c * (r[3 + j] as number),
    r[6 + j] as number,
  ]);
  return [0, 1, 2].flatMap((row) => {
    const [x, y, z] = [0, 1, 2].map((j) => (left[j] as number[])[row] as number) as Point;
    return [x * c - y * s, x * s + y * c, z];
  });
}

/** Columns: the turning ring's own directions along blade 1, the way it goes, and its normal. */
export function turningRotation(prepared: PreparedRig, normal: Point, azimuthDeg: number): number[] {
  const sign = prepared.rotation;
  const driverDeg = prepared.rig.rotor.driver;
  const machineDeg = 180 + sign * (azimuthDeg + driverDeg);
  const [dx, dy] = [cosDeg(machineDeg), sinDeg(machineDeg)];
  const [nx, ny, nz] = normal;
  const nd = nx * dx + ny * dy;
  const m = Math.hypot(nz, nd);
  const e1: Point = [(nz * dx) / m, (nz * dy) / m, -nd / m];
  const e2: Point = [ny * e1[2] - nz * e1[1], nz * e1[0] - nx * e1[2], nx * e1[1] - ny * e1[0]];
  const [c, s] = [cosDeg(driverDeg), sign * sinDeg(driverDeg)];
  const along = e1.map((value, i) => value * c - (e2[i] as number) * s);
  const across = e1.map((value, i) => sign * (value * s + (e2[i] as number) * c));
  return [0, 1, 2].flatMap((i) => [along[i] as number, across[i] as number, normal[i] as number]);
}
