/**
 * The bench's own state and what it makes of a machine: which questions, which readings, which items of a readings
 * document. Pure; the panels show it and the store keeps it.
 */
import type { Rig } from '@swashtrue/mixing'
import { type Adjustment, azimuthFor, type Pointing, type ReadingPlace, type SetPlace, shortSet, standardSet } from '@swashtrue/mixing/bench'

export const STAGES = ['cautions', 'look', 'read', 'causes', 'turn', 'sheet'] as const
export type BenchStage = (typeof STAGES)[number]

export const STAGE_NAMES: Readonly<Record<BenchStage, string>> = {
  cautions: 'Make safe',
  look: 'Look',
  read: 'Read',
  causes: 'Causes',
  turn: 'Turn',
  sheet: 'Sheet',
}

/** A step of a plan that was ticked: its item in the readings, and what the gauge was to show then. */
export interface BenchState {
  readonly stage: BenchStage
  /** the person has confirmed the cautions */
  readonly safe: boolean
  readonly set: 'standard' | 'short'
  /** the gauge has a zero of its own that is not known, and the mast may lean: one standard deviation each, degrees */
  readonly zeroSdDeg: number
  readonly leanSdDeg: number
  /** which question of the look card, which place of the set is in hand */
  readonly question: number
  readonly place: number
  /** questions passed over ("I can't tell"), by id */
  readonly passed: readonly string[]
  /** the plan that is being worked through: its adjustments as they were foretold */
  readonly plan: readonly Adjustment[] | undefined
  /** steps of the whole order that are done, by name */
  readonly ticked: readonly string[]
  /** how many of the plan's adjustments have been made */
  readonly made: number
}

export const FRESH_BENCH: BenchState = {
  stage: 'cautions',
  safe: false,
  set: 'standard',
  zeroSdDeg: 0.5,
  leanSdDeg: 1,
  question: 0,
  place: 0,
  passed: [],
  plan: undefined,
  ticked: [],
  made: 0,
}

export const benchOf = (kept: Readonly<Record<string, unknown>>): BenchState => ({ ...FRESH_BENCH, ...kept })

/** An item of a readings document as it is written down; `x-` keys are the page's own. */
export type WrittenItem = Readonly<Record<string, unknown>>

export const GAUGE = 'pitch gauge'

/** The readings document that stands for what was noted so far. */
export function documentOf(items: readonly unknown[], { zeroSdDeg, leanSdDeg }: BenchState): object {
  return {
    format: 'swashtrue-readings/1',
    instruments: [{ name: GAUGE, reference: 'gravity', zeroSd: zeroSdDeg, step: 0.1 }],
    lean: { foreAftSd: leanSdDeg, sideSd: leanSdDeg },
    readings: items,
  }
}

/** One place of the bench: what is read, and the words that tell a person where to put the gauge. */
export interface BenchPlace extends SetPlace {
  readonly key: string
}

const keyOf = ({ measure, of, sticks, azimuth, flipped, yawRate, pointing }: SetPlace): string =>
  [measure, of, sticks.collective, sticks.elevator, sticks.aileron, sticks.rudder, pointing ?? azimuth, flipped, yawRate].join(' ')

/** The places of a set in the order of the bench, with the gauge's flip check after its first reading. */
export function placesOf(rig: Rig, set: BenchState['set'], flipCheck: boolean): BenchPlace[] {
  const places = (set === 'short' ? shortSet(rig) : standardSet(rig)).slice()
  const first = places.findIndex(({ measure }) => measure === 'blade-pitch')
  const firstPlace = places[first]
  if (flipCheck && firstPlace) places.splice(first + 1, 0, { ...firstPlace, flipped: true })
  return places.map((place) => ({ ...place, key: keyOf(place) }))
}

/** A place that `diagnose` or a plan asks for. */
export const placeOf = (place: ReadingPlace, rig: Rig): BenchPlace => {
  const pointing = pointingOf(rig, place)
  const set: SetPlace = pointing === undefined ? place : { ...place, pointing }
  return { ...set, key: keyOf(set) }
}

const POINTINGS: readonly Pointing[] = ['tail', 'left', 'nose', 'right']

/** Which way the blade under the gauge points, from blade 1's psi; undefined between the four. */
export function pointingOf(rig: Rig, place: ReadingPlace): Pointing | undefined {
  if (!isTurned(place)) return undefined
  return POINTINGS.find((pointing) => {
    const apart = Math.abs(azimuthFor(rig, pointing, place.of, place.measure) - (((place.azimuth % 360) + 360) % 360))
    return Math.min(apart, 360 - apart) < 1
  })
}

/** Whether where the blade points matters to it. */
export const isTurned = ({ measure }: ReadingPlace): boolean =>
  measure === 'blade-pitch' || measure === 'blade-play' || measure === 'paddle-pitch'

/** The written item of a reading at a place. */
export function itemOf(place: BenchPlace, value: number): WrittenItem {
  const { measure, of, sticks, azimuth, flipped, yawRate, teeter, key } = place
  return {
    measure,
    of,
    sticks,
    value,
    ...(isTurned(place) ? { azimuth } : {}),
    ...(measure === 'blade-pitch' ? { instrument: GAUGE } : {}),
    ...(flipped ? { flipped: true } : {}),
    ...(yawRate === 0 ? {} : { yawRate }),
    ...(teeter === 0 ? {} : { teeter }),
    'x-place': key,
  }
}

/** The value noted at a place since the last change that was made to the machine, and where it stands in the items. */
export function notedAt(items: readonly unknown[], key: string): { at: number; value: number } | undefined {
  for (let at = items.length - 1; at >= 0; at--) {
    const item = items[at] as WrittenItem
    if ('adjusted' in item) return undefined
    if (item['x-place'] === key && typeof item['value'] === 'number') return { at, value: item['value'] }
  }
  return undefined
}

/** The items with a value noted at a place: in place of the one that is there, or after the others. */
export function withReading(items: readonly unknown[], place: BenchPlace, value: number): unknown[] {
  const noted = notedAt(items, place.key)
  const item = itemOf(place, value)
  return noted ? items.map((old, i) => (i === noted.at ? item : old)) : [...items, item]
}

export function withoutReading(items: readonly unknown[], place: BenchPlace): unknown[] {
  const noted = notedAt(items, place.key)
  return noted ? items.filter((_, i) => i !== noted.at) : [...items]
}

/** Whether a second reading is what was foretold: within the interval that holds 19 of 20. */
export const asForetold = (value: number, foretold: { value: number; sd: number }): boolean =>
  Math.abs(value - foretold.value) <= 1.96 * foretold.sd

/** Half the sum is the gauge's zero, half the difference the pitch. */
export const flipSplit = (read: number, flipped: number) => ({ zeroDeg: (read + flipped) / 2, pitchDeg: (read - flipped) / 2 })
