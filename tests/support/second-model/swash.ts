/**
 * Pulses to the stationary ring, second derivation: the ring is a free body with a height and a rotation vector; three link
 * lengths and the guide are four equations, followed in small steps from the designed pose.
 */
import type { Point } from '../../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from '../machines.ts';
import { follow, fromZero, leastSquares } from './solve.ts';
import { DEG, type Mat, UP, type Vec, add, apply, dot, norm, product, rotation, sub, times, toward } from './vectors.ts';

type ServoDocument = MachineDocument['servos'][number];

export interface Missing {
  path: string;
  short: number;
  /** the nearest pose has the ring tipped by more than 60 degrees, where nothing of a swashplate is left */
  turnedOver?: true;
}

export interface ServoPose {
  horn: number;
  lever?: number;
}

/** The ring at the fraction t of the way from the designed pose. */
export interface RingPath {
  centre: Vec;
  turn: Mat;
}

export interface SwashAnswer {
  servos: ServoPose[];
  missing?: Missing;
  /** poses at t = 0, ..., 1, evenly; absent where the ring cannot close */
  path?: RingPath[];
}

/** Of parts that cannot close, the one that misses by most. */
export function worstOf(missing: (Missing | undefined)[]): Missing | undefined {
  return missing.reduce((worst, next) => (next && !(worst && worst.short >= next.short) ? next : worst), undefined);
}

export const PATH_STEPS = 6;

export function hornAngle(
  servo: { neutral?: number; sense?: 1 | -1; rate?: number },
  horn: { teeth?: number; tooth?: number; offset?: number },
  pulse: number,
): number {
  const turned = (servo.sense ?? 1) * (pulse - (servo.neutral ?? 1520)) * (servo.rate ?? 0.1);
  return turned + ((horn.tooth ?? 0) * 360) / (horn.teeth ?? 25) + (horn.offset ?? 0);
}

/**
 * A ball on an arm that turns about a horizontal axis through `pivot`, in the vertical plane through direction `azimuth`
 * (degrees).
 */
export function armBall(pivot: Point, azimuth: number, length: number, angle: number): Vec {
  return add(pivot, add(times(length * Math.cos(angle), toward(azimuth * DEG)), times(length * Math.sin(angle), UP)));
}

function lowerEyeAt(servo: ServoDocument, horn: number): { at: (t: number) => Vec; lever?: number; missing?: Missing } {
  const hornBall = (t: number) => armBall(servo.shaft, servo.horn.azimuth, servo.horn.length, t * horn * DEG);
  const { lever } = servo;
  if (!lever) return { at: hornBall };
  const servoEnd = (a: number) => armBall(lever.pivot, lever.azimuth, lever.servoEnd.length, lever.servoEnd.angle * DEG + a);
  const designed = norm(sub(servoEnd(0), hornBall(0)));
  const rod = (t: number) => designed + t * ((servo.pushrod ?? Number.NaN) - designed);
  const angleAt = (t: number) =>
    fromZero(
      () => servoEnd,
      (s) => hornBall(s * t),
      (s) => rod(s * t),
    );
  const end = angleAt(1);
  if ('short' in end) return { at: hornBall, missing: { path: '', short: end.short } };
  const at = (t: number) => {
    const found = angleAt(t);
    const angle = 'short' in found ? Number.NaN : found.angle;
    return armBall(lever.pivot, lever.azimuth, lever.swashEnd.length, lever.swashEnd.angle * DEG + angle);
  };
  return { at, lever: end.angle / DEG };
}

