/** The bench in the store: what is noted, ticked, turned back, undone, resumed and shown on the machine. */
import { examples, readRig, type Rig, valueAt } from '@swashtrue/mixing'
import { type Adjustment, type Cause, readReadings, shortSet, standardSet } from '@swashtrue/mixing/bench'
import { beforeEach, expect, test } from 'vitest'
import { demoBench } from '../../packages/viewer/src/bench/demo.ts'
import {
  asForetold,
  benchOf,
  type BenchPlace,
  bindsAt,
  documentOf,
  flipSplit,
  FRESH_BENCH,
  isBetweenLeads,
  isSafe,
  mayBind,
  notedAt,
  placeOf,
  placesOf,
  pointingOf,
  stepBack,
  stepMade,
  withBindTurned,
  withMoreReading,
  withoutReading,
  withReading,
} from '../../packages/viewer/src/bench/model.ts'
import { believedChanges, benchStep, isShown } from '../../packages/viewer/src/bench/steps.ts'
import { itemInWords, percent, plusOf, sticksInWords } from '../../packages/viewer/src/bench/words.ts'
import { autosave, resumeFrom, type Shelf } from '../../packages/viewer/src/state/autosave.ts'
import { machineIn } from '../../packages/viewer/src/state/pose.ts'
import { createPageStore, type PageStore } from '../../packages/viewer/src/state/store.ts'
import { expectNear } from '../support/expect-near.ts'

const rigs = examples.map(({ document }) => {
  const read = readRig(document)
  if (!read.ok) throw new Error('a demo machine does not read')
  return read.rig
})
const rig = rigs[0] as Rig
const flybar = rigs[2] as Rig

let store: PageStore
beforeEach(() => {
  store = createPageStore(rig)
})
const session = () => store.getState().session
const bench = () => benchOf(session().bench)
const step = (patch: Parameters<typeof benchStep>[1], readings?: readonly unknown[]) =>
  store.getState().setBench(benchStep(session(), patch, readings), 'did it')

test('the cautions hold for some hours, and not for a clock that went back', () => {
  const hour = 3600_000
  expect(isSafe(FRESH_BENCH, 0)).toBe(false)
  expect(isSafe({ ...FRESH_BENCH, safeAt: 10 * hour }, 13 * hour)).toBe(true)
  expect(isSafe({ ...FRESH_BENCH, safeAt: 10 * hour }, 15 * hour)).toBe(false)
  expect(isSafe({ ...FRESH_BENCH, safeAt: 10 * hour }, 9 * hour)).toBe(false)
})

test('every place of both sets, on every demo machine, is written as an item that reads back as that place', () => {
  for (const one of rigs) {
    for (const set of ['standard', 'short'] as const) {
      const places = placesOf(one, set, true)
      expect(places).toHaveLength((set === 'short' ? shortSet(one) : standardSet(one)).length + 1)
      expect(new Set(places.map(({ key }) => key)).size).toBe(places.length)
      const items = places.reduce<unknown[]>((notes, place, i) => withReading(notes, place, i / 10), [])
      const read = readReadings(documentOf(items, FRESH_BENCH), one)
      if (!read.ok) throw new Error(JSON.stringify(read.faults))
      read.readings.readings.forEach((item, i) => {
        if (item.kind !== 'reading') throw new Error('an item is no reading')
        const place = places[i] as BenchPlace
        expect(placeOf(item.reading, one).key).toBe(place.key)
        expect(item.reading.value).toBe(i / 10)
      })
    }
  }
})

test('a value is noted once a place, changed there, taken out, and noted anew after the machine was changed', () => {
  const [first, second] = placesOf(rig, 'standard', true) as [BenchPlace, BenchPlace]
  let notes: unknown[] = withReading(withReading([], first, 3), second, 1)
  notes = withReading(notes, first, 4)
  expect(notes).toHaveLength(2)
  expect(notedAt(notes, first.key)).toEqual({ at: 0, value: 4 })
  expect(notedAt(withoutReading(notes, first), first.key)).toBeUndefined()
  const turned = [...notes, { adjusted: { path: '/servos/0/link', by: 0.2 } }]
  expect(notedAt(turned, first.key)).toBeUndefined()
  expect(withReading(turned, first, 0)).toHaveLength(4)
})

test('the flip check: half the sum is the zero, half the difference the pitch', () => {
  // Worked by hand: a blade at 3 degrees under a gauge that shows 0.4 too much reads 3.4, and turned round -2.6.
  const { zeroDeg, pitchDeg } = flipSplit(3.4, -2.6)
  expectNear(zeroDeg, 0.4, 1e-12, 'deg')
  expectNear(pitchDeg, 3, 1e-12, 'deg')
})

