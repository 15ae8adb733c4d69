/**
 * The hand in the scene: a blade that is taken hold of turns the rotor; a part that is tapped says which one it is.
 * Everything else is left to the camera's controls.
 */
import type { Rig } from '@swashtrue/mixing'
import { type Camera, type Object3D, Plane, Raycaster, Vector2, Vector3 } from 'three'
import { azimuthOf } from '../axes/axes.ts'
import type { StageSet } from './stage-set.ts'

/** A pointer that moved less than this between down and up was a tap. */
const TAP_PX = 5

export interface HandWishes {
  rig(): Rig
  rotorDeg(): number
  turnTo(rotorDeg: number): void
  letGo(): void
  tapped(path: string): void
  /** while the rotor is held, the camera stays */
  holdCamera(held: boolean): void
}

export function handIn(canvas: HTMLCanvasElement, camera: Camera, stage: StageSet, wishes: HandWishes): () => void {
  const caster = new Raycaster()
  const pointer = new Vector2()
  const level = new Plane()
  const met = new Vector3()
  let hold: { pointer: number; azimuthDeg: number; rotorDeg: number } | undefined
  let down: { x: number; y: number } | undefined

  const aim = (event: PointerEvent): void => {
    const box = canvas.getBoundingClientRect()
    pointer.set(((event.clientX - box.left) / box.width) * 2 - 1, 1 - ((event.clientY - box.top) / box.height) * 2)
    caster.setFromCamera(pointer, camera)
  }
  const pathHit = (): string | undefined => {
    const drawing = stage.machine
    const hit = drawing && caster.intersectObject(drawing.group, true)[0]
    for (let object: Object3D | null | undefined = hit?.object; object; object = object.parent) {
      const path = object.userData['path'] as string | undefined
      if (path !== undefined) return path
    }
    return undefined
  }
  /** Machine azimuth of the place where the pointer meets the rotor's plane. */
  const azimuthMet = (): number | undefined => {
    level.set(UP, -wishes.rig().rotor.hubHeight)
    return caster.ray.intersectPlane(level, met) ? azimuthOf(met) : undefined
  }

  const onDown = (event: PointerEvent): void => {
    aim(event)
    down = { x: event.clientX, y: event.clientY }
    const azimuthDeg = azimuthMet()
    if (azimuthDeg === undefined || pathHit() !== '/rotor') return
    hold = { pointer: event.pointerId, azimuthDeg, rotorDeg: wishes.rotorDeg() }
    wishes.holdCamera(true)
    canvas.setPointerCapture(event.pointerId)
  }
  const onMove = (event: PointerEvent): void => {
    if (hold?.pointer !== event.pointerId) return
    aim(event)
    const azimuthDeg = azimuthMet()
    if (azimuthDeg === undefined) return
    const sense = wishes.rig().rotor.rotation === 'clockwise' ? -1 : 1
    const turned = hold.rotorDeg + sense * (azimuthDeg - hold.azimuthDeg)
    wishes.turnTo(((Math.round(turned) % 360) + 360) % 360)
  }
  const onUp = (event: PointerEvent): void => {
    if (hold?.pointer === event.pointerId) {
      hold = undefined
      wishes.holdCamera(false)
      wishes.letGo()
      return
    }
    if (!down || Math.hypot(event.clientX - down.x, event.clientY - down.y) > TAP_PX) return
    aim(event)
    const path = pathHit()
    if (path !== undefined) wishes.tapped(path)
  }
  // Before the camera's own listeners, so that a held blade keeps them out.
  canvas.addEventListener('pointerdown', onDown, { capture: true })
  canvas.addEventListener('pointermove', onMove)
  canvas.addEventListener('pointerup', onUp)
  canvas.addEventListener('pointercancel', onUp)
  return () => {
    canvas.removeEventListener('pointerdown', onDown, { capture: true })
    canvas.removeEventListener('pointermove', onMove)
    canvas.removeEventListener('pointerup', onUp)
    canvas.removeEventListener('pointercancel', onUp)
  }
}

/** three's up is the mast (axes.ts). */
const UP = new Vector3(0, 1, 0)
