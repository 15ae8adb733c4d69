/**
 * Every drawn ball's place: what a picture of the machine at one case is made of, so that drawing computes no pose.
 * Places in the machine frame F, mm; the tail in its own T. A part that cannot be reached, and what lies after it, is absent.
 */
import { controlArmBall } from '../flybar/washout.ts';
import { WASHOUT } from '../flybar/washout.ts';
import { mixingPoint } from '../flybar/mixing.ts';
import { cosDeg, radOf, sinDeg } from '../quantities/angles.ts';
import { closeTail, tailHornBall, type TailPose } from '../tail/tail.ts';
import { RING } from '../swashplate/ring.ts';
import { checkCase } from './case.ts';
import { type Pose, poseHead, poseRing, ringNormalInF, setHorns, setSticks, settleFlybar } from './pose.ts';
import { poseOf, predictTail, unreachableOf } from './predict.ts';
import type { PreparedRig, PreparedServo } from './prepare.ts';
import type { Case, Point, Unreachable } from './rig.ts';

export interface ServoFigure {
  shaft: Point;
  hornBall: Point;
  lever?: { pivot: Point; servoEnd: Point; swashEnd: Point };
  /** the ball on the stationary ring */
  ringBall?: Point;
}

export interface BladeFigure {
  /** where the feathering axis meets the mast */
  root: Point;
  /** unit, outward along the blade */
  direction: Point;
  /** unit, the way the blade goes */
  leading: Point;
  pitchRad: number;
  armBall: Point;
  /** the lower eye of the blade's link: ring ball, or a mixing arm's blade end */
  lowerEye: Point;
}

export interface Figure {
  servos: ServoFigure[];
  swash?: {
    centre: Point;
    normal: Point;
    /** rotation of the stationary half in F, row-major 3 x 3: identity when level */
    stationary: number[];
    /** rotation of the turning half in F: its first column points along blade 1 and its second the way blade 1 goes, when level */
    rotating: number[];
    /** the turning half's own balls: one a blade, or on a flybar head washout 1 and 2, mixing 1 and 2 */
    rotatingBalls: Point[];
  };
  blades?: BladeFigure[];
  flybar?: {
    centre: Point;
    /** unit, toward paddle 1's end */
    axis: Point;
    /** unit, across, the way paddle 1 goes */
    across: Point;
    paddleRad: number;
    teeterRad: number;
    armBalls: [Point, Point];
    washoutBase: Point;
    washout: { pivot: Point; flybarEnd: Point; swashEnd: Point; ringBall: Point }[];
    mixing: { pivot: Point; swashEnd: Point; bladeEnd: Point; ringBall: Point }[];
  };
  tail?: {
    shaft: Point;
    hornBall: Point;
    leverPivot: Point;
    leverServoEnd?: Point;
    leverSliderEnd?: Point;
    /** mm */
    slider?: number;
    pitchRad?: number;
    /** in the blade's own section: x from the feathering axis toward the pitch arm, then v */
    grip?: { armBall: [number, number]; spiderBall: [number, number] };
    unreachable?: Unreachable;
  };
  unreachable?: Unreachable;
}

/** The figure at a case. @throws CaseError as `predict` does */
export function figure(prepared: PreparedRig, kase: Case): Figure {
  const mode = checkCase(prepared.transmitter, kase);
  const pose = poseOf(prepared);
  setSticks(prepared, pose, mode, kase.collective ?? 0, kase.elevator ?? 0, kase.aileron ?? 0);
  setHorns(prepared, pose);
  const reached = poseRing(prepared, pose);
  const drawn: Figure = { servos: prepared.servos.map((servo, i) => servoFigure(prepared, pose, servo, i, reached)) };
  if (reached) headFigure(prepared, pose, kase, drawn);
  if (pose.miss) drawn.unreachable = unreachableOf(pose.miss);
  if (prepared.tail) drawn.tail = tailFigure(prepared, kase);
  return drawn;
}

function fromG(prepared: PreparedRig, x: number, y: number, z: number): Point {
  const { guideCos: c, guideSin: s } = prepared.ring;
  return [x * c - y * s, x * s + y * c, z];
}

function at3(prepared: PreparedRig, places: Float64Array, at: number): Point {
  return fromG(prepared, places[at] as number, places[at + 1] as number, places[at + 2] as number);
}

/** The stationary ring's rotation in G, row-major: Ry(p) Rx(r). */
function ringRotationG(pose: Pose): number[] {
  const a = pose.ring[RING.A] as number;
  const b = pose.ring[RING.B] as number;
  const cp = (1 - a * a) / (1 + a * a);
  const sp = (2 * a) / (1 + a * a);
  const cr = (1 - b * b) / (1 + b * b);
  const sr = (2 * b) / (1 + b * b);
  return [cp, sp * sr, sp * cr, 0, cr, -sr, -sp, cp * sr, cp * cr];
}

