/**
 * The worker's own thread: what takes longer than a frame may. One machine and its record at a time; each question is
 * answered whole, so that the page never shows half of one.
 */
import {
  type Case,
  type Change,
  coupling,
  type Coupling,
  explain,
  type Explanation,
  prepare,
  type Rig,
  type TailCheck,
  tailCheck,
} from '@swashtrue/mixing'
import { expose } from 'comlink'

export interface Asked {
  record: Rig
  machine: Rig
  changes: readonly Change[]
  mode: string | undefined
}

export interface Answers {
  record: Coupling
  machine: Coupling
  explanation: Explanation
  /** of the machine, where it has a tail */
  tail?: TailCheck
}

const api = {
  /** What the sticks do at mid-stick, in numbers and in words. */
  answer({ record, machine, changes, mode }: Asked): Answers {
    const at: Case = mode === undefined ? {} : { mode }
    return {
      record: coupling(prepare(record), at),
      machine: coupling(prepare(machine), at),
      explanation: explain(record, machine, changes, mode),
      ...(machine.tail ? { tail: tailCheck(machine) } : {}),
    }
  },
}

export type AnswersApi = typeof api
expose(api)
