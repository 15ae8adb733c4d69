/** The bench's own thread: what is believed after the readings, what to turn, what to measure. Loaded when the bench first asks. */
import type { Rig } from '@swashtrue/mixing'
import {
  defaultTargets,
  type Diagnosis,
  diagnosisOf,
  type MeasuringUp,
  measuringUp,
  type Plan,
  planFrom,
  posterior,
  readReadings,
} from '@swashtrue/mixing/bench'
import { expose } from 'comlink'

export type BenchAnswer =
  | { ok: true; diagnosis: Diagnosis; plan: Plan; tookMs: number }
  | { ok: false; faults: { pointer: string; got: string; expected: string; wayOut: string }[] }

const api = {
  work(record: Rig, document: object): BenchAnswer {
    const read = readReadings(document, record)
    if (!read.ok) return { ok: false, faults: read.faults }
    const start = performance.now()
    const believed = posterior(record, read.readings)
    const diagnosis = diagnosisOf(believed, read.readings)
    const plan = planFrom(believed, read.readings, defaultTargets())
    return { ok: true, diagnosis, plan, tookMs: performance.now() - start }
  },
  measure: (draft: Rig): MeasuringUp => measuringUp(draft),
}

export type BenchApi = typeof api
expose(api)