function servoFigure(prepared: PreparedRig, pose: Pose, servo: PreparedServo, i: number, reached: boolean): ServoFigure {
  const { horn, lever } = servo;
  const drawn: ServoFigure = {
    shaft: fromG(prepared, horn.shaftX, horn.shaftY, horn.shaftZ),
    hornBall: at3(prepared, pose.hornBalls, 3 * i),
  };
  const turn = pose.leverTurn[i] as Float64Array;
  if (lever && turn[0] === turn[0]) {
    const out = lever.servoEndMm * (turn[0] as number);
    drawn.lever = {
      pivot: fromG(prepared, lever.pivotX, lever.pivotY, lever.pivotZ),
      servoEnd: fromG(
        prepared,
        lever.pivotX + out * lever.directionX,
        lever.pivotY + out * lever.directionY,
        lever.pivotZ + lever.servoEndMm * (turn[1] as number),
      ),
      swashEnd: at3(prepared, pose.eyes, 3 * i),
    };
  }
  if (reached) {
    const r = ringRotationG(pose);
    const [x, y, h] = [0, 1, 2].map((k) => prepared.ring.balls[3 * i + k] as number) as Point;
    const [px, py, pz] = [0, 3, 6].map(
      (row) => (r[row] as number) * x + (r[row + 1] as number) * y + (r[row + 2] as number) * h,
    ) as Point;
    drawn.ringBall = fromG(prepared, px, py, (pose.ring[RING.Z] as number) + pz);
  }
  return drawn;
}

function headFigure(prepared: PreparedRig, pose: Pose, kase: Case, drawn: Figure): void {
  const azimuthDeg = kase.azimuth ?? 0;
  const [c, s] = [cosDeg(azimuthDeg), sinDeg(azimuthDeg)];
  const normal = ringNormalInF(prepared, pose);
  const z = pose.ring[RING.Z] as number;
  let teeterRad = radOf(kase.teeter ?? 0);
  let closed = true;
  if (kase.settled && prepared.flybar) {
    closed = settleFlybar(prepared, pose);
    teeterRad = pose.wave.cosine * c + pose.wave.sine * s;
  }
  const toF = rotorToMachine(prepared, c, s);
  drawn.swash = {
    centre: [0, 0, z],
    normal,
    stationary: turnedRotation(prepared, pose),
    rotating: turningRotation(prepared, normal, azimuthDeg),
    rotatingBalls: [],
  };
  if (!closed) return;
  closed = poseHead(prepared, pose, c, s, teeterRad);
  if (prepared.flybar) {
    drawn.swash.rotatingBalls = [...pairs(pose.flybar.washoutBalls, toF), ...pairs(pose.flybar.mixingBalls, toF)];
  }
  const blades: BladeFigure[] = prepared.rig.rotor.links.map((_, k) => {
    const bladeToF = bladeFrame(prepared, c, s, k);
    const half = (pose.pitchRad[k] as number) / 2;
    const [cos, sin] = [Math.cos(2 * half), Math.sin(2 * half)];
    const { station, lead, height, hubHeight } = prepared.blade;
    return {
      root: [0, 0, hubHeight],
      direction: bladeToF([1, 0, 0]),
      leading: bladeToF([0, 1, 0]),
      pitchRad: pose.pitchRad[k] as number,
      armBall: bladeToF([station, lead * cos - height * sin, hubHeight + lead * sin + height * cos]),
      lowerEye: bladeToF([0, 1, 2].map((m) => pose.bladeEyes[3 * k + m] as number) as Point),
    };
  });
  if (!prepared.flybar) drawn.swash.rotatingBalls = blades.map((blade) => blade.lowerEye);
  if (!closed) return;
  drawn.blades = blades;
  if (prepared.flybar) drawn.flybar = flybarFigure(prepared, pose, teeterRad, toF);
}

type ToF = (place: Point) => Point;

/** From R of blade 1 to F, blade 1 at psi given by cosine and sine. */
function rotorToMachine(prepared: PreparedRig, psiCos: number, psiSin: number): ToF {
  const sign = prepared.rotation;
  return ([x, y, z]) => [-(x * psiCos - y * psiSin), -sign * (x * psiSin + y * psiCos), z];
}

function bladeFrame(prepared: PreparedRig, c: number, s: number, k: number): ToF {
  const [bc, bs] = [prepared.bladeCos[k] as number, prepared.bladeSin[k] as number];
  return rotorToMachine(prepared, c * bc - s * bs, s * bc + c * bs);
}

function pairs(places: Float64Array, toF: ToF): Point[] {
  return [0, 3].map((at) => toF([places[at] as number, places[at + 1] as number, places[at + 2] as number]));
}

