/** Tilt asked for: true to the sticks even where the record is not. */
import { type Example, examples, prepare, readRig, type Rig } from '@swashtrue/mixing'
import { expect, test } from 'vitest'
import { askedTilt, commandedDirection } from '../../packages/viewer/src/state/asked-tilt.ts'
import { predictionOfMachine, predictionOfRecord } from '../../packages/viewer/src/state/pose.ts'
import { createPageStore } from '../../packages/viewer/src/state/store.ts'
import { expectNear } from '../support/expect-near.ts'
import { KINDS, randomRig } from '../support/machines.ts'

function rigOf(document: unknown): Rig {
  const read = readRig(document)
  if (!read.ok) throw new Error(`refused: ${JSON.stringify(read.faults)}`)
  return read.rig
}
const demo = (examples[0] as Example).document as { servos: unknown[] }

function asked(record: Rig, sticks: { collective?: number; elevator?: number; aileron?: number }) {
  const store = createPageStore(record)
  store.getState().setSticks(sticks, 'test')
  const state = store.getState()
  const tilt = askedTilt(state, predictionOfRecord(state))
  if (!tilt) throw new Error('nothing asked')
  return { tilt, store }
}

test('sound machines of every kind get what is asked, to a degree', () => {
  for (let n = 0; n < 30; n++) {
    const record = rigOf(randomRig(7000 + n, KINDS[n % 3] as 'direct'))
    const sticks = { elevator: 0.5 - n / 40, aileron: n / 50 - 0.2 }
    const { tilt, store } = asked(record, sticks)
    const got = predictionOfMachine(store.getState()).swash
    expectNear([tilt.foreAft, tilt.side], [got?.foreAft ?? Number.NaN, got?.side ?? Number.NaN], 1, 'degree', `machine ${n}`)
  }
})

test('a record with two leads swapped still asks forward for forward, though it tilts elsewhere', () => {
  const document = structuredClone(demo) as unknown as { servos: { output?: number }[] }
  Object.assign(document.servos[0] as object, { output: 2 })
  Object.assign(document.servos[1] as object, { output: 1 })
  const { tilt, store } = asked(rigOf(document), { elevator: 0.5 })
  expect(tilt.foreAft).toBeGreaterThan(1)
  expectNear(tilt.side, 0, 1e-12, 'degree')
  const got = predictionOfMachine(store.getState()).swash
  expect(Math.abs(got?.side ?? 0)).toBeGreaterThan(1)
})

test('a record that leans asks for no tilt with the cyclic stick centred', () => {
  const record = rigOf(demo)
  const leaning = {
    ...record,
    servos: record.servos.map((servo, i) => (i === 1 ? { ...servo, link: servo.link + 1.5 } : servo)),
  } as Rig
  const { tilt, store } = asked(leaning, { collective: 0.3 })
  expectNear([tilt.foreAft, tilt.side], [0, 0], 1e-12, 'degree')
  const got = predictionOfMachine(store.getState()).swash
  expect(Math.hypot(got?.foreAft ?? 0, got?.side ?? 0)).toBeGreaterThan(0.5)
})

test('what a change does to the machine changes nothing of what is asked', () => {
  const record = rigOf(demo)
  const before = asked(record, { elevator: 0.4, aileron: -0.3 })
  before.store.getState().change({ path: '/transmitter/mix/elevator', by: 10 }, 'mix')
  const state = before.store.getState()
  expect(askedTilt(state, predictionOfRecord(state))).toEqual(before.tilt)
})

test('the direction is after rates and phase: 90 degrees of phase on a clockwise rotor turn forward into right', () => {
  const record = rigOf(demo)
  const { mix } = record.transmitter
  const turned = prepare({
    ...record,
    rotor: { ...record.rotor, rotation: 'clockwise' },
    transmitter: { ...record.transmitter, mix: { ...mix, phase: 90 } },
  })
  expectNear(commandedDirection(turned, 1, 0), [0, 1], 1e-12, 'part')
  expectNear(commandedDirection(turned, 0, 0), [0, 0], 0, 'part')
})
