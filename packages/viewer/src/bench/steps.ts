/**
 * A step of the bench as a change to the session: the bench's own state and notes, and the machine in the scene held as the
 * question or the reading in hand asks for it, so that the 3D shows where stick and blade are to be. Pure.
 */
import { applyChanges, type Change, type Rig, valueAt } from '@swashtrue/mixing'
import type { Cause } from '@swashtrue/mixing/bench'
import { withChange } from '../state/changes.ts'
import { MID_STICK, type Session } from '../state/session.ts'
import { type BenchPlace, benchOf, type BenchState, isTurned, placesOf, type WrittenItem } from './model.ts'
import { questionsFor } from './questions.ts'

export type BenchStep = Partial<Pick<Session, 'readings' | 'bench' | 'sticks' | 'stand' | 'changes'>>

export function benchStep(session: Session, patch: Partial<BenchState>, readings?: readonly unknown[]): BenchStep {
  const bench = { ...session.bench, ...patch }
  return { bench, ...(readings === undefined ? {} : { readings }), ...heldAs(session, benchOf(bench), patch) }
}

/** Sticks and rotor as the thing in hand asks, where a step goes to another one. */
function heldAs(session: Session, bench: BenchState, patch: Partial<BenchState>): BenchStep {
  if (bench.stage === 'look' && (patch.stage !== undefined || patch.question !== undefined)) {
    const questions = questionsFor(session.record)
    return { sticks: questions[Math.min(bench.question, questions.length - 1)]?.sticks ?? MID_STICK }
  }
  if (bench.stage === 'read' && (patch.stage ?? patch.place ?? patch.set) !== undefined) {
    const places = placesOf(session.record, bench.set, bench.zeroSdDeg > 0)
    return heldAt(session, places[Math.min(bench.place, places.length - 1)] as BenchPlace)
  }
  // Left where it was, a stick at its end would stand in the way of what the scene shows next.
  return patch.stage === undefined ? {} : { sticks: MID_STICK, stand: { ...session.stand, yawRateDegPerS: 0 } }
}

export function heldAt(session: Session, place: BenchPlace): BenchStep {
  return {
    sticks: place.sticks,
    stand: {
      ...session.stand,
      settled: false,
      teeterDeg: place.teeter,
      yawRateDegPerS: place.yawRate,
      ...(isTurned(place) ? { rotorDeg: place.azimuth } : {}),
    },
  }
}

/**
 * What stands otherwise on the machine as a cause describes it, with all that was turned since: one change a path, against
 * the record. An instrument's zero is no part of the machine.
 */
export function believedChanges(record: Rig, cause: Cause, items: readonly unknown[]): Change[] {
  const faults = cause.changes
    .filter(({ document }) => document !== 'readings')
    .map(({ path, machine }) => ({ path, to: machine }))
  const made = items.flatMap((item) => ((item as WrittenItem)['adjusted'] as Change | undefined) ?? [])
  const machine = applyChanges(record, [...faults, ...made])
  const paths = new Set([...faults, ...made].map(({ path }) => path))
  return [...paths].reduce<Change[]>((changes, path) => withChange(record, changes, { path, to: valueAt(machine, path) }), [])
}

/** Whether the scene shows just these changes. */
export const isShown = (shown: readonly Change[], wanted: readonly Change[]): boolean =>
  shown.length === wanted.length && wanted.every((change) => shown.some((one) => JSON.stringify(one) === JSON.stringify(change)))