function turnedRotation(prepared: PreparedRig, pose: Pose): number[] {
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
function turningRotation(prepared: PreparedRig, normal: Point, azimuthDeg: number): number[] {
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

function flybarFigure(prepared: PreparedRig, pose: Pose, teeterRad: number, toF: ToF): NonNullable<Figure['flybar']> {
  const head = prepared.flybar as NonNullable<PreparedRig['flybar']>;
  const w = head.washout;
  const [tc, ts] = [Math.cos(teeterRad), Math.sin(teeterRad)];
  const state = pose.flybar.washout;
  const paddleRad = state[WASHOUT.PADDLE] as number;
  const arm = new Float64Array(6);
  const armBalls = ([0, 1] as const).map((side) => {
    controlArmBall(w, side, Math.cos(paddleRad), Math.sin(paddleRad), tc, ts, arm);
    return toF([arm[0] as number, arm[1] as number, arm[2] as number]);
  }) as [Point, Point];
  const baseZ = state[WASHOUT.H] as number;
  const washoutBalls = pairs(pose.flybar.washoutBalls, toF);
  const mixingBalls = pairs(pose.flybar.mixingBalls, toF);
  const washout = ([0, 1] as const).map((side) => {
    const turn = side === 0 ? 1 : -1;
    const angle = state[WASHOUT.ARM1 + side] as number;
    const [c, s] = [Math.cos(angle), Math.sin(angle)];
    const end = (length: number, cos: number, sin: number): Point => {
      const out = length * (cos * c - sin * s);
      return toF([
        turn * (w.pivotX + out * w.planeCos),
        turn * (w.pivotY + out * w.planeSin),
        baseZ + w.pivotHeight + length * (sin * c + cos * s),
      ]);
    };
    return {
      pivot: end(0, 1, 0),
      flybarEnd: end(w.flybarEndMm, w.flybarEndCos, w.flybarEndSin),
      swashEnd: end(w.swashEndMm, w.swashEndCos, w.swashEndSin),
      ringBall: washoutBalls[side] as Point,
    };
  });
  const m = head.mixing;
  const place = new Float64Array(3);
  const mixing = ([0, 1] as const).map((side) => {
    const turn = pose.flybar.mixingTurn[side];
    const [c, s] = [turn[0] as number, turn[1] as number];
    const point = (out: number, up: number): Point => {
      mixingPoint(m, side, out, up, tc, ts, place, 0);
      return toF([place[0] as number, place[1] as number, place[2] as number]);
    };
    return {
      pivot: point(0, 0),
      swashEnd: point(m.swashEndMm * c, m.swashEndMm * s),
      bladeEnd: toF([0, 1, 2].map((k) => pose.flybar.bladeEnds[3 * side + k] as number) as Point),
      ringBall: mixingBalls[side] as Point,
    };
  });
  return {
    centre: [0, 0, w.flybarHeightMm],
    axis: toF([w.axisCos * tc, w.axisSin * tc, ts]),
    across: toF([-w.axisSin, w.axisCos, 0]),
    paddleRad,
    teeterRad,
    armBalls,
    washoutBase: [0, 0, baseZ],
    washout,
    mixing,
  };
}

function tailFigure(prepared: PreparedRig, kase: Case): NonNullable<Figure['tail']> {
  const tail = prepared.tail as NonNullable<PreparedRig['tail']>;
  const predicted = predictTail(prepared.transmitter, tail, kase);
  const state: TailPose = { hornRad: 0, leverRad: 0, sliderMm: 0, pastMm: 0, gripRad: 0 };
  const miss = closeTail(tail, predicted.pulse, state);
  const [pu, pv, pw] = [0, 1, 2].map((k) => tail.pivot[k] as number) as Point;
  const lever = prepared.rig.tail?.lever;
  const drawn: NonNullable<Figure['tail']> = {
    shaft: [0, 1, 2].map((k) => tail.shaft[k] as number) as Point,
    hornBall: tailHornBall(tail, state.hornRad),
    leverPivot: [pu, pv, pw],
  };
  if (miss) drawn.unreachable = unreachableOf(miss);
  if (miss?.path === '/tail/rod' || !lever) return drawn;
  const end = ({ length, angle }: { length: number; angle: number }): Point => {
    const turn = radOf(angle) + state.leverRad;
    return [pu + length * Math.cos(turn), pv + length * Math.sin(turn), pw];
  };
  drawn.leverServoEnd = end(lever.servoEnd);
  drawn.leverSliderEnd = end(lever.sliderEnd);
  drawn.slider = state.sliderMm;
  if (miss) return drawn;
  const [c, s] = [Math.cos(state.gripRad), Math.sin(state.gripRad)];
  drawn.pitchRad = tail.right * state.gripRad;
  drawn.grip = {
    armBall: [tail.gripLead * c - tail.gripHeight * s, tail.gripLead * s + tail.gripHeight * c],
    spiderBall: [tail.spiderX, tail.spiderV + state.sliderMm],
  };
  return drawn;
}
