/** How finely the scene is drawn, moving and at rest. Frame times here are chosen, not measured. */
import { expect, test } from 'vitest'
import { Resolution } from '../../packages/viewer/src/scene/resolution.ts'

/** Draws `frames` frames, each `everyMs` after the last; gives the ratio of the last one. */
function move(resolution: Resolution, frames: number, everyMs: number): number {
  let ratio = Number.NaN
  for (let k = 0; k < frames; k++) ratio = resolution.frame(1000 + k * everyMs)
  return ratio
}

test('a movement whose frames come quickly is drawn in full, and so is what rests', () => {
  const resolution = new Resolution(2, 2)
  expect(move(resolution, 200, 16.7)).toBe(2)
  expect(resolution.rest()).toBe(2)
})

test('a movement whose frames come slowly is drawn coarser, never below 1, and in full at rest', () => {
  const resolution = new Resolution(2, 3)
  expect(move(resolution, 4, 90)).toBe(2)
  resolution.rest()
  expect(move(resolution, 8, 90)).toBeLessThan(2)
  expect(resolution.rest()).toBe(3)
  expect(move(resolution, 200, 90)).toBeGreaterThanOrEqual(0.99)
  expect(resolution.rest()).toBe(3)
})

test('the next movement begins where the last had come to, and is finer again after one with room to spare', () => {
  const resolution = new Resolution(2, 2)
  const slow = move(resolution, 8, 90)
  resolution.rest()
  expect(move(resolution, 1, 90)).toBe(slow)
  resolution.rest()
  move(resolution, 20, 8)
  resolution.rest()
  expect(move(resolution, 1, 8)).toBeGreaterThan(slow)
})

test('a pause between two movements is no slow frame', () => {
  const resolution = new Resolution(2, 2)
  for (let k = 0; k < 30; k++) {
    for (let frame = 0; frame < 6; frame++) expect(resolution.frame(10_000 * k + 17 * frame)).toBe(2)
    resolution.rest()
  }
})
