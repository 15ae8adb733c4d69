/**
 * A flybar head on a posed ring: washout, paddles and mixing arms closed in turn, at one azimuth and one teeter.
 *
 * As for the ring, the pose meant is the one reached continuously from the designed one; Newton's is taken where it
 * surely is that one, else the way there is walked.
 */
import { nearestPose } from '../numerics/nearest-pose.ts';
import type { Flybar } from '../rig/rig.ts';
import { type PreparedTurningBall, prepareTurningBall, turningBall } from '../rotor/turning-ring.ts';
import { closeMixingArm, mixingMissMm, type PreparedMixing, prepareMixing } from './mixing.ts';
import { newtonWashout, type PreparedWashout, prepareWashout, WASHOUT, washoutResiduals } from './washout.ts';

export interface PreparedFlybarHead {
  washout: PreparedWashout;
  mixing: PreparedMixing;
  /** the ring's balls: washout 1 and 2, mixing 1 and 2 */
  ringBalls: PreparedTurningBall[];
  designedRingHeightMm: number;
  /** lengths that close the designed pose */
  designedLinkMm: Float64Array;
  designedRodMm: Float64Array;
  designedDeterminant: number;
}

/** One posed flybar head; all places in R of blade 1, mm and rad. */
export class FlybarPose {
  /** washout balls 1 and 2 on the ring */
  readonly washoutBalls = new Float64Array(6);
  /** mixing balls 1 and 2 on the ring */
  readonly mixingBalls = new Float64Array(6);
  /** base height mm, arm angles, paddle pitch rad */
  readonly washout = new Float64Array(WASHOUT.SIZE);
  /** cosine and sine of each mixing arm's swashplate end */
  readonly mixingTurn = [new Float64Array(2), new Float64Array(2)] as const;
  /** the mixing arms' blade ends: lower eyes of the blade links */
  readonly bladeEnds = new Float64Array(6);
  teeterRad = 0;
  /** determinant of the washout's closure over the designed one */
  determinant = 1;
  /** the washout was walked to from the designed pose, since Newton's might have been another */
  walked = false;
}

export interface HeadMiss {
  path: string;
  /** positive: too short */
  missMm: number;
}

/**
 * Newton's washout is taken without a walk within these. Measured as for the ring (swashplate/close.ts): of 30,000 poses of
 * random and carelessly set heads 29,999 were taken and one reaches nowhere; of 6,487 of extreme ones 2,595 were taken. The walk
 * arrived at each, but for two of the extreme ones, whose straight way is barred.
 */
const DETERMINANT_TAKEN = 0.3;
const ANGLE_TAKEN_RAD = 0.7;

const determinantOut = new Float64Array(1);

export function prepareFlybarHead(flybar: Flybar, driverDeg: number, ringHeightMm: number): PreparedFlybarHead {
  const { washout, mixing } = flybar;
  const half = (ball: { radius: number; azimuth: number; height: number }) => [
    prepareTurningBall(ball, driverDeg),
    prepareTurningBall({ ...ball, azimuth: ball.azimuth + 180 }, driverDeg),
  ];
  const ringBalls = [...half(washout.ring), ...half(mixing.ring)];
  const level = new Float64Array(12);
  ringBalls.forEach((ball, i) => turningBall(ball, ringHeightMm, 0, 0, 1, level, 3 * i));
  const prepared: PreparedFlybarHead = {
    washout: prepareWashout(flybar),
    mixing: prepareMixing(flybar, level.subarray(6)),
    ringBalls,
    designedRingHeightMm: ringHeightMm,
    designedLinkMm: new Float64Array(2),
    designedRodMm: new Float64Array(2),
    designedDeterminant: 1,
  };
  const state = Float64Array.of(washout.height, 0, 0, 0);
  const residuals = new Float64Array(4);
  const none = new Float64Array(2);
  washoutResiduals(prepared.washout, state, level, 1, 0, none, none, residuals, new Float64Array(12));
  prepared.designedLinkMm.set(residuals.subarray(0, 2));
  prepared.designedRodMm.set(residuals.subarray(2, 4));
  newtonWashout(prepared.washout, state, level, 1, 0, prepared.designedLinkMm, prepared.designedRodMm, determinantOut, 1);
  prepared.designedDeterminant = determinantOut[0] as number;
  return prepared;
}

/**
 * Closes the head for the ring's height (mm) and its normal in R of blade 1, with the flybar held at `teeterRad`.
 * Returns undefined where all closes, else the length that misses most. `warm` starts from what `pose` holds.
 */
export function closeFlybarHead(
  head: PreparedFlybarHead,
  ringHeightMm: number,
  nx: number,
  ny: number,
  nz: number,
  teeterRad: number,
  pose: FlybarPose,
  warm = false,
): HeadMiss | undefined {
  const c = Math.cos(teeterRad);
  const s = Math.sin(teeterRad);
  pose.teeterRad = teeterRad;
  placeRingBalls(head, ringHeightMm, nx, ny, nz, pose);
  const state = pose.washout;
  if (!warm) {
    state[WASHOUT.H] = head.washout.heightMm + ringHeightMm - head.designedRingHeightMm;
    state[WASHOUT.ARM1] = 0;
    state[WASHOUT.ARM2] = 0;
    state[WASHOUT.PADDLE] = 0;
  }
  const w = head.washout;
  const steps = newtonWashout(w, state, pose.washoutBalls, c, s, w.linkMm, w.rodMm, determinantOut);
  pose.determinant = (determinantOut[0] as number) / head.designedDeterminant;
  pose.walked =
    steps < 0 ||
    !(pose.determinant > DETERMINANT_TAKEN) ||
    !(Math.abs(state[1] as number) < ANGLE_TAKEN_RAD) ||
    !(Math.abs(state[2] as number) < ANGLE_TAKEN_RAD) ||
    !(Math.abs(state[3] as number) < ANGLE_TAKEN_RAD);
  if (pose.walked) {
    const miss = walkWashout(head, ringHeightMm, nx, ny, nz, teeterRad, pose);
    if (miss) return miss;
  }
  return closeArm(head, pose, 1, c, s, closeArm(head, pose, 0, c, s, undefined));
}

