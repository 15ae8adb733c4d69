/** The reach's map against `predict`, place by place; and its pool, whose threads here speak when the test lets them. */
import { type Example, examples, predict, prepare, REACH_AZIMUTHS, REACH_MISSES, readRig, type Rig } from '@swashtrue/mixing'
import { expect, test } from 'vitest'
import { inkAt } from '../../packages/viewer/src/reach/draw.ts'
import { limitRing, limitsCorners } from '../../packages/viewer/src/reach/limit-ring.ts'
import { placeIn, placeSays, reachSays } from '../../packages/viewer/src/reach/words.ts'
import { createReach, type ReachMap, sticksOf } from '../../packages/viewer/src/state/reach.ts'
import type { Thread } from '../../packages/viewer/src/worker/pool.ts'
import { type ReachSays, type ReachTold, reachThread } from '../../packages/viewer/src/worker/reach.ts'
import { expectNear } from '../support/expect-near.ts'
import { KINDS, randomRig } from '../support/machines.ts'

function rigOf(document: unknown): Rig {
  const read = readRig(document)
  if (!read.ok) throw new Error(`refused: ${JSON.stringify(read.faults)}`)
  return read.rig
}
const demo = rigOf((examples[0] as Example).document)
const withLimits = (rig: Rig, limits: [number, number], cyclicLimit?: number): Rig => ({
  ...rig,
  transmitter: {
    ...rig.transmitter,
    mix: cyclicLimit === undefined ? rig.transmitter.mix : { ...rig.transmitter.mix, cyclicLimit },
    outputs: rig.transmitter.outputs.map((output, j) =>
      j === 1 ? { ...output, limits } : output,
    ) as Rig['transmitter']['outputs'],
  },
})

const withLink = (rig: Rig, byMm: number): Rig => ({
  ...rig,
  servos: rig.servos.map((servo, i) => (i === 1 ? { ...servo, link: servo.link + byMm } : servo)) as Rig['servos'],
})

/** Threads by hand: each does its work when it is let, and keeps what it would say until then. */
function threads() {
  const made: (Thread<ReachTold, ReachSays> & { waiting: ReachTold[]; ended: boolean; speak(): void })[] = []
  const make = () => {
    const answer = reachThread()
    const thread: (typeof made)[number] = {
      waiting: [],
      ended: false,
      onmessage: null,
      onerror: null,
      postMessage: (told) => thread.waiting.push(told),
      terminate: () => {
        thread.ended = true
      },
      speak: () => {
        for (const told of thread.waiting.splice(0)) {
          const data = answer(told)
          if (data) thread.onmessage?.({ data })
        }
      },
    }
    made.push(thread)
    return thread
  }
  /** Lets all speak until none has anything to do, ended ones too: a message may be on its way when its thread is ended. */
  const speakAll = async (): Promise<void> => {
    while (made.some(({ waiting }) => waiting.length > 0)) {
      for (const thread of made) thread.speak()
      await Promise.resolve()
    }
    await new Promise((done) => setTimeout(done))
  }
  return { made, make, speakAll }
}

async function mapOf(machine: Rig, side: number, mode?: string): Promise<ReachMap> {
  const { make, speakAll } = threads()
  const reach = createReach(make, 3)
  reach.ask({ machine, mode }, side)
  await speakAll()
  const { map, trouble } = reach.store.getState()
  if (!map) throw new Error(`no map: ${trouble}`)
  return map
}

/** What `predict` says of a place: a sum of cut outputs, or the path that misses at the first azimuth that does not close. */
function predicted(machine: Rig, sticks: Float64Array, n: number, mode?: string): number | string {
  const prepared = prepare(machine)
  const kase = {
    collective: sticks[3 * n] as number,
    elevator: sticks[3 * n + 1] as number,
    aileron: sticks[3 * n + 2] as number,
  }
  let cut = 0
  for (const azimuth of REACH_AZIMUTHS) {
    const { unreachable, outputs } = predict(prepared, { ...kase, azimuth, ...(mode === undefined ? {} : { mode }) })
    if (unreachable) return unreachable.path
    cut = outputs.reduce((sum, { saturated }, j) => sum + (saturated ? 1 << j : 0), 0)
  }
  return cut
}