export function closeSwash(document: MachineDocument, pulse: readonly number[]): SwashAnswer {
  const { servos, swash } = document;
  const eyes = servos.map((servo) => {
    const horn = hornAngle(servo, servo.horn, pulse[(servo.output ?? 0) - 1] ?? Number.NaN);
    return { horn, ...lowerEyeAt(servo, horn) };
  });
  const poses = eyes.map(({ horn, lever }): ServoPose => (lever === undefined ? { horn } : { horn, lever }));
  const missing = worstOf(eyes.map((eye, i) => eye.missing && { path: `/servos/${i}/pushrod`, short: eye.missing.short }));
  if (missing) return { servos: poses, missing };

  const balls = servos.map(({ ball }): Vec => [...cylinder(ball.radius, ball.azimuth), ball.height ?? 0]);
  const guide = toward(swash.guide * DEG);
  const acrossGuide = toward(swash.guide * DEG + Math.PI / 2);
  const eyesAt = new Map<number, Vec[]>();
  const lowerEyes = (t: number) => {
    let known = eyesAt.get(t);
    if (!known) {
      known = eyes.map(({ at }) => at(t));
      eyesAt.set(t, known);
    }
    return known;
  };
  const ballsAt = ([z, ...w]: number[]) => {
    const turn = rotation(w as Vec);
    return { turn, at: balls.map((ball) => add([0, 0, z ?? Number.NaN], apply(turn, ball))) };
  };
  const designed = ballsAt([swash.height, 0, 0, 0]).at.map((ball, i) => norm(sub(ball, lowerEyes(0)[i] ?? ball)));
  const misses = (t: number, x: number[]) => {
    const { turn, at } = ballsAt(x);
    const links = at.map((ball, i) => {
      const link = (designed[i] ?? 0) + t * ((servos[i]?.link ?? Number.NaN) - (designed[i] ?? 0));
      return norm(sub(ball, lowerEyes(t)[i] ?? ball)) - link;
    });
    return [...links, dot(apply(turn, guide), acrossGuide)];
  };

  const linkMisses = (turn: Mat, z: number) =>
    balls.map(
      (ball, i) => norm(sub(add([0, 0, z], apply(turn, ball)), lowerEyes(1)[i] ?? ball)) - (servos[i]?.link ?? Number.NaN),
    );
  const path: RingPath[] = [{ centre: [0, 0, swash.height], turn: rotation([0, 0, 0]) }];
  let x = [swash.height, 0, 0, 0];
  for (let i = 1; i <= PATH_STEPS; i++) {
    const stretch = follow((s, y) => misses((i - 1 + s) / PATH_STEPS, y), x, 1);
    x = stretch.x;
    if (stretch.t < 1) return { servos: poses, missing: nearestMiss(linkMisses, swash.guide * DEG, x) };
    path.push({ centre: [0, 0, x[0] ?? Number.NaN], turn: ballsAt(x).turn });
  }
  return { servos: poses, path };
}

/**
 * Where the ring cannot close: the pose of least squares of the three links nearest to where the branch ended, the guide
 * kept exactly by composing two turns in the guide's own axes (a pin on x that stays in the x-z plane is Ry Rx).
 */
function nearestMiss(linkMisses: (turn: Mat, z: number) => number[], guide: number, end: number[]): Missing {
  const misses = ([z = Number.NaN, p = Number.NaN, r = Number.NaN]: number[]) =>
    linkMisses(
      product(rotation([0, 0, guide]), product(rotation([0, p, 0]), product(rotation([r, 0, 0]), rotation([0, 0, -guide])))),
      z,
    );
  // A nudge, so that a start on the axis of symmetry does not stay there.
  const [z = Number.NaN, ...w] = end;
  const turn = product(rotation([0, 0, -guide]), product(rotation(w as Vec), rotation([0, 0, guide])));
  const x = leastSquares(misses, [z, Math.atan2(turn[0][2], turn[2][2]) + 1e-3, -Math.asin(turn[1][2]) + 1e-3]);
  const left = misses(x).map(Math.abs);
  const worst = left.indexOf(Math.max(...left));
  const upright = Math.cos(x[1] ?? Number.NaN) * Math.cos(x[2] ?? Number.NaN);
  return { path: `/servos/${worst}/link`, short: left[worst] ?? Number.NaN, ...(upright > 0.5 ? {} : { turnedOver: true }) };
}

/** [x, y] at a radius and an azimuth in degrees. */
export function cylinder(radius: number, azimuth: number): [number, number] {
  return [radius * Math.cos(azimuth * DEG), radius * Math.sin(azimuth * DEG)];
}

/** Normal of the ring. */
export const normalOf = (pose: RingPath): Vec => apply(pose.turn, UP);