test('the blade under the gauge is told by the machine, not by psi: round again and on the other rotation', () => {
  const clockwise: Rig = { ...rig, rotor: { ...rig.rotor, rotation: 'clockwise' } }
  const place = {
    measure: 'blade-pitch',
    of: 1,
    sticks: session().sticks,
    azimuth: 90,
    teeter: 0,
    yawRate: 0,
    flipped: false,
  } as const
  const counter: Rig = { ...rig, rotor: { ...rig.rotor, rotation: 'counterclockwise' } }
  // model.md: the point at psi has machine azimuth 180 + psi, or 180 - psi on a clockwise rotor; left is 90.
  expect(pointingOf(counter, place)).toBe('right')
  expect(pointingOf(clockwise, place)).toBe('left')
  expect(pointingOf(counter, { ...place, azimuth: -270 })).toBe('right')
  expect(pointingOf(counter, { ...place, azimuth: 45 })).toBeUndefined()
})

const step1 = { path: '/servos/0/link', by: -0.4, unit: 'mm', turns: -1, says: 'shorter', after: [] } satisfies Adjustment
const step2 = { path: '/transmitter/mix/elevator', to: 30, unit: 'percent', says: 'more', after: [] } satisfies Adjustment

test('a step is ticked, a reading follows, and turning it back takes both; undo brings them again', () => {
  step({ plan: [step1, step2], made: 0, stage: 'turn', safeAt: 1 })
  step({ made: 1 }, stepMade(session().readings, step1, 0))
  const place = placesOf(rig, 'standard', true)[0] as BenchPlace
  step({}, withReading(session().readings, place, 2))
  step({ made: 2 }, stepMade(session().readings, step2, 1))
  expect(session().readings).toMatchObject([
    { adjusted: { path: '/servos/0/link', by: -0.4 } },
    { value: 2 },
    { adjusted: { path: '/transmitter/mix/elevator', to: 30 } },
  ])
  expect(readReadings(documentOf(session().readings, FRESH_BENCH), rig)).toMatchObject({ ok: true })
  step({ made: 1 }, stepBack(session().readings, 1))
  expect(session().readings).toHaveLength(2)
  step({ made: 0 }, stepBack(session().readings, 0))
  expect(session().readings).toHaveLength(0)
  store.temporal.getState().undo()
  expect(session().readings).toHaveLength(2)
  expect(bench().made).toBe(1)
  store.temporal.getState().undo()
  expect(session().readings).toHaveLength(3)
  expect(bench().made).toBe(2)
})

test('a closed tab is resumed where it was: stage, plan, step and notes', async () => {
  const kept = new Map<string, unknown>()
  const shelf: Shelf = {
    get: async (key) => structuredClone(kept.get(key)),
    set: async (key, value) => void kept.set(key, structuredClone(value)),
  }
  const flush = autosave(store, shelf, (problem) => expect.fail(problem))
  step({ plan: [step1, step2], made: 0, stage: 'turn', safeAt: 5 })
  step({ made: 1 }, stepMade(session().readings, step1, 0))
  await flush()
  const next = createPageStore(rig)
  expect(await resumeFrom(next, shelf)).toBe(true)
  expect(benchOf(next.getState().session.bench)).toEqual({
    ...FRESH_BENCH,
    plan: [step1, step2],
    made: 1,
    stage: 'turn',
    safeAt: 5,
  })
  expect(next.getState().session.readings).toEqual(session().readings)
})

test('the scene is held as the reading in hand asks: sticks, blade, the nose at rest', () => {
  const places = placesOf(rig, 'standard', true)
  const at = places.findIndex(({ sticks, measure }) => sticks.elevator === 1 && measure === 'blade-pitch')
  step({ stage: 'read', place: at })
  expect(session().sticks).toEqual(places[at]?.sticks)
  expect(session().stand.rotorDeg).toBe(places[at]?.azimuth)
  step({ stage: 'causes' })
  expect(session().sticks.elevator).toBe(0)
  step({ stage: 'look', question: 3 })
  expect(session().sticks.collective).toBe(0.5)
})

const causeOf = (...changes: { path: string; record: unknown; machine: unknown; document?: 'readings' }[]) =>
  ({ changes: changes.map((one) => ({ sd: 0, unit: '', ...one })), probability: 1 }) as unknown as Cause

