/** What a thread of a batch's pool does: a rig once, then slices of its cases, each answered whole. */
import { CaseError } from '../rig/case.ts';
import { type PreparedRig, prepare } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { type BatchCases, type BatchPoses, makeBatchPoses, poseBatch } from './batch.ts';

/** The rig, mode and teeter that stand for all slices until the next, or a slice. */
export type BatchTold =
  | { rig: Rig; mode: string | undefined; teeter: number }
  | { slice: number; sticks: Float64Array; azimuth: number | Float64Array };

/** A slice's poses; or why there are none: a case that is refused, by its place in the slice, or trouble of another kind. */
export type BatchSays =
  | { slice: number; poses: BatchPoses }
  | { slice: number; refused: { pointer: string; got: string; expected: string; wayOut: string } }
  | { slice: number; trouble: string };

/** A thread without its messages. */
export function batchThread(): (told: BatchTold) => BatchSays | undefined {
  let prepared: PreparedRig | undefined;
  let standing: Pick<BatchCases, 'mode' | 'teeter'> = {};
  return (told) => {
    if ('rig' in told) {
      prepared = prepare(told.rig);
      standing = told.mode === undefined ? { teeter: told.teeter } : { teeter: told.teeter, mode: told.mode };
      return undefined;
    }
    const { slice, sticks, azimuth } = told;
    try {
      if (!prepared) throw new Error('a slice came before its rig');
      const poses = makeBatchPoses(prepared, sticks.length / 3);
      poseBatch(prepared, { sticks, azimuth, ...standing }, poses);
      return { slice, poses };
    } catch (error) {
      if (error instanceof CaseError) {
        const { pointer, got, expected, wayOut } = error;
        return { slice, refused: { pointer, got, expected, wayOut } };
      }
      return { slice, trouble: error instanceof Error ? error.message : String(error) };
    }
  };
}

/** The arrays of an answer, which change hands with it. */
export function transferOf(says: BatchSays): ArrayBuffer[] {
  if (!('poses' in says)) return [];
  const { heightMm, normalX, normalY, pitchRad, missing, shortMm } = says.poses;
  return [heightMm, normalX, normalY, ...pitchRad, missing, shortMm].map(({ buffer }) => buffer as ArrayBuffer);
}
