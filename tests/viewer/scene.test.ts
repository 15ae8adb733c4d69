/** Every ball that is drawn stands where the library says it does: on random valid documents of every kind. */
import { figure, prepare, readRig, type Rig } from '@swashtrue/mixing'
import { expect, test } from 'vitest'
import { ghostLook, machineLook } from '../../packages/viewer/src/scene/look.ts'
import { MachineDrawing } from '../../packages/viewer/src/scene/machine.ts'
import { tailPlace } from '../../packages/viewer/src/scene/tail.ts'
import { expectNear } from '../support/expect-near.ts'
import { KINDS, randomRig } from '../support/machines.ts'
import { seededRandom } from '../support/random.ts'
import { drawnBalls, figureBalls, type Place } from './balls.ts'

const DOCUMENTS = 200
const SEED = 20261
const NEAR_MM = 1e-6

function rigOf(document: unknown): Rig {
  const read = readRig(document)
  if (!read.ok) throw new Error(`a random machine was refused: ${JSON.stringify(read.faults)}`)
  return read.rig
}

/** Where the tail's own axes were put on the machine: u aft, v to the right, w up. */
function tailInMachine(rig: Rig, [u, v, w]: Place): Place {
  const { forwardMm, heightMm } = tailPlace(rig)
  return [forwardMm - u, -v, heightMm + w]
}

test(`every drawn ball of ${DOCUMENTS} random documents is within ${NEAR_MM} mm of the library's (seed ${SEED})`, () => {
  const random = seededRandom(SEED)
  let posed = 0
  const named = new Set<string>()
  for (let n = 0; n < DOCUMENTS; n++) {
    const rig = rigOf(randomRig(SEED + n, KINDS[n % KINDS.length] ?? 'direct', { offNominal: n % 4 === 3 }))
    const drawing = new MachineDrawing(rig, n % 2 === 0 ? machineLook(false) : ghostLook(false))
    const stick = (): number => random.between(-0.6, 0.6)
    const sticks = { collective: stick(), elevator: stick(), aileron: stick(), rudder: stick() }
    const found = figure(prepare(rig), { ...sticks, azimuth: random.between(0, 360) })
    if (found.unreachable || found.tail?.unreachable) continue
    drawing.pose(found)
    const drawn = drawnBalls(drawing)
    const expected = figureBalls(found)
    expect([...drawn.keys()].sort(), `names of the balls of document ${n}`).toEqual([...expected.keys()].sort())
    for (const [name, at] of expected) {
      const inMachine = name.startsWith('/tail/') ? tailInMachine(rig, at) : at
      expectNear(drawn.get(name), inMachine, NEAR_MM, 'mm', `document ${n}, ${name}`)
      named.add(name)
    }
    posed++
    drawing.dispose()
  }
  // Most must have been posed, and every kind of ball seen, or the test has shown little.
  expect(posed).toBeGreaterThan(DOCUMENTS * 0.9)
  for (const name of [
    '/servos/2/lever/swashEnd',
    '/flybar/mixing/1/bladeEnd',
    '/flybar/washout/0/flybarEnd',
    '/tail/leverSliderEnd',
    '/blades/1/armBall',
  ]) {
    expect(named, name).toContain(name)
  }
})