test('the machine as believed: the cause’s faults with all that was turned since, one step of undo, the ghost untouched', () => {
  const link = valueAt(rig, '/servos/0/link') as number
  const cause = causeOf(
    { path: '/servos/0/link', record: link, machine: link + 1 },
    { path: '/servos/0/horn/offset', record: 0, machine: 8 },
    { path: '/instruments/0/zero', record: 0, machine: 0.4, document: 'readings' },
  )
  const believed = believedChanges(rig, cause, stepMade([], step1, 0))
  store.getState().setBench({ changes: believed }, 'showed it')
  expectNear(valueAt(machineIn(store.getState()), '/servos/0/link') as number, link + 0.6, 1e-9, 'mm')
  expect(valueAt(machineIn(store.getState()), '/servos/0/horn/offset')).toBe(8)
  expect(session().record).toBe(rig)
  expect(isShown(session().changes, believed)).toBe(true)
  store.temporal.getState().undo()
  expect(machineIn(store.getState())).toBe(rig)
  expect(isShown(session().changes, believed)).toBe(false)
})

test('a step that undoes its cause leaves nothing to show', () => {
  const link = valueAt(rig, '/servos/0/link') as number
  const cause = causeOf({ path: '/servos/0/link', record: link, machine: link + 0.4 })
  expect(believedChanges(rig, cause, stepMade([], step1, 0))).toEqual([])
})

test('between the two leads of a swap nothing is read: both hang on one output', () => {
  const lead = (i: number, to: number) => ({ path: `/servos/${i}/output`, to, unit: '', says: '', after: [] })
  const link = { path: '/servos/0/link', by: 0.4, unit: 'mm', says: '', after: [] }
  const plan = [lead(0, 3), lead(2, 1), link] as Adjustment[]
  expect([0, 1, 2, 3].map((made) => isBetweenLeads(plan, made))).toEqual([false, true, false, false])
})

test('what would tell most is read once more beside what was read there, and a correction takes its place', () => {
  const place = placesOf(rig, 'standard', true)[0] as BenchPlace
  const once = withReading([], place, 3)
  expect(withMoreReading(once, place, 4)).toHaveLength(2)
  expect(notedAt(withMoreReading(once, place, 4), place.key)?.value).toBe(4)
  expect(withReading(once, place, 4)).toHaveLength(1)
})

test('a bind is noted where a stick is off the middle, reads back with its sticks, and goes as it came', () => {
  const places = placesOf(rig, 'standard', true)
  const full = places.find(({ sticks }) => sticks.elevator === 1) as BenchPlace
  expect(mayBind(full)).toBe(true)
  expect(mayBind(places[0] as BenchPlace)).toBe(false)
  const noted = withBindTurned([], full)
  expect(bindsAt(noted, full.key)).toBe(true)
  const read = readReadings(documentOf(noted, FRESH_BENCH), rig)
  expect(read.ok && read.readings.readings).toMatchObject([{ kind: 'felt', sticks: full.sticks, binds: true }])
  expect(withBindTurned(noted, full)).toEqual([])
  // Of the machine as it stood before a change it says nothing any more, and stays as it was noted.
  const turned = [...noted, { adjusted: { path: '/servos/0/link', by: 0.4 } }]
  expect(bindsAt(turned, full.key)).toBe(false)
  expect(withBindTurned(withBindTurned(turned, full), full)).toEqual(turned)
})

test('the demo readings read, and those that the set asks for stand in their places', () => {
  const { record, items, instruments } = demoBench()
  expect(readReadings(documentOf(items, { ...FRESH_BENCH, ...instruments }), record)).toMatchObject({ ok: true })
  const places = placesOf(record, 'standard', true)
  expect(places.filter(({ key }) => notedAt(items, key)).length).toBeGreaterThan(12)
})

test('as foretold is within 1.96 standard deviations, to either side', () => {
  expect(asForetold(1.9, { value: 1, sd: 0.5 })).toBe(true)
  expect(asForetold(2, { value: 1, sd: 0.5 })).toBe(false)
  expect(asForetold(0, { value: 1, sd: 0.5 })).toBe(false)
})

test('words: sticks, arms, chances and notes', () => {
  const place = placesOf(rig, 'standard', true)[0] as BenchPlace
  expect(sticksInWords(place)).toBe('Sticks in the middle')
  expect(sticksInWords({ ...place, sticks: { collective: 0, elevator: 1, aileron: -0.5, rudder: 0 } })).toBe(
    'Full forward elevator, 50 % left aileron',
  )
  expect(plusOf(flybar, { ...place, measure: 'washout-arm' })).toContain('flybar end')
  expect(plusOf(flybar, { ...place, measure: 'mixing-arm' })).toContain('swashplate end')
  expect([0.001, 0.5, 0.999, 1].map(percent)).toEqual(['under 1 %', '50 %', 'over 99 %', '100 %'])
  expect(itemInWords(rig, { measure: 'blade-pitch', of: 2, value: -1.25, sticks: { collective: 1 } })).toMatch(
    /^Blade pitch, blade 2, full up collective: -1\.[23]°$/,
  )
})
