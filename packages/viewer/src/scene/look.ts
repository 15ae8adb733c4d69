/**
 * What the drawn parts are made of: the materials of the machine as it is, in light and dark surroundings, and the one
 * translucent material of the ghost, the machine as recorded. The two accents are the page's own (ui/theme.css).
 */
import { type Material, MeshBasicMaterial, MeshMatcapMaterial } from 'three'
import { matcap, matte, metal, satin } from './matcap.ts'

export interface Look {
  readonly ghost: boolean
  /** frame, mast, hub: what carries */
  readonly metal: Material
  /** horns, levers, rings: what moves */
  readonly bright: Material
  readonly dark: Material
  readonly plastic: Material
  readonly ball: Material
  readonly blade: Material
  /** tips and the mark on blade 1 */
  readonly mark: Material
  /** a part that is not as recorded */
  readonly changed: Material
  readonly plate: Material
}

export const AS_IS = { light: '#c2410c', dark: '#ff8a4c' } as const
export const AS_RECORDED = { light: '#1d5fa8', dark: '#6fb1ff' } as const

const shadings = { metal: matcap(metal), matte: matcap(matte), satin: matcap(satin) }

const made = (color: string, shading: keyof typeof shadings): MeshMatcapMaterial =>
  new MeshMatcapMaterial({ color, matcap: shadings[shading] })

export function machineLook(dark: boolean): Look {
  return {
    ghost: false,
    metal: made(dark ? '#aeb6b8' : '#a7afb0', 'metal'),
    bright: made(dark ? '#eef0ec' : '#e6e8e3', 'metal'),
    dark: made(dark ? '#667074' : '#4a5357', 'satin'),
    plastic: made(dark ? '#4a5256' : '#343b3e', 'satin'),
    ball: made('#fff8e4', 'metal'),
    blade: made(dark ? '#e8e2d2' : '#f3eee1', 'matte'),
    mark: made(dark ? '#3a4144' : '#343b3e', 'matte'),
    changed: made(dark ? AS_IS.dark : AS_IS.light, 'satin'),
    plate: made(dark ? '#343c3f' : '#cbc6b8', 'matte'),
  }
}

export function ghostLook(dark: boolean): Look {
  const one = new MeshBasicMaterial({
    color: dark ? AS_RECORDED.dark : AS_RECORDED.light,
    transparent: true,
    opacity: dark ? 0.42 : 0.38,
    depthWrite: false,
    // Where both machines coincide only the solid one is seen.
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 2,
  })
  return {
    ghost: true,
    metal: one,
    bright: one,
    dark: one,
    plastic: one,
    ball: one,
    blade: one,
    mark: one,
    changed: one,
    plate: one,
  }
}

/** The last good pose of a machine that cannot be posed stays, dimmed. */
export function dim(look: Look, dimmed: boolean): void {
  for (const part of Object.values(look)) {
    if (part instanceof MeshMatcapMaterial) {
      part.transparent = dimmed
      part.opacity = dimmed ? 0.3 : 1
      part.needsUpdate = true
    }
  }
}
