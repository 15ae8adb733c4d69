/** The example's readings as notes of the bench, so that the way can be walked without a machine. */
import { examples, readRig, type Rig } from '@swashtrue/mixing'
import { benchExamples, readReadings } from '@swashtrue/mixing/bench'
import { type BenchState, placeOf, type WrittenItem } from './model.ts'

export interface Demo {
  readonly record: Rig
  readonly items: readonly WrittenItem[]
  readonly instruments: Pick<BenchState, 'zeroSdDeg' | 'leanSdDeg'>
}

interface Written {
  readonly instruments: readonly { readonly zeroSd: number }[]
  readonly lean: { readonly foreAftSd: number }
  readonly readings: readonly WrittenItem[]
}

/** The first demo machine and the readings that go with it; each reading is marked with its place in the set. */
export function demoBench(): Demo {
  const rig = readRig(examples[0].document)
  if (!rig.ok) throw new Error(`the demo machine does not read: ${JSON.stringify(rig.faults)}`)
  const written = benchExamples.find(({ name }) => name === 'bench-readings')?.document as Written
  const read = readReadings(written, rig.rig)
  if (!read.ok) throw new Error(`the demo readings do not read: ${JSON.stringify(read.faults)}`)
  const items = written.readings.map((item, i) => {
    const parsed = read.readings.readings[i]
    return parsed?.kind === 'reading' ? { ...item, 'x-place': placeOf(parsed.reading, rig.rig).key } : item
  })
  return {
    record: rig.rig,
    items,
    instruments: { zeroSdDeg: written.instruments[0]?.zeroSd ?? 0, leanSdDeg: written.lean.foreAftSd },
  }
}
