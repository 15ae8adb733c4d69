/** The page's one store, without React: changes on the record, undo and redo of everything, autosave and resume. */
import { type Example, examples, predict, prepare, readRig, type Rig, valueAt } from '@swashtrue/mixing'
import { beforeEach, expect, test } from 'vitest'
import { autosave, resumeFrom, type Shelf } from '../../packages/viewer/src/state/autosave.ts'
import { machineOf } from '../../packages/viewer/src/state/changes.ts'
import { openText } from '../../packages/viewer/src/state/documents.ts'
import { figureOfMachine, figureOfRecord, machineIn, predictionOfMachine } from '../../packages/viewer/src/state/pose.ts'
import { createRoundDisc } from '../../packages/viewer/src/state/round-disc.ts'
import { caseOf } from '../../packages/viewer/src/state/session.ts'
import { actingSticks, createPageStore, type PageStore } from '../../packages/viewer/src/state/store.ts'
import { expectNear } from '../support/expect-near.ts'

const [benchTrainer, , flybarTrainer] = examples as unknown as [Example, Example, Example]

function rigOf(document: unknown): Rig {
  const read = readRig(document)
  if (!read.ok) throw new Error(`refused: ${JSON.stringify(read.faults)}`)
  return read.rig
}

const demo = rigOf(benchTrainer.document)
const flybar = rigOf(flybarTrainer.document)
const OFFSET = '/servos/1/horn/offset'
const LINK = '/servos/1/link'

let store: PageStore
beforeEach(() => {
  store = createPageStore(demo)
})

const state = () => store.getState()
const undo = () => store.temporal.getState().undo()
const redo = () => store.temporal.getState().redo()

test('the machine is the changes applied to the record, and the record stays as it was', () => {
  state().change({ path: OFFSET, by: 8 }, 'horn')
  expect(valueAt(machineIn(state()), OFFSET)).toBe(8)
  expect(valueAt(state().session.record, OFFSET)).toBe(0)
  expect(state().session.record).toBe(demo)
})

test('a machine whose changes are unchanged is the same object: derived, and not worked out anew', () => {
  state().change({ path: OFFSET, by: 8 }, 'horn')
  const machine = machineIn(state())
  state().setSticks({ elevator: 0.5 }, 'stick')
  expect(machineIn(state())).toBe(machine)
})

test('turning the same thing again alters the one change; turning it back takes it away', () => {
  state().change({ path: LINK, by: 0.2 }, 'link')
  state().change({ path: LINK, by: 0.2 }, 'link')
  expect(state().session.changes).toEqual([{ path: LINK, by: 0.4 }])
  state().change({ path: LINK, by: -0.4 }, 'link')
  expect(state().session.changes).toEqual([])
  state().change({ path: '/transmitter/mix/elevator', to: -24 }, 'sign')
  state().change({ path: '/transmitter/mix/elevator', to: 24 }, 'sign')
  expect(state().session.changes).toEqual([])
})

test('leads are swapped in pairs and put right in pairs', () => {
  state().change(
    [
      { path: '/servos/0/output', to: 2 },
      { path: '/servos/1/output', to: 1 },
    ],
    'swap',
  )
  expect(machineIn(state()).servos.map(({ output }) => output)).toEqual([2, 1, 3])
  state().takeBack('/servos/1/output')
  expect(state().session.changes).toEqual([])
})

test('a change that the document refuses says why and changes nothing', () => {
  const before = state().session
  state().change({ path: LINK, by: -100 }, 'link')
  expect(state().session).toBe(before)
  expect(state().view.notice?.text).toContain(LINK)
  expect(store.temporal.getState().pastStates).toHaveLength(0)
})

test('undo and redo of everything: changes, sticks, readings, stand, record', () => {
  const steps: (() => void)[] = [
    () => state().change({ path: OFFSET, by: 8 }, 'horn'),
    () => state().setSticks({ elevator: 0.5 }, 'stick'),
    () => state().setBench({ readings: [{ measure: 'blade-pitch', value: 1 }] }, 'reading'),
    () => state().setStand({ rotorDeg: 200 }, 'rotor'),
    () => state().adopt(),
    () => state().open(flybar, 'opened another'),
  ]
  const seen = [state().session]
  for (const step of steps) {
    step()
    seen.push(state().session)
  }
  for (const session of seen.slice(0, -1).reverse()) {
    undo()
    expect(state().session).toBe(session)
  }
  undo()
  expect(state().session).toBe(seen[0])
  for (const session of seen.slice(1)) {
    redo()
    expect(state().session).toBe(session)
  }
})

test('a drag is one step, and what comes after it is another', () => {
  for (let k = 1; k <= 50; k++) state().setSticks({ elevator: k / 50 }, 'stick', 'cyclic')
  state().endGesture()
  for (let k = 1; k <= 50; k++) state().setSticks({ elevator: -k / 50 }, 'stick', 'cyclic')
  expect(store.temporal.getState().pastStates).toHaveLength(2)
  undo()
  expect(state().session.sticks.elevator).toBe(1)
  undo()
  expect(state().session.sticks.elevator).toBe(0)
})

test('another thing done in the midst of a drag is a step of its own', () => {
  state().setSticks({ elevator: 0.2 }, 'stick', 'cyclic')
  state().change({ path: OFFSET, by: 8 }, 'horn')
  state().setSticks({ elevator: 0.4 }, 'stick', 'cyclic')
  expect(store.temporal.getState().pastStates).toHaveLength(3)
  undo()
  undo()
  expect(state().session.changes).toEqual([])
  expect(state().session.sticks.elevator).toBe(0.2)
})

test('a new step after undo forgets what was undone', () => {
  state().change({ path: OFFSET, by: 8 }, 'horn')
  undo()
  state().setSticks({ elevator: 0.3 }, 'stick')
  expect(store.temporal.getState().futureStates).toHaveLength(0)
})

