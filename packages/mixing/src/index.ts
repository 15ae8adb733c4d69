/**
 * swashtrue's library: the three-servo CCPM swashplate from sticks to blades. No React, no three, no file system.
 * Start at rig/predict.ts. Documents carry mm, degrees, microseconds and percent; a name says its unit where it differs.
 */
export {
  type BatchCases,
  type BatchPoses,
  foreAftRad,
  makeBatchPoses,
  poseBatch,
  sideRad,
} from './batch/batch.ts';
export { type BatchOptions, BatchPool } from './batch/batch-pool.ts';
export { Cancelled, Pool, type Run, type Thread } from './batch/pool.ts';
export { type BatchSays, type BatchTold, batchThread, transferOf } from './batch/thread.ts';
export { applyChange, applyChanges, type Change, ChangeError } from './rig/changes.ts';
export { CaseError, checkCase, readCase } from './rig/case.ts';
export * from './coupling/coupling.ts';
export { type Explanation, explain, unreachableSays } from './coupling/explain.ts';
export { readReadings } from './diagnosis/readings-document.ts';
export { type Example, examples } from './examples/examples.ts';
export { defaultTargets, readTargets, type Targets } from './plan/targets-document.ts';
export { readTolerances, type Tolerances } from './tolerance/tolerances-document.ts';
export { partName } from './coupling/causes-in-words.ts';
export { REACH_AZIMUTHS, REACH_MISSES, type ReachCells, reachAt } from './envelope/reach.ts';
export { shapedStick } from './transmitter/outputs.ts';
export { describePath, unitAt } from './rig/describe.ts';
export {
  type BladeFigure,
  type Figure,
  type FlybarFigure,
  figure,
  type ServoFigure,
  type TailFigure,
} from './rig/figure/figure.ts';
export * from './rig/fault.ts';
export { valueAt } from './rig/changes.ts';
export {
  makePose,
  type Miss,
  Pose,
  poseHead,
  poseRing,
  setHorns,
  setSticks,
  settleFlybar,
} from './rig/pose.ts';
export { isUnreachable, type PredictedHarmonics, type PredictedTail, type Prediction, predict } from './rig/predict.ts';
export { type PreparedRig, prepare } from './rig/prepare.ts';
export { readRig } from './rig/read.ts';
export { sampleRevolution } from './rig/revolution.ts';
export type * from './rig/rig.ts';
export type { OverCentre, PoseStatus } from './rig/status.ts';
export { NoTailError, type TailCheck, tailCheck, tailIsWell } from './tail/check.ts';
export type { TailAdjustment } from './tail/check-cures.ts';
export type { GyroEnds, TailState } from './tail/check-state.ts';
export { TAIL_CAUTIONS } from './tail/check-words.ts';
