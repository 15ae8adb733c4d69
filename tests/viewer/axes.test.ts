/** Machine axes (REP-103: x forward, y left, z up) into three's, and back. */
import { expect, test } from 'vitest'
import { azimuthDirection, frame, sceneFromMachine, tailMatrix, toMachine, toScene } from '../../packages/viewer/src/axes/axes.ts'
import { expectNear } from '../support/expect-near.ts'

/** What a test needs of three's vector and matrix, so that the tests need not import three themselves. */
const vector = () => ({
  x: 0,
  y: 0,
  z: 0,
  set(x: number, y: number, z: number) {
    return Object.assign(this, { x, y, z })
  },
})
const inScene = (point: [number, number, number]): number[] => {
  const { x, y, z } = toScene(vector() as never, point)
  return [x, y, z]
}

test('who looks along -Z stands behind the tail: forward is away, left is left, up is up', () => {
  expectNear(inScene([1, 0, 0]), [0, 0, -1], 0, 'mm', 'forward')
  expectNear(inScene([0, 1, 0]), [-1, 0, 0], 0, 'mm', 'left')
  expectNear(inScene([0, 0, 1]), [0, 1, 0], 0, 'mm', 'up')
})

test('there and back again is the same place', () => {
  const out: [number, number, number] = [0, 0, 0]
  toMachine(out, toScene(vector() as never, [12.5, -7.25, 91]))
  expectNear(out, [12.5, -7.25, 91], 0, 'mm')
})

test('the group matrix is the same map, and a rotation: right-handed stays right-handed', () => {
  const matrix = sceneFromMachine()
  expectNear(matrix.determinant(), 1, 0, 'ratio')
  const column = (k: number): number[] => matrix.elements.slice(4 * k, 4 * k + 3)
  expectNear([column(0), column(1), column(2)], [inScene([1, 0, 0]), inScene([0, 1, 0]), inScene([0, 0, 1])], 0, 'mm')
})

test('an azimuth runs from the nose, counter-clockwise seen from above: 90 degrees is left', () => {
  expectNear(azimuthDirection(0), [1, 0, 0], 1e-15, 'mm')
  expectNear(azimuthDirection(90), [0, 1, 0], 1e-15, 'mm')
  expectNear(azimuthDirection(270), [0, -1, 0], 1e-15, 'mm')
})

test("the tail's u points aft and its w up, and the triad is right-handed", () => {
  const matrix = tailMatrix(sceneFromMachine(), -300, 18)
  const e = matrix.elements
  expectNear(e.slice(0, 3), [-1, 0, 0], 0, 'mm', 'u')
  expectNear(e.slice(8, 11), [0, 0, 1], 0, 'mm', 'w')
  expectNear(matrix.determinant(), 1, 0, 'ratio')
  expectNear(e.slice(12, 15), [-300, 0, 18], 0, 'mm', 'origin')
})

test("a body's frame carries its own axes in its columns, left-handed ones too", () => {
  const matrix = frame(sceneFromMachine(), [1, 2, 3], [0, 1, 0], [1, 0, 0], [0, 0, 1])
  expect(matrix.determinant()).toBe(-1)
  expectNear(matrix.elements.slice(12, 15), [1, 2, 3], 0, 'mm')
})
