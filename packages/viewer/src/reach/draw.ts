/**
 * The map's picture, pixel by pixel. What is so is told by pattern and lightness and only then by colour: free is plain,
 * a cut pulse is hatched (output 1 rising, output 2 falling, output 3 level; several lie over each other), and what cannot
 * be reached is dark and dotted.
 */
import { REACH_MISSES } from '@swashtrue/mixing'

type Colour = readonly [number, number, number]

export interface Inks {
  readonly free: Colour
  readonly cut: Colour
  readonly hatch: Colour
  readonly missed: Colour
  readonly dot: Colour
}

/** CSS pixels from one line of a pattern to the next, and a line's own width. */
const EVERY = 7
const WIDTH = 2

/** What `code` looks like at a place of the picture, CSS pixels from its corner. */
export function inkAt(code: number, x: number, y: number, inks: Inks): Colour {
  if (code === 0) return inks.free
  if (code >= REACH_MISSES) return x % EVERY < WIDTH && y % EVERY < WIDTH ? inks.dot : inks.missed
  // A slanting line that is as wide as a level one takes up more of a row.
  const slant = WIDTH * Math.SQRT2
  const lined =
    ((code & 1) !== 0 && (x + y) % EVERY < slant) ||
    ((code & 2) !== 0 && (x - y + 1000 * EVERY) % EVERY < slant) ||
    ((code & 4) !== 0 && y % EVERY < WIDTH)
  return lined ? inks.hatch : inks.cut
}

/** Draws one map (side x side codes, the back stick's row first) over the whole canvas. */
export function drawMap(canvas: HTMLCanvasElement, codes: Uint8Array, side: number, inks: Inks, ratio: number): void {
  const size = Math.round(canvas.clientWidth * ratio)
  const context = canvas.getContext('2d')
  if (!context || size === 0) return
  canvas.width = size
  canvas.height = size
  const picture = context.createImageData(size, size)
  for (let row = 0; row < size; row++) {
    const fromBack = side - 1 - cell(row, size, side)
    for (let column = 0; column < size; column++) {
      const code = codes[fromBack * side + cell(column, size, side)] as number
      picture.data.set(inkAt(code, column / ratio, row / ratio, inks), 4 * (row * size + column))
      picture.data[4 * (row * size + column) + 3] = 255
    }
  }
  context.putImageData(picture, 0, 0)
}

const cell = (pixel: number, size: number, side: number): number => Math.min(side - 1, Math.floor((pixel * side) / size))