test('every place of the maps is as predict has it, on machines of every kind, set carelessly and beyond their reach', async () => {
  const side = 7
  const machines: [Rig, string?][] = [
    [withLimits(demo, [1400, 1640], 90)],
    // lengths that miss on a part of the sticks only: a blade's somewhere round the disc, a blade's by the lean, a servo's
    [{ ...demo, rotor: { ...demo.rotor, links: demo.rotor.links.map((mm, k) => (k === 0 ? mm + 21 : mm)) } }],
    [withLink(withLimits(demo, [1400, 1640]), 26)],
    [withLink(demo, -26)],
    ...KINDS.map((kind, k): [Rig] => [withLimits(rigOf(randomRig(910 + k, kind, { offNominal: true })), [1380, 1600])]),
  ]
  const second = {
    ...demo,
    transmitter: {
      ...demo.transmitter,
      flightModes: [...demo.transmitter.flightModes, { name: 'other', pitchCurve: [100, -60, 90] }],
    },
  }
  machines.push([withLimits(second, [1400, 1640]), 'other'])
  const seen = { free: 0, cut: 0, missed: 0 }
  for (const [at, [machine, mode]] of machines.entries()) {
    const map = await mapOf(machine, side, mode)
    const sticks = sticksOf(0, map.codes.length, side)
    expect(map.codes.length).toBe(3 * side * side)
    map.codes.forEach((code, n) => {
      const said = code >= REACH_MISSES ? map.paths[code - REACH_MISSES] : code
      expect(said, `machine ${at}, place ${n}`).toBe(predicted(machine, sticks, n, mode))
      if (code === 0) seen.free++
      else if (code < REACH_MISSES) seen.cut++
      else seen.missed++
    })
  }
  // Each must have been met, or the test has shown little.
  for (const [name, count] of Object.entries(seen)) expect(count, name).toBeGreaterThan(10)
})

test('the sticks of a map begin at low collective, back and left, and hold every end and the centre', () => {
  const sticks = sticksOf(0, 3 * 25, 5)
  expect([...sticks.subarray(0, 6)]).toEqual([-1, -1, -1, -1, -1, -0.5])
  const centre = placeIn({ side: 5 }, 1, 0, 0)
  expect([...sticks.subarray(3 * centre, 3 * centre + 3)]).toEqual([0, 0, 0])
  expect([...sticks.subarray(-3)]).toEqual([1, 1, 1])
  expect([...sticksOf(7, 2, 5)]).toEqual([...sticks.subarray(21, 27)])
})

test('cancel acts at once: nothing is working, busy threads are ended, and what they still say is not heard', async () => {
  const { made, make, speakAll } = threads()
  const reach = createReach(make, 2)
  reach.ask({ machine: demo, mode: undefined }, 31)
  made[0]?.speak()
  const done = reach.store.getState().working?.done ?? 0
  expect(done).toBeGreaterThan(0)
  expect(done).toBeLessThan(1)
  reach.cancel()
  expect(reach.store.getState().working).toBeUndefined()
  expect(reach.store.getState().cancelled?.machine).toBe(demo)
  expect(made.map(({ ended }) => ended)).toEqual([true, true])
  await speakAll()
  expect(reach.store.getState()).toMatchObject({ map: undefined, working: undefined, trouble: undefined })
  reach.ask({ machine: demo, mode: undefined }, 31)
  await speakAll()
  expect(reach.store.getState().map?.side).toBe(31)
})

test('an answer about a machine that has changed meanwhile is dropped; the last map stands until the new one is whole', async () => {
  const { made, make, speakAll } = threads()
  const reach = createReach(make, 2)
  const old = { machine: demo, mode: undefined }
  reach.ask(old, 5)
  await speakAll()
  const tight = { machine: withLimits(demo, [1500, 1540]), mode: undefined }
  reach.ask({ machine: withLimits(demo, [1519, 1521]), mode: undefined }, 31)
  made[0]?.speak()
  reach.ask(tight, 31)
  expect(reach.store.getState().map?.machine).toBe(demo)
  await speakAll()
  const { map } = reach.store.getState()
  expect(map?.machine).toBe(tight.machine)
  expect(map?.codes).toEqual((await mapOf(tight.machine, 31)).codes)
})

