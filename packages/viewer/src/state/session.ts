/**
 * What the page is about, and what undo, redo and autosave cover: the record, what was changed on the machine since,
 * the readings taken, and where the controls stand. Every value is immutable; a step back is an older object.
 * Sticks -1 to +1, angles degrees, yaw rate degrees a second, as in a document's cases.
 */
import type { Case, Change, Rig } from '@swashtrue/mixing'

export interface Sticks {
  readonly collective: number
  readonly elevator: number
  readonly aileron: number
  readonly rudder: number
}

export type StickName = keyof Sticks

/** Where the hand has put what is not a stick. */
export interface Stand {
  /** flight mode by name; undefined: the document's first */
  readonly mode: string | undefined
  /** blade 1's psi */
  readonly rotorDeg: number
  readonly teeterDeg: number
  /** the flybar follows its paddles, as in flight; `teeterDeg` then does not act */
  readonly settled: boolean
  readonly yawRateDegPerS: number
}

export interface Session {
  readonly record: Rig
  /** what is different on the machine, in the order in which it was done; at most one a path */
  readonly changes: readonly Change[]
  /** items of a readings document, in the order of the bench */
  readonly readings: readonly unknown[]
  /** how far the bench's steps have come: the bench workspace's own, kept and undone with the rest */
  readonly bench: Readonly<Record<string, unknown>>
  readonly sticks: Sticks
  readonly stand: Stand
  /** what the last step did, for the undo button's own words */
  readonly did: string
}

export const MID_STICK: Sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0 }

export const AT_REST: Stand = {
  mode: undefined,
  rotorDeg: 90,
  teeterDeg: 0,
  settled: false,
  yawRateDegPerS: 0,
}

export function freshSession(record: Rig, did: string): Session {
  return { record, changes: [], readings: [], bench: {}, sticks: MID_STICK, stand: AT_REST, did }
}

/** The question that the controls put to the library. */
export function caseOf(record: Rig, sticks: Sticks, stand: Stand): Case {
  const kase: Case = { ...sticks, azimuth: stand.rotorDeg, yawRate: stand.yawRateDegPerS }
  if (stand.mode !== undefined) kase.mode = stand.mode
  if (record.flybar) {
    if (stand.settled) kase.settled = true
    else kase.teeter = stand.teeterDeg
  }
  return kase
}
