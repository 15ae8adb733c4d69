/**
 * The turning half, second derivation. The turning ring is the level ring tipped without twist to the shared normal, then
 * spun about that normal until its driver lies in its plane. Blades and mixing arms are bisected; the washout's four
 * lengths are four equations followed from the designed pose, then round the disc.
 */
import type { MachineDocument } from '../machines.ts';
import { follow, fromZero, leastSquares, nearestZero, newton } from './solve.ts';
import { type Missing, type RingPath, normalOf } from './swash.ts';
import { DEG, type Mat, UP, type Vec, add, apply, cross, dot, norm, product, rotation, sub, times, toward } from './vectors.ts';

/** Directions of the rotor at one psi of blade 1 (degrees). */
interface RotorFrame {
  /** horizontal unit vector at an azimuth relative to blade 1, degrees */
  at(relative: number): Vec;
  /** the direction of rotation at that azimuth */
  ahead(relative: number): Vec;
}

function rotorFrame(document: MachineDocument, psi: number): RotorFrame {
  const sense = document.rotor.rotation === 'counterclockwise' ? 1 : -1;
  const at = (relative: number) => toward((180 + sense * (psi + relative)) * DEG);
  return { at, ahead: (relative) => at(relative + 90) };
}

/** Takes a point of the level turning ring, given by its level place about the centre, to the machine. */
function turningRing(document: MachineDocument, frame: RotorFrame, ring: RingPath): (level: Vec) => Vec {
  const n = normalOf(ring);
  const axis = cross(UP, n);
  const sine = norm(axis);
  const tilt = Math.atan2(sine, n[2]);
  const tip: Mat = rotation(sine > 0 ? times(tilt / sine, axis) : [0, 0, 0]);
  const driver = frame.at(document.rotor.driver ?? 0);
  const across = frame.ahead(document.rotor.driver ?? 0);
  // A spin s takes the driver to cos s d + sin s (up x d) before the tip: how far that ends out of the driver's plane.
  const byCosine = dot(apply(tip, driver), across);
  const bySine = dot(apply(tip, cross(UP, driver)), across);
  const outOfPlane = (spin: number) => byCosine * Math.cos(spin) + bySine * Math.sin(spin);
  // The twist is below 20 degrees for any tilt up to 60; between the ends the driver passes its plane once.
  let low = -1;
  let high = 1;
  const rising = outOfPlane(high) > outOfPlane(low);
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (outOfPlane(middle) < 0 === rising) low = middle;
    else high = middle;
  }
  const turn = product(tip, rotation(times((low + high) / 2, UP)));
  return (level) => add(ring.centre, apply(turn, level));
}

interface RingBallLike {
  radius: number;
  azimuth: number;
  height?: number;
}

const levelPlace = (frame: RotorFrame, ball: RingBallLike, extra: number): Vec =>
  add(times(ball.radius, frame.at(ball.azimuth + extra)), times(ball.height ?? 0, UP));

function bladeArm(document: MachineDocument, frame: RotorFrame, relative: number): (pitch: number) => Vec {
  const { hubHeight, pitchArm } = document.rotor;
  const h = pitchArm.height ?? 0;
  return (pitch) =>
    add(
      add(
        times(pitchArm.station, frame.at(relative)),
        times(pitchArm.lead * Math.cos(pitch) - h * Math.sin(pitch), frame.ahead(relative)),
      ),
      times(hubHeight + pitchArm.lead * Math.sin(pitch) + h * Math.cos(pitch), UP),
    );
}

/** Pitch in degrees of blade k (from 0) on a head with direct links. */
export function directBlade(
  document: MachineDocument,
  ring: RingPath,
  psi: number,
  k: number,
): { pitch: number } | { missing: Missing } {
  const { rotor } = document;
  const frame = rotorFrame(document, psi);
  const relative = (360 * k) / rotor.blades;
  if (!rotor.ring) throw new RangeError('rotor.ring: got nothing, expected the ring ball of a head without flybar');
  const ball = turningRing(document, frame, ring)(levelPlace(frame, rotor.ring, relative));
  const found = nearestZero(bladeArm(document, frame, relative), ball, rotor.links[k] ?? Number.NaN);
  return 'short' in found ? { missing: { path: `/rotor/links/${k}`, short: found.short } } : { pitch: found.angle / DEG };
}

export interface FlybarPose {
  washout: number;
  washoutArms: [number, number];
  paddle: number;
}

const EVERY_PAIR = [0, 180] as const;