test('a motion moves the acting sticks and leaves the hand and the history alone', () => {
  state().startMotion('elevator')
  state().advance(1)
  expectNear(actingSticks(state()).elevator, 1, 1e-12, 'ratio')
  expect(state().session.sticks.elevator).toBe(0)
  expect(store.temporal.getState().pastStates).toHaveLength(0)
  state().pauseMotion(false)
  state().advance(1)
  expectNear(actingSticks(state()).elevator, 1, 1e-12, 'ratio', 'paused')
  state().stopMotion()
  expect(actingSticks(state()).elevator).toBe(0)
})

test('a motion that plays once ends; a hand on a stick takes over where the motion was', () => {
  state().startMotion('push-elevator', true)
  state().advance(10)
  expect(state().play).toBeUndefined()
  state().startMotion('elevator')
  state().advance(1)
  state().setSticks({ aileron: 0.1 }, 'stick')
  expect(state().play).toBeUndefined()
  expectNear(state().session.sticks.elevator, 1, 1e-12, 'ratio')
})

test("the pose is the library's at the acting sticks; the record's is of the record", () => {
  state().change({ path: OFFSET, by: 8 }, 'horn')
  state().setSticks({ elevator: 0.5, collective: -0.2 }, 'stick')
  const kase = caseOf(demo, state().session.sticks, state().session.stand)
  const expected = predict(prepare(machineOf(demo, state().session.changes)), kase)
  expect(predictionOfMachine(state()).swash).toEqual(expected.swash)
  expect(figureOfMachine(state())).not.toEqual(figureOfRecord(state()))
  expect(figureOfMachine(state())).toBe(figureOfMachine(state()))
})

test('blade pitch round the disc is the pitch that the library gives at each azimuth', () => {
  const sticks = { collective: 0.3, elevator: 0.4, aileron: -0.2, rudder: 0 }
  const { rows } = createRoundDisc()(demo, sticks, { ...state().session.stand })
  const prepared = prepare(demo)
  for (const place of [0, 17, 50]) {
    const { blades } = predict(prepared, { ...sticks, azimuth: place * 5 })
    expectNear(rows[0]?.[place], blades?.[0]?.pitch ?? Number.NaN, 1e-9, 'degree', `psi ${place * 5}`)
  }
})

function shelf(): Shelf & { kept: Map<string, unknown>; writes: number } {
  const kept = new Map<string, unknown>()
  return {
    kept,
    writes: 0,
    get: async (key) => structuredClone(kept.get(key)),
    async set(key, value) {
      this.writes++
      kept.set(key, structuredClone(value))
    },
  }
}

test('autosave and resume: the session comes back whole, and resuming is no step of undo', async () => {
  const place = shelf()
  const flush = autosave(store, place, () => {})
  state().change({ path: OFFSET, by: 8 }, 'horn')
  state().setSticks({ elevator: 0.4 }, 'stick')
  state().setBench({ readings: [{ measure: 'blade-pitch', value: 1 }], bench: { step: 3 } }, 'reading')
  await flush()
  expect(place.writes).toBe(1)
  const other = createPageStore(flybar)
  expect(await resumeFrom(other, place)).toBe(true)
  expect(other.getState().session).toEqual(state().session)
  expect(other.temporal.getState().pastStates).toHaveLength(0)
})

test('what was saved and no longer reads is set aside, and the page starts afresh', async () => {
  const place = shelf()
  const flush = autosave(store, place, () => {})
  state().setSticks({ elevator: 0.4 }, 'stick')
  await flush()
  const [key, saved] = [...place.kept][0] as [string, { session: { record: { servos: unknown[] } } }]
  saved.session.record.servos.pop()
  place.kept.set(key, saved)
  const other = createPageStore(flybar)
  expect(await resumeFrom(other, place)).toBe(false)
  expect(other.getState().session.record).toBe(flybar)
})

test('a browser that keeps nothing is said once, and stops nothing', async () => {
  const said: string[] = []
  const flush = autosave(store, { get: async () => undefined, set: async () => Promise.reject(new Error('quota')) }, (text) =>
    said.push(text),
  )
  for (const elevator of [0.1, 0.2]) {
    state().setSticks({ elevator }, 'stick')
    await flush()
  }
  expect(said).toEqual([expect.stringContaining('not being saved')])
})

test('a document with texts and units opens; a refused one tells each fault and loses nothing', async () => {
  const text = JSON.stringify({ ...(benchTrainer.document as object), linkStep: '0.4 mm' })
  state().change({ path: OFFSET, by: 8 }, 'horn')
  expect(await openText(store, text, 'mine.json')).toBe(true)
  expect(state().session.record.linkStep).toBe(0.4)
  expect(state().session.changes).toEqual([])
  const before = state().session
  const broken = JSON.parse(text) as { servos: { link: unknown; horn: { length: unknown } }[]; swsh: unknown }
  broken.swsh = 1
  ;(broken.servos[0] as { link: unknown }).link = 0
  ;(broken.servos[2] as { horn: { length: unknown } }).horn.length = 'long'
  expect(await openText(store, JSON.stringify(broken), 'broken.json')).toBe(false)
  expect(state().session).toBe(before)
  const pointers = state().view.notice?.faults?.map(({ pointer }) => pointer)
  expect(pointers).toEqual(expect.arrayContaining(['/swsh', '/servos/0/link', '/servos/2/horn/length']))
  expect(await openText(store, '{"servos": [', 'half.json')).toBe(false)
  expect(state().view.notice?.text).toContain('half.json is not JSON')
  expect(state().session).toBe(before)
  undo()
  expect(state().session.changes).toEqual([{ path: OFFSET, by: 8 }])
})
