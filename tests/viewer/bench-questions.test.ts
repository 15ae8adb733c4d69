/** The look card: every answer reads as an item, and is right for what a machine does, healthy or not. */
import { applyChanges, type Change, examples, valueAt } from '@swashtrue/mixing'
import { defaultTargets, plan, readReadings } from '@swashtrue/mixing/bench'
import { describe, expect, test } from 'vitest'
import { documentOf, FRESH_BENCH, type WrittenItem } from '../../packages/viewer/src/bench/model.ts'
import {
  answerTo,
  partsItems,
  questionsFor,
  recordNow,
  seenItems,
  TIPS,
  tipItems,
  withAnswer,
} from '../../packages/viewer/src/bench/questions.ts'
import { answerOf, demoRig, diagnosisOfNotes, lookAt } from './bench-answers.ts'

const MACHINES = examples.map(({ name }) => name)
const MOVED = ['collective', 'elevator', 'aileron', 'rudder', 'gyro']
const reads = (rig: ReturnType<typeof demoRig>, items: readonly unknown[]) => readReadings(documentOf(items, FRESH_BENCH), rig)

describe.each(MACHINES)('%s', (name) => {
  const rig = demoRig(name)
  const questions = questionsFor(rig)

  test('every item of every answer reads', () => {
    for (const question of questions) {
      const all: WrittenItem[] =
        question.kind === 'choice'
          ? question.answers.flatMap(({ items }) => items)
          : question.kind === 'tip'
            ? TIPS.flat().flatMap((tip) => tipItems(question, tip))
            : answerOf(question, rig)
      expect(all.length, question.id).toBeGreaterThan(0)
      expect(reads(rig, all), question.id).toMatchObject({ ok: true })
    }
    const parts = questions[0]
    if (parts?.kind !== 'parts') throw new Error('the first question is about parts')
    expect(reads(rig, partsItems(parts, new Map(parts.parts.map(({ part }) => [part, 'bent' as const])), []))).toMatchObject({
      ok: true,
    })
  })

  test('seen and moved as a healthy machine of this record does, nothing wrong comes first', () => {
    const { causes } = diagnosisOfNotes(rig, lookAt(rig, []))
    expect(causes[0]?.changes, causes[0]?.says).toEqual([])
    // Without a look at settings the movements alone must not point at a fault either.
    const moved = diagnosisOfNotes(rig, lookAt(rig, [], MOVED)).causes
    expect(moved[0]?.changes, moved[0]?.says).toEqual([])
    expect(moved[0]?.probability as number).toBeGreaterThan(0.5)
  })
})

const SIGNS: [string, string, Change[]][] = [
  ['bench-trainer', 'output 2 reversed', [{ path: '/transmitter/outputs/1/reverse', to: true }]],
  [
    'bench-trainer',
    'leads 1 and 2 swapped',
    [
      { path: '/servos/0/output', to: 2 },
      { path: '/servos/1/output', to: 1 },
    ],
  ],
  ['bench-trainer', 'the collective value’s sign', [{ path: '/transmitter/mix/collective', to: -43 }]],
  ['bench-trainer', 'the elevator value’s sign', [{ path: '/transmitter/mix/elevator', to: -24 }]],
]

test.each(SIGNS)('%s with %s: named first by movement alone, or alike with the first', (name, _, changes) => {
  const rig = demoRig(name)
  const { causes, alike } = diagnosisOfNotes(rig, lookAt(rig, changes, MOVED))
  const wanted = changes.map(({ path }) => path).sort()
  const at = causes.findIndex((cause) => JSON.stringify(cause.changes.map(({ path }) => path).sort()) === JSON.stringify(wanted))
  const first = alike.find((group) => group.includes(0)) ?? [0]
  expect(
    first,
    causes
      .slice(0, 4)
      .map(({ says, probability }) => `${says} ${probability.toFixed(2)}`)
      .join(' | '),
  ).toContain(at)
})

test.each(SIGNS)('%s with %s: named first, and alone, once it was looked at', (name, _, changes) => {
  const rig = demoRig(name)
  const { causes } = diagnosisOfNotes(rig, lookAt(rig, changes))
  expect(causes[0]?.changes.map(({ path }) => path).sort()).toEqual(changes.map(({ path }) => path).sort())
  expect(causes[0]?.probability as number).toBeGreaterThan(0.5)
})

test('a rudder and a gyro that go the wrong way are named by movement alone', () => {
  const rig = demoRig('flybar-trainer')
  for (const path of ['/transmitter/rudder/reverse', '/tail/gyro/reverse']) {
    const wrong: Change = { path, to: !(valueAt(rig, path) ?? false) }
    const { causes } = diagnosisOfNotes(rig, lookAt(rig, [wrong], MOVED))
    expect(
      causes[0]?.changes.map((change) => change.path),
      causes[0]?.says,
    ).toContain(path)
  }
})

test('a bent link is in the plan to be replaced, and once replaced it is not', () => {
  const rig = demoRig('bench-trainer')
  const parts = questionsFor(rig)[0]
  if (parts?.kind !== 'parts') throw new Error('the first question is about parts')
  const bent = withAnswer([], 'parts', partsItems(parts, new Map([['/servos/1/link', 'bent']]), []), 'found')
  const replaceOf = (items: readonly unknown[]) => {
    const read = reads(rig, items)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    return plan(rig, read.readings, defaultTargets()).replace.map(({ part }) => part)
  }
  expect(replaceOf(bent)).toEqual(['/servos/1/link'])
  const turned = [...bent, { adjusted: { path: '/servos/0/link', by: 0.2 } }]
  const replaced = withAnswer(turned, 'parts', partsItems(parts, new Map(), turned), 'straight')
  expect(replaced.length).toBeGreaterThan(turned.length)
  expect(replaceOf(replaced)).toEqual([])
})

test('a new answer takes the old one’s place, but not what was so before the machine was changed', () => {
  const rig = demoRig('bench-trainer')
  const lead = (output: number): WrittenItem[] => seenItems(new Map([['/servos/0/output', output]]))
  const once = withAnswer([{ measure: 'horn-angle', value: 1 }], 'leads', lead(1), 'seen')
  const twice = withAnswer(once, 'leads', lead(2), 'seen')
  expect(twice).toHaveLength(2)
  expect(answerTo(twice, 'leads')?.items[0]?.['seen']).toEqual({ path: '/servos/0/output', value: 2 })
  const changed = [...twice, { adjusted: { path: '/transmitter/mix/elevator', to: -24 } }]
  expect(answerTo(changed, 'leads')).toBeUndefined()
  const after = withAnswer(changed, 'leads', lead(1), 'seen')
  expect(after.slice(0, 3)).toEqual(changed)
  expect(after).toHaveLength(4)
  // "As recorded" is then asked of the record with that change.
  expect(recordNow(rig, after)).toEqual(applyChanges(rig, [{ path: '/transmitter/mix/elevator', to: -24 }]))
})