/** The flybar's point at (along, ahead, up) from its centre, after paddle pitch and then teeter (radians). */
function onFlybar(document: MachineDocument, frame: RotorFrame, local: Vec, paddle: number, teeter: number): Vec {
  const flybar = document.flybar;
  if (!flybar) throw new RangeError('flybar: got nothing, expected a flybar head');
  const along = frame.at(flybar.azimuth);
  const ahead = frame.ahead(flybar.azimuth);
  const [a, b, c] = local;
  const pitched: Vec = [a, b * Math.cos(paddle) - c * Math.sin(paddle), b * Math.sin(paddle) + c * Math.cos(paddle)];
  const tipped: Vec = [
    pitched[0] * Math.cos(teeter) - pitched[2] * Math.sin(teeter),
    pitched[1],
    pitched[0] * Math.sin(teeter) + pitched[2] * Math.cos(teeter),
  ];
  return add(add(times(tipped[0], along), times(tipped[1], ahead)), times(flybar.height + tipped[2], UP));
}

/**
 * The washout's equations at one psi: the four lengths that rods and links have, [rod, rod, link, link], at x = [base,
 * arm, arm, paddle].
 */
function washoutLengths(document: MachineDocument, psi: number) {
  const { washout, arm } = document.flybar ?? {};
  if (!washout || !arm) throw new RangeError('flybar: got nothing, expected a flybar head');
  const frame = rotorFrame(document, psi);
  const pivots = EVERY_PAIR.map((half) => levelPlace(frame, washout.pivot, half));
  const planes = EVERY_PAIR.map((half) => frame.at(washout.azimuth + half));
  const ringBalls = EVERY_PAIR.map((half) => levelPlace(frame, washout.ring, half));
  const controlArms: Vec[] = [
    [arm.station, arm.lead, arm.height ?? 0],
    [-arm.station, -arm.lead, arm.height ?? 0],
  ];
  const onArm = (base: number, k: number, end: { length: number; angle: number }, angle: number): Vec => {
    const direction = planes[k] ?? UP;
    const turned = end.angle * DEG + angle;
    return add(
      add(pivots[k] ?? UP, times(base, UP)),
      add(times(end.length * Math.cos(turned), direction), times(end.length * Math.sin(turned), UP)),
    );
  };
  return (ring: RingPath, teeter: number) => {
    const toMachine = turningRing(document, frame, ring);
    const balls = ringBalls.map(toMachine);
    return (x: number[]): number[] => {
      const [base = Number.NaN, first = Number.NaN, second = Number.NaN, paddle = Number.NaN] = x;
      const angles = [first, second];
      const rods = angles.map((angle, k) =>
        norm(sub(onArm(base, k, washout.flybarEnd, angle), onFlybar(document, frame, controlArms[k] ?? UP, paddle, teeter))),
      );
      const links = angles.map((angle, k) => norm(sub(onArm(base, k, washout.swashEnd, angle), balls[k] ?? UP)));
      return [...rods, ...links];
    };
  };
}

/**
 * The washout at one psi (degrees) with the flybar held at `teeter` (degrees), reached from the designed pose along the
 * ring's own path.
 */
export function closeWashout(
  document: MachineDocument,
  path: RingPath[],
  psi: number,
  teeter: number,
): FlybarPose | { missing: Missing } {
  const washout = document.flybar?.washout;
  const [level] = path;
  if (!washout || !level) throw new RangeError('flybar: got nothing, expected a flybar head and a ring path');
  const lengths = washoutLengths(document, psi);
  const start = [washout.height, 0, 0, 0];
  const designed = lengths(level, 0)(start);
  const wanted = [...washout.rods, ...washout.links];
  const steps = path.length - 1;
  const mixed = (t: number) => designed.map((length, i) => length + t * ((wanted[i] ?? Number.NaN) - length));
  let x = start;
  for (let i = 1; i <= steps; i++) {
    const from = path[i - 1];
    const to = path[i];
    if (!from || !to) break;
    const stretch = follow(
      (s, y) => {
        const t = (i - 1 + s) / steps;
        return lengths(between(from, to, s), t * teeter * DEG)(y).map((length, j) => length - (mixed(t)[j] ?? Number.NaN));
      },
      x,
      1,
    );
    x = stretch.x;
    if (stretch.t < 1) {
      const end = path[steps] ?? to;
      const miss = (y: number[]) => lengths(end, teeter * DEG)(y).map((length, j) => length - (wanted[j] ?? Number.NaN));
      const left = miss(leastSquares(miss, x)).map(Math.abs);
      const worst = left.indexOf(Math.max(...left));
      const path_ = ['rods/0', 'rods/1', 'links/0', 'links/1'][worst] ?? '';
      return { missing: { path: `/flybar/washout/${path_}`, short: left[worst] ?? Number.NaN } };
    }
  }
  return toPose(x);
}

