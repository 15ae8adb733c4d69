/**
 * Shading looked up from the way a surface faces: a small picture of a lit ball, made once. The bench's light then stays
 * with the eye, as under a workshop lamp, and a phone or a browser without a graphics card has next to nothing to compute.
 */
import { DataTexture, LinearFilter, RGBAFormat, SRGBColorSpace } from 'three'

const SIZE = 128

/** Brightness, 0 to 1 and a little beyond, of a surface whose normal (toward the eye: z) is given. */
export type Shading = (x: number, y: number, z: number) => number

const toward = (x: number, y: number, z: number, lx: number, ly: number, lz: number): number =>
  Math.max(0, (x * lx + y * ly + z * lz) / Math.hypot(lx, ly, lz))
const smooth = (from: number, to: number, value: number): number => {
  const t = Math.max(0, Math.min(1, (value - from) / (to - from)))
  return t * t * (3 - 2 * t)
}

/** Painted and plastic: a soft lamp from the upper left, light thrown back from the bench below. */
export const matte: Shading = (x, y, z) =>
  0.42 + 0.5 * toward(x, y, z, -0.5, 0.75, 0.55) + 0.12 * smooth(0.2, 1, -y) + 0.08 * (1 - z)

/** Turned metal: a bright sky, a dark horizon, a paler bench, and a hard glint. */
export const metal: Shading = (x, y, z) => {
  const sky = 0.5 + 0.42 * smooth(-0.05, 0.75, y + 0.25 * x)
  const horizon = 0.34 * Math.exp(-(((y + 0.12) / 0.16) ** 2))
  const bench = 0.2 * smooth(0.1, 0.9, -y)
  const glint = 0.55 * toward(x, y, z, -0.45, 0.7, 0.6) ** 24
  return sky - horizon + bench + glint + 0.08 * (1 - z)
}

/** Moulded and rubber: matte with a small gloss. */
export const satin: Shading = (x, y, z) =>
  0.45 + 0.42 * toward(x, y, z, -0.5, 0.75, 0.5) + 0.35 * toward(x, y, z, -0.4, 0.65, 0.65) ** 14 + 0.22 * (1 - z) ** 2

export function matcap(shading: Shading): DataTexture {
  const data = new Uint8Array(SIZE * SIZE * 4)
  for (let row = 0; row < SIZE; row++) {
    for (let column = 0; column < SIZE; column++) {
      let x = ((column + 0.5) / SIZE) * 2 - 1
      let y = ((row + 0.5) / SIZE) * 2 - 1
      const r = Math.hypot(x, y)
      // Beyond the ball's rim the rim's own shade goes on, so that no edge picks up a border.
      if (r > 0.99) {
        x *= 0.99 / r
        y *= 0.99 / r
      }
      const z = Math.sqrt(Math.max(0, 1 - x * x - y * y))
      const shade = Math.max(0, Math.min(255, Math.round(255 * shading(x, y, z))))
      data.set([shade, shade, shade, 255], 4 * (row * SIZE + column))
    }
  }
  const texture = new DataTexture(data, SIZE, SIZE, RGBAFormat)
  texture.colorSpace = SRGBColorSpace
  texture.minFilter = texture.magFilter = LinearFilter
  texture.needsUpdate = true
  return texture
}
