/**
 * Where one looks from. Named as one would say it at the bench; directions in machine axes (from the machine to the
 * eye), turned into three's by axes/.
 */
import type { Rig } from '@swashtrue/mixing'
import { type PerspectiveCamera, Vector3 } from 'three'
import { toScene } from '../axes/axes.ts'
import type { BenchDrawing } from './bench.ts'
import { tailPlace } from './tail.ts'

export interface View3D {
  readonly id: string
  readonly name: string
  readonly from: readonly [number, number, number]
}

export const VIEWS: readonly View3D[] = [
  { id: 'quarter', name: 'Three-quarter', from: [-1, -0.72, 0.5] },
  { id: 'tail', name: 'From the tail', from: [-1, 0, 0.1] },
  { id: 'right', name: 'From the right', from: [0, -1, 0.1] },
  { id: 'nose', name: 'From the nose', from: [1, 0, 0.1] },
  { id: 'left', name: 'From the left', from: [0, 1, 0.1] },
  { id: 'top', name: 'From above', from: [-0.01, 0, 1] },
  { id: 'rudder', name: 'The tail', from: [-0.75, -1, 0.8] },
]

const eye = new Vector3()

/** Puts the camera where the whole of what is meant fits the frame, whatever its shape. Gives the point looked at. */
export function fit(camera: PerspectiveCamera, view: View3D, rig: Rig, bench: BenchDrawing, target: Vector3): void {
  let radius: number
  if (view.id === 'rudder' && rig.tail) {
    const place = tailPlace(rig)
    toScene(target, [place.forwardMm - rig.tail.lever.pivot[0], 0, place.heightMm])
    radius = 58
  } else {
    const top = rig.rotor.hubHeight + (rig.flybar ? 22 : 12)
    toScene(target, [0, 0, (bench.topMm + top) / 2])
    radius = Math.hypot(bench.radiusMm * 0.75, (top - bench.topMm) / 2)
  }
  const half = (camera.fov * Math.PI) / 360
  const narrow = Math.min(1, camera.aspect)
  const distance = radius / Math.sin(Math.atan(Math.tan(half) * narrow))
  toScene(eye, view.from).normalize().multiplyScalar(distance)
  camera.position.copy(target).add(eye)
  camera.up.set(0, 1, 0)
  camera.lookAt(target)
}