test('threads are no more than asked for and are used again; one that cannot start says so', async () => {
  const { made, make, speakAll } = threads()
  const reach = createReach(make, 4)
  reach.ask({ machine: demo, mode: undefined }, 31)
  await speakAll()
  reach.ask({ machine: { ...demo }, mode: undefined }, 31)
  await speakAll()
  expect(made.length).toBe(4)
  reach.close()
  expect(made.every(({ ended }) => ended)).toBe(true)
  reach.ask({ machine: { ...demo }, mode: undefined }, 31)
  made.at(-1)?.onerror?.({ message: 'no such file' })
  await new Promise((settled) => setTimeout(settled))
  expect(reach.store.getState()).toMatchObject({ working: undefined, trouble: 'no such file' })
})

test('the sentence names the mildest place of the sticks, the collective and the output or the length', async () => {
  expect(reachSays(await mapOf(demo, 5), false).says).toEqual([
    'Every corner of the sticks is free, with collective low, middle and full.',
  ])
  const side = 3
  const none = { machine: demo, mode: undefined, side, paths: ['/servos/1/link'], worstMm: [2.34], tookMs: 1 }
  const codes = new Uint8Array(27)
  expect(reachSays({ ...none, codes }, true).says[0]).toBe(
    'Every corner inside the limit is free, with collective low, middle and full.',
  )
  codes[placeIn(none, 2, 0, 1)] = 2
  codes[placeIn(none, 2, 1, 1)] = 3
  codes[placeIn(none, 0, -1, -1)] = REACH_MISSES
  const { says, shares } = reachSays({ ...none, codes }, true)
  expect(says).toEqual([
    'Full right aileron at full collective: output 2 is cut off by its limit.',
    'The forward right corner at full collective: output 1 is cut off by its limit.',
    "The back left corner at low collective: cannot be reached, for servo 2's link misses by up to 2.3 mm.",
  ])
  expectNear([shares.free, shares.cut, shares.missed], [24 / 27, 2 / 27, 1 / 27], 1e-12, 'part')
  expect(placeSays({ ...none, codes }, placeIn(none, 2, 1, 1))).toBe(
    'Elevator 100\u00a0% forward, aileron 100\u00a0% right, full collective: outputs 1 and 2 are cut off by their limits.',
  )
})

test('the ring lies where the sticks, after rates and expo, come to the limit', () => {
  expect(limitRing(prepare(demo))).toBeUndefined()
  const rates = { ...demo.transmitter.rates, elevator: { rate: 80, expo: 30 } }
  const limited = withLimits(demo, [900, 2100], 60)
  const ring = limitRing(prepare({ ...limited, transmitter: { ...limited.transmitter, rates } })) ?? []
  expect(limitsCorners(ring)).toBe(true)
  for (const point of ring) {
    const [elevator, aileron] = point as [number, number]
    // model.md, Transmitter: y = rate/100 ((1 - e) x + e x^3)
    expectNear(Math.hypot(0.8 * (0.7 * elevator + 0.3 * elevator ** 3), aileron), 0.6, 1e-5, 'part')
  }
})

test('each output has its own hatching, two lie over each other, and what is free is plain', () => {
  const inks = { free: [1, 0, 0], cut: [2, 0, 0], hatch: [3, 0, 0], missed: [4, 0, 0], dot: [5, 0, 0] } as const
  const drawn = (code: number): string => {
    let text = ''
    for (let y = 0; y < 14; y++) for (let x = 0; x < 14; x++) text += inkAt(code, x, y, inks)[0]
    return text
  }
  const all = [0, 1, 2, 3, 4, 8].map(drawn)
  expect(new Set(all).size).toBe(all.length)
  expect(new Set(drawn(0))).toEqual(new Set(['1']))
  expect(new Set(drawn(8))).toEqual(new Set(['4', '5']))
  const [first, second, both] = [drawn(1), drawn(2), drawn(3)]
  ;[...both].forEach((ink, k) => expect(ink === '3').toBe(first[k] === '3' || second[k] === '3'))
})