/** The washout at a psi near one already solved: the same branch, continued. */
export function continueWashout(
  document: MachineDocument,
  ring: RingPath,
  psi: number,
  teeter: number,
  near: FlybarPose,
): FlybarPose | undefined {
  const washout = document.flybar?.washout;
  if (!washout) return undefined;
  const wanted = [...washout.rods, ...washout.links];
  const lengths = washoutLengths(document, psi)(ring, teeter * DEG);
  const x = newton(
    (y) => lengths(y).map((length, i) => length - (wanted[i] ?? Number.NaN)),
    [near.washout, near.washoutArms[0] * DEG, near.washoutArms[1] * DEG, near.paddle * DEG],
  );
  return x && toPose(x);
}

function toPose([washout = Number.NaN, first = Number.NaN, second = Number.NaN, paddle = Number.NaN]: number[]): FlybarPose {
  return { washout, washoutArms: [first / DEG, second / DEG], paddle: paddle / DEG };
}

/** Mixing arm k and its blade on a flybar head, teeter in degrees. */
export function flybarBlade(
  document: MachineDocument,
  path: RingPath[],
  psi: number,
  k: 0 | 1,
  teeter: number,
): { pitch: number; mixingArm: number } | { missing: Missing } {
  const mixing = document.flybar?.mixing;
  const flybarHeight = document.flybar?.height ?? Number.NaN;
  const flybarAzimuth = document.flybar?.azimuth ?? Number.NaN;
  const level = path[0];
  const end = path[path.length - 1];
  if (!mixing || !level || !end) throw new RangeError('flybar: got nothing, expected a flybar head and a ring path');
  const frame = rotorFrame(document, psi);
  const half = EVERY_PAIR[k];
  const plane = frame.at(mixing.azimuth + half);
  const pivot: Vec = add(times(mixing.pivot.radius, frame.at(mixing.pivot.azimuth + half)), times(mixing.pivot.height, UP));
  // Teeter as a rotation vector: paddle 1's end goes up when the flybar turns from its own direction toward the zenith.
  const teeterAxis = cross(frame.at(flybarAzimuth), UP);
  const carried = (t: number, point: Vec): Vec => {
    const centre: Vec = [0, 0, flybarHeight];
    return add(centre, apply(rotation(times(t * teeter * DEG, teeterAxis)), sub(point, centre)));
  };
  const onArm = (arm: { length: number; angle: number }, t: number) => (angle: number) => {
    const turned = arm.angle * DEG + angle;
    return carried(t, add(pivot, add(times(arm.length * Math.cos(turned), plane), times(arm.length * Math.sin(turned), UP))));
  };
  const ballLevel = levelPlace(frame, mixing.ring, half);
  const ballAt = (t: number) => {
    const steps = path.length - 1;
    const i = Math.min(steps - 1, Math.floor(t * steps));
    return turningRing(document, frame, between(path[i] ?? end, path[i + 1] ?? end, t * steps - i))(ballLevel);
  };
  const designed = norm(sub(onArm(mixing.swashEnd, 0)(0), ballAt(0)));
  const rod = mixing.rods[k];
  const found = fromZero(
    (t) => onArm(mixing.swashEnd, t),
    ballAt,
    (t) => designed + t * (rod - designed),
    path.length - 1,
  );
  if ('short' in found) return { missing: { path: `/flybar/mixing/rods/${k}`, short: found.short } };
  const lowerEye = onArm(mixing.bladeEnd, 1)(found.angle);
  const blade = nearestZero(bladeArm(document, frame, half), lowerEye, document.rotor.links[k] ?? Number.NaN);
  if ('short' in blade) return { missing: { path: `/rotor/links/${k}`, short: blade.short } };
  return { pitch: blade.angle / DEG, mixingArm: found.angle / DEG };
}

/** A ring between two solved poses, for following branches only: at s = 0 and 1 exactly the poses themselves. */
function between(from: RingPath, to: RingPath, s: number): RingPath {
  if (s <= 0) return from;
  if (s >= 1) return to;
  const n0 = normalOf(from);
  const n1 = normalOf(to);
  const mixed = add(times(1 - s, n0), times(s, n1));
  const n = times(1 / norm(mixed), mixed);
  const axis = cross(UP, n);
  const sine = norm(axis);
  return {
    centre: add(times(1 - s, from.centre), times(s, to.centre)),
    turn: rotation(sine > 0 ? times(Math.atan2(sine, n[2]) / sine, axis) : [0, 0, 0]),
  };
}
