/**
 * What the drawn parts are made of: the materials of the machine as it is, in light and dark surroundings, and the one
 * translucent material of the ghost, the machine as recorded. The two accents are the page's own (ui/theme.css).
 */
import { type Material, MeshBasicMaterial, MeshStandardMaterial } from 'three'

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

const standard = (color: string, metalness: number, roughness: number): MeshStandardMaterial =>
  new MeshStandardMaterial({ color, metalness, roughness })

export function machineLook(dark: boolean): Look {
  return {
    ghost: false,
    metal: standard(dark ? '#8d9598' : '#9ba3a4', 0.85, 0.38),
    bright: standard(dark ? '#cfd4d2' : '#d9dcd8', 0.75, 0.3),
    dark: standard(dark ? '#3a4144' : '#3c4346', 0.35, 0.55),
    plastic: standard(dark ? '#23282a' : '#24292b', 0.05, 0.6),
    ball: standard('#e9e4d4', 0.9, 0.18),
    blade: standard(dark ? '#d8d2c2' : '#e8e2d2', 0, 0.6),
    mark: standard(dark ? '#23282a' : '#2b3133', 0, 0.6),
    changed: standard(dark ? AS_IS.dark : AS_IS.light, 0.15, 0.45),
    plate: standard(dark ? '#2a3134' : '#b4b0a4', 0.05, 0.85),
  }
}

export function ghostLook(dark: boolean): Look {
  const one = new MeshBasicMaterial({
    color: dark ? AS_RECORDED.dark : AS_RECORDED.light,
    transparent: true,
    opacity: dark ? 0.34 : 0.28,
    depthWrite: false,
  })
  return {
    ghost: true,
    metal: one, bright: one, dark: one, plastic: one, ball: one, blade: one, mark: one, changed: one, plate: one,
  }
}

/** The last good pose of a machine that cannot be posed stays, dimmed. */
export function dim(look: Look, dimmed: boolean): void {
  for (const part of Object.values(look)) {
    if (part instanceof MeshStandardMaterial) {
      part.transparent = dimmed
      part.opacity = dimmed ? 0.3 : 1
      part.needsUpdate = true
    }
  }
}
