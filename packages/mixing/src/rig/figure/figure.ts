/**
 * Every drawn ball's place: what a picture of the machine at one case is made of, so that drawing computes no pose.
 * Places in the machine frame F, mm; the tail in its own T. A part that cannot be reached, and what lies after it, is absent.
 */
import { cosDeg, radOf, sinDeg } from '../../quantities/angles.ts';
import { RING } from '../../swashplate/ring.ts';
import { checkCase } from '../case.ts';
import { type Pose, poseHead, poseRing, ringNormalInF, setHorns, setSticks, settleFlybar } from '../pose.ts';
import { poseOf, unreachableOf } from '../predict.ts';
import type { PreparedRig, PreparedServo } from '../prepare.ts';
import type { Case, Point, Unreachable } from '../rig.ts';
import { flybarFigure } from './flybar.ts';
import { at3, bladeFrame, fromG, pairs, ringRotationG, rotorToMachine, turnedRotation, turningRotation } from './frames.ts';
import { tailFigure } from './tail.ts';

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

export interface FlybarFigure {
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
}

export interface TailFigure {
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
  flybar?: FlybarFigure;
  tail?: TailFigure;
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
    const pitchRad = pose.pitchRad[k] as number;
    const [cos, sin] = [Math.cos(pitchRad), Math.sin(pitchRad)];
    const { station, lead, height, hubHeight } = prepared.blade;
    return {
      root: [0, 0, hubHeight],
      direction: bladeToF([1, 0, 0]),
      leading: bladeToF([0, 1, 0]),
      pitchRad,
      armBall: bladeToF([station, lead * cos - height * sin, hubHeight + lead * sin + height * cos]),
      lowerEye: bladeToF([0, 1, 2].map((m) => pose.bladeEyes[3 * k + m] as number) as Point),
    };
  });
  if (!prepared.flybar) drawn.swash.rotatingBalls = blades.map((blade) => blade.lowerEye);
  if (!closed) return;
  drawn.blades = blades;
  if (prepared.flybar) drawn.flybar = flybarFigure(prepared, pose, teeterRad, toF);
}
