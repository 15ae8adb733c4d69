/**
 * The peer that a programmer would write first: the same Newton from the designed pose, on the same lengths, its steps solved
 * by mathjs `lusolve` on mathjs matrices. Blades are closed by the library's own closed form, which is to the peer's good.
 */
import { lusolve, matrix, type Matrix } from 'mathjs';
import { type Pose, poseEyes, poseHead, setHorns, setSticks } from '../../packages/mixing/src/rig/pose.ts';
import type { PreparedRig } from '../../packages/mixing/src/rig/prepare.ts';
import { RING, ringNormal, ringResiduals } from '../../packages/mixing/src/swashplate/ring.ts';

const residuals = new Float64Array(3);
const jacobian = new Float64Array(9);

export function poseByMathjs(
  prepared: PreparedRig,
  pose: Pose,
  sticks: Float64Array,
  at: number,
  psiCos: number,
  psiSin: number,
): void {
  setSticks(prepared, pose, 0, sticks[at] as number, sticks[at + 1] as number, sticks[at + 2] as number);
  setHorns(prepared, pose);
  poseEyes(prepared, pose);
  const { ring } = prepared;
  pose.ring[RING.Z] = ring.designedHeightMm;
  pose.ring[RING.A] = 0;
  pose.ring[RING.B] = 0;
  for (let step = 0; step < 12; step++) {
    ringResiduals(ring, pose.ring, pose.eyes, ring.linkMm, residuals, jacobian);
    const j = matrix([
      Array.from(jacobian.subarray(0, 3)),
      Array.from(jacobian.subarray(3, 6)),
      Array.from(jacobian.subarray(6, 9)),
    ]);
    const moves = (lusolve(j, matrix(Array.from(residuals))) as Matrix).toArray() as number[][];
    let size = 0;
    for (let k = 0; k < 3; k++) {
      const move = moves[k]?.[0] as number;
      pose.ring[k] = (pose.ring[k] as number) - move;
      size += Math.abs(move) * (k === 0 ? 1 : 2 * ring.reachMm);
    }
    if (size < ring.lastStepMm) break;
  }
  ringNormal(pose.ring[RING.A] as number, pose.ring[RING.B] as number, pose.ring, RING.NX);
  poseHead(prepared, pose, psiCos, psiSin, 0);
}