/** Closes one mixing arm; gives what misses most so far. */
function closeArm(
  head: PreparedFlybarHead,
  pose: FlybarPose,
  arm: 0 | 1,
  c: number,
  s: number,
  worst: HeadMiss | undefined,
): HeadMiss | undefined {
  if (closeMixingArm(head.mixing, arm, pose.mixingBalls, c, s, pose.mixingTurn[arm], pose.bladeEnds, 3 * arm)) return worst;
  const missMm = mixingMissMm(head.mixing, arm, pose.mixingBalls, c, s);
  return worst && Math.abs(worst.missMm) >= Math.abs(missMm) ? worst : { path: `/flybar/mixing/rods/${arm}`, missMm };
}

function placeRingBalls(
  head: PreparedFlybarHead,
  ringHeightMm: number,
  nx: number,
  ny: number,
  nz: number,
  pose: FlybarPose,
): void {
  for (let i = 0; i < 2; i++) {
    turningBall(head.ringBalls[i] as PreparedTurningBall, ringHeightMm, nx, ny, nz, pose.washoutBalls, 3 * i);
    turningBall(head.ringBalls[2 + i] as PreparedTurningBall, ringHeightMm, nx, ny, nz, pose.mixingBalls, 3 * i);
  }
}

const WASHOUT_PATHS = ['/flybar/washout/links/0', '/flybar/washout/links/1', '/flybar/washout/rods/0', '/flybar/washout/rods/1'];

/** Walks the washout from its designed pose; writes `pose` where it arrives, else says what misses. */
export function walkWashout(
  head: PreparedFlybarHead,
  ringHeightMm: number,
  nx: number,
  ny: number,
  nz: number,
  teeterRad: number,
  pose: FlybarPose,
): HeadMiss | undefined {
  const w = head.washout;
  const state = Float64Array.of(w.heightMm, 0, 0, 0);
  const trial = new Float64Array(4);
  const linkMm = new Float64Array(2);
  const rodMm = new Float64Array(2);
  const setAt = (along: number): void => {
    const x = along * nx;
    const y = along * ny;
    const z = Math.sqrt(1 - x * x - y * y);
    placeRingBalls(
      head,
      head.designedRingHeightMm + along * (ringHeightMm - head.designedRingHeightMm),
      x,
      y,
      along === 1 ? nz : z,
      pose,
    );
    for (let i = 0; i < 2; i++) {
      const link = head.designedLinkMm[i] as number;
      const rod = head.designedRodMm[i] as number;
      linkMm[i] = link + along * ((w.linkMm[i] as number) - link);
      rodMm[i] = rod + along * ((w.rodMm[i] as number) - rod);
    }
  };
  let along = 0;
  let stride = 1 / 16;
  while (along < 1 && stride > 1e-6) {
    const next = Math.min(1, along + stride);
    trial.set(state);
    setAt(next);
    const c = Math.cos(next * teeterRad);
    const s = Math.sin(next * teeterRad);
    const settled = newtonWashout(w, trial, pose.washoutBalls, c, s, linkMm, rodMm, determinantOut, 6) > 0;
    let moved = Math.abs((trial[0] as number) - (state[0] as number)) / 1.5;
    // 1.5 mm or 6 degrees a stride: an arm's other closure lies tens of degrees away.
    for (let i = 1; i < 4; i++) moved = Math.max(moved, Math.abs((trial[i] as number) - (state[i] as number)) / 0.1);
    if (settled && moved < 1 && (determinantOut[0] as number) / head.designedDeterminant > 0) {
      state.set(trial);
      along = next;
      stride *= 1.6;
    } else stride /= 2;
  }
  setAt(1);
  const c = Math.cos(teeterRad);
  const s = Math.sin(teeterRad);
  if (along < 1) {
    const rows = new Float64Array(12);
    const nearest = nearestPose(
      (x, r, jacobian) => {
        washoutResiduals(w, x, pose.washoutBalls, c, s, w.linkMm, w.rodMm, r, rows);
        jacobian.fill(0);
        for (let i = 0; i < 4; i++) {
          jacobian[4 * i] = rows[3 * i] as number;
          jacobian[4 * i + 1 + (i % 2)] = rows[3 * i + 1] as number;
          jacobian[4 * i + 3] = rows[3 * i + 2] as number;
        }
        return true;
      },
      state,
      4,
    );
    let worst = 0;
    for (let i = 1; i < 4; i++) {
      if (Math.abs(nearest.residuals[i] as number) > Math.abs(nearest.residuals[worst] as number)) worst = i;
    }
    return { path: WASHOUT_PATHS[worst] as string, missMm: nearest.residuals[worst] as number };
  }
  pose.washout.set(state);
  newtonWashout(w, pose.washout, pose.washoutBalls, c, s, w.linkMm, w.rodMm, determinantOut);
  pose.determinant = (determinantOut[0] as number) / head.designedDeterminant;
  return undefined;
}
