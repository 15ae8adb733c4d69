/**
 * The bench's own state and what it makes of a machine: which questions, which readings, which items of a readings
 * document. Pure; the panels show it and the store keeps it.
 */
import type { Rig } from '@swashtrue/mixing'
import {
  type Adjustment,
  azimuthFor,
  isLead,
  type Pointing,
  type ReadingPlace,
  type SetPlace,
  shortSet,
  standardSet,
} from '@swashtrue/mixing/bench'

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

export interface BenchState {
  readonly stage: BenchStage
  /** when the person confirmed the cautions, ms of the clock; undefined: not, or not any more */
  readonly safeAt: number | undefined
  readonly set: 'standard' | 'short'
  /** the gauge has a zero of its own that is not known, and the mast may lean: one standard deviation each, degrees */
  readonly zeroSdDeg: number
  readonly leanSdDeg: number
  /** which question of the look card, which place of the set is in hand */
  readonly question: number
  readonly place: number
  /** what a leveller on the swashplate reads against */
  readonly leveller: 'shaft' | 'gravity'
  /** the plan that is being worked through: its adjustments as they were foretold */
  readonly plan: readonly Adjustment[] | undefined
  /** steps of the whole order that are done, by name */
  readonly ticked: readonly string[]
  /** how many of the plan's adjustments have been made */
  readonly made: number
  /** of how many of them the second reading was taken or passed over */
  readonly checked: number
}

export const FRESH_BENCH: BenchState = {
  stage: 'cautions',
  safeAt: undefined,
  set: 'standard',
  zeroSdDeg: 0.5,
  leanSdDeg: 1,
  question: 0,
  place: 0,
  leveller: 'shaft',
  plan: undefined,
  ticked: [],
  made: 0,
  checked: 0,
}

export const benchOf = (kept: Readonly<Record<string, unknown>>): BenchState => ({ ...FRESH_BENCH, ...kept })

/** A machine that was made safe some hours ago may stand otherwise now: the cautions are asked for again. No source. */
const SAFE_FOR_MS = 4 * 3600_000

export const isSafe = ({ safeAt }: BenchState, nowMs: number): boolean =>
  safeAt !== undefined && nowMs - safeAt >= 0 && nowMs - safeAt < SAFE_FOR_MS

/** An item of a readings document as it is written down; `x-` keys are the page's own. */
export type WrittenItem = Readonly<Record<string, unknown>>

export const GAUGE = 'pitch gauge'
export const LEVELLER = 'leveller'

/** The readings document that stands for what was noted so far. */
export function documentOf(
  items: readonly unknown[],
  { zeroSdDeg, leanSdDeg, leveller }: Pick<BenchState, 'zeroSdDeg' | 'leanSdDeg' | 'leveller'>,
): object {
  return {
    format: 'swashtrue-readings/1',
    instruments: [
      { name: GAUGE, reference: 'gravity', zeroSd: zeroSdDeg, step: 0.1 },
      { name: LEVELLER, reference: leveller, zeroSd: 0 },
    ],
    lean: { foreAftSd: leanSdDeg, sideSd: leanSdDeg },
    readings: items,
  }
}

/** One place of the bench: what is read, and the words that tell a person where to put the gauge. */
export interface BenchPlace extends SetPlace {
  readonly key: string
}

const keyOf = ({ measure, of, sticks, azimuth, flipped, yawRate, pointing }: SetPlace): string =>
  [measure, of, sticks.collective, sticks.elevator, sticks.aileron, sticks.rudder, pointing ?? azimuth, flipped, yawRate].join(
    ' ',
  )

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
    ...(measure === 'fore-aft-tilt' || measure === 'side-tilt' ? { instrument: LEVELLER } : {}),
    ...(flipped ? { flipped: true } : {}),
    ...(yawRate === 0 ? {} : { yawRate }),
    ...(teeter === 0 ? {} : { teeter }),
    'x-place': key,
  }
}

/** Where the last change that was made to the machine stands in the items; -1 where there is none. */
export const lastAdjusted = (items: readonly unknown[]): number =>
  items.findLastIndex((item) => 'adjusted' in (item as WrittenItem))

/** The value noted at a place since the last change that was made to the machine, and where it stands in the items. */
export function notedAt(items: readonly unknown[], key: string): { at: number; value: number } | undefined {
  for (let at = items.length - 1; at > lastAdjusted(items); at--) {
    const item = items[at] as WrittenItem
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

/** The items with one more value at a place: what was read there before stays, and both are weighed. */
export const withMoreReading = (items: readonly unknown[], place: BenchPlace, value: number): unknown[] => [
  ...items,
  itemOf(place, value),
]

/** Where the sticks are off the middle, something may bind before a gauge is set on. */
export const mayBind = ({ sticks }: ReadingPlace): boolean => Object.values(sticks).some((stick) => stick !== 0)

const isBindAt =
  (key: string) =>
  (item: unknown): boolean =>
    (item as WrittenItem)['felt'] !== undefined && (item as WrittenItem)['x-place'] === key

/** Whether a bind was felt with the sticks as at a place, since the last change that was made to the machine. */
export const bindsAt = (items: readonly unknown[], key: string): boolean =>
  items.slice(lastAdjusted(items) + 1).some(isBindAt(key))

/** The items with a bind felt there, or without it where it was noted already. */
export function withBindTurned(items: readonly unknown[], { key, sticks }: BenchPlace): unknown[] {
  const from = lastAdjusted(items) + 1
  if (!bindsAt(items, key)) return [...items, { felt: { sticks, binds: true }, 'x-place': key }]
  const isThere = isBindAt(key)
  return items.filter((item, i) => i < from || !isThere(item))
}

export function withoutReading(items: readonly unknown[], place: BenchPlace): unknown[] {
  const noted = notedAt(items, place.key)
  return noted ? items.filter((_, i) => i !== noted.at) : [...items]
}

/** The notes with a step of the plan made. */
export function stepMade(items: readonly unknown[], { path, by, to }: Adjustment, step: number): unknown[] {
  return [...items, { adjusted: by === undefined ? { path, to } : { path, by }, 'x-step': step }]
}

/** The notes with a step turned back: what was read after it was of a machine that is no more. */
export function stepBack(items: readonly unknown[], step: number): readonly unknown[] {
  const at = items.findLastIndex((item) => (item as WrittenItem)['x-step'] === step)
  return at < 0 ? items : items.slice(0, at)
}

/** Whether a lead was moved and its fellow is still to be: two servos then hang on one output, and no reading means anything. */
export const isBetweenLeads = (plan: readonly Adjustment[], made: number): boolean =>
  [plan[made - 1], plan[made]].every((step) => step !== undefined && isLead(step))

/** Whether a second reading is what was foretold: within the interval that holds 19 of 20. */
export const asForetold = (value: number, foretold: { value: number; sd: number }): boolean =>
  Math.abs(value - foretold.value) <= 1.96 * foretold.sd

/** Half the sum is the gauge's zero, half the difference the pitch. */
export const flipSplit = (read: number, flipped: number) => ({ zeroDeg: (read + flipped) / 2, pitchDeg: (read - flipped) / 2 })
