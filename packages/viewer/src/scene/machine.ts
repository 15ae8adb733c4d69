/**
 * The whole machine in three's scene, made from its document alone. `pose` writes a figure into it and computes none.
 * Children are placed in machine axes; the one rotation into three's axes is this group's own matrix.
 */
import type { Figure, Rig } from '@swashtrue/mixing'
import { type BufferGeometry, type Group, Mesh } from 'three'
import { sceneFromMachine } from '../axes/axes.ts'
import { BenchDrawing } from './bench.ts'
import { FlybarDrawing } from './flybar.ts'
import type { Look } from './look.ts'
import { body } from './parts.ts'
import { RotorDrawing } from './rotor.ts'
import { ServoDrawing } from './servo.ts'
import { SwashplateDrawing } from './swashplate.ts'
import { TailDrawing } from './tail.ts'

interface Stage {
  readonly group: Group
  pose(figure: Figure): void
}

export class MachineDrawing {
  readonly group = body()
  readonly bench: BenchDrawing | undefined
  readonly #stages: Stage[]

  /** `changedPaths`: what is not as recorded, so that those parts can be shown as such. */
  constructor(rig: Rig, look: Look, changedPaths: readonly string[] = [], dark = false) {
    const changed = (path: string): boolean => changedPaths.some((own) => own === path || own.startsWith(`${path}/`))
    this.#stages = [
      ...rig.servos.map((_, i) => new ServoDrawing(rig, i, look, changed)),
      new SwashplateDrawing(rig, look, changed),
      new RotorDrawing(rig, look, changed),
      ...(rig.flybar ? [new FlybarDrawing(rig, look, changed)] : []),
      ...(rig.tail ? [new TailDrawing(rig, look, changed)] : []),
    ]
    if (!look.ghost) {
      this.bench = new BenchDrawing(rig, look, dark)
      this.group.add(this.bench.group)
    }
    this.group.matrix.copy(sceneFromMachine())
    this.group.add(...this.#stages.map((stage) => stage.group))
  }

  pose(figure: Figure): void {
    for (const stage of this.#stages) stage.pose(figure)
  }

  dispose(): void {
    const shapes = new Set<BufferGeometry>()
    this.group.traverse((object) => {
      if (object instanceof Mesh) shapes.add(object.geometry as BufferGeometry)
    })
    for (const shape of shapes) shape.dispose()
  }
}

/** What of a document decides the shapes: where it is unchanged, a new rig needs a new pose and no new drawing. */
export function shapeKey(rig: Rig, changedPaths: readonly string[]): string {
  const { servos, swash, rotor, flybar, tail, holeStep } = rig
  return JSON.stringify([
    servos.map(({ shaft, horn, ball, lever }) => [shaft, horn.length, horn.azimuth, ball, lever]),
    swash,
    rotor.blades,
    rotor.hubHeight,
    rotor.driver,
    rotor.rotation,
    rotor.ring,
    rotor.pitchArm,
    flybar,
    tail,
    holeStep,
    changedPaths,
  ])
}
