/**
 * The list of what is different on the machine. At most one change a path: turning the same thing again alters the
 * one that is there, and turning it back takes it away, so that the list always reads as the difference from the record.
 */
import { applyChanges, type Change, type Rig, valueAt } from '@swashtrue/mixing'

/** Differences below this are the rounding of adding steps back and forth, far below any step a hand can make. */
const NOTHING = 1e-9

export function withChange(record: Rig, changes: readonly Change[], change: Change): Change[] {
  const at = changes.findIndex((other) => other.path === change.path)
  const before = at < 0 ? undefined : changes[at]
  const merged = merge(before, change)
  const list = changes.filter((other) => other.path !== change.path)
  if (!isNothing(record, merged)) list.splice(at < 0 ? list.length : at, 0, merged)
  return list
}

function merge(before: Change | undefined, change: Change): Change {
  if (before === undefined || 'to' in change) return change
  if ('by' in before) return { path: change.path, by: before.by + change.by }
  if (typeof before.to === 'number') return { path: change.path, to: before.to + change.by }
  return change
}

function isNothing(record: Rig, change: Change): boolean {
  if ('by' in change) return Math.abs(change.by) < NOTHING
  return JSON.stringify(valueAt(record, change.path)) === JSON.stringify(change.to)
}

/** The paths that go together with `path`: leads are swapped in pairs, so one is never taken back alone. */
export function companions(changes: readonly Change[], path: string): string[] {
  const lead = /^\/servos\/\d\/output$/
  if (!lead.test(path)) return [path]
  return changes.filter((change) => lead.test(change.path)).map((change) => change.path)
}

let seen: { record: Rig; changes: readonly Change[]; machine: Rig } | undefined

/** The machine as it is: the changes applied to the record. The last answer is kept, because every view asks for it. */
export function machineOf(record: Rig, changes: readonly Change[]): Rig {
  if (changes.length === 0) return record
  if (seen?.record !== record || seen.changes !== changes) {
    seen = { record, changes, machine: applyChanges(record, [...changes]) }
  }
  return seen.machine
}
