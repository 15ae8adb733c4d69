/** The lever between a servo's horn and the ring: two limbs on one pivot, its pushrod and balls. */
import type { Lever } from '@swashtrue/mixing'
import type { Object3D } from 'three'
import { azimuthDirection, type MachinePoint } from '../axes/axes.ts'
import type { Look } from './look.ts'
import { armGeometry, Ball, bar, body, Link, part, placeArm, weld } from './parts.ts'

export interface LeverFigure {
  pivot: MachinePoint
  servoEnd: MachinePoint
  swashEnd: MachinePoint
}

export class LeverDrawing {
  readonly #limbs = [body(), body()] as const
  readonly #servoEnd: Ball
  readonly #swashEnd: Ball
  readonly #pushrod: Link
  readonly #axis: MachinePoint

  constructor(parent: Object3D, lever: Lever, path: string, look: Look, changed: (path: string) => boolean) {
    const [dx, dy] = azimuthDirection(lever.azimuth)
    this.#axis = [dy, -dx, 0]
    const leverLook = changed(`${path}/lever`) ? look.changed : look.bright
    this.#limbs[0].add(part(armGeometry(lever.servoEnd.length, 3.4, 2.2, 2), leverLook), bar(look.metal, 1.7, -4, 4))
    this.#limbs[1].add(part(armGeometry(lever.swashEnd.length, 3.4, 2.2, 2), leverLook))
    parent.add(...this.#limbs.map(weld))
    this.#servoEnd = new Ball(parent, look.ball, `${path}/lever/servoEnd`)
    this.#swashEnd = new Ball(parent, look.ball, `${path}/lever/swashEnd`)
    this.#pushrod = new Link(parent, changed(`${path}/pushrod`) ? look.changed : look.metal, look.plastic)
  }

  pose(hornBall: MachinePoint, lever: LeverFigure): void {
    placeArm(this.#limbs[0], lever.pivot, lever.servoEnd, this.#axis)
    placeArm(this.#limbs[1], lever.pivot, lever.swashEnd, this.#axis)
    this.#servoEnd.place(lever.servoEnd)
    this.#swashEnd.place(lever.swashEnd)
    this.#pushrod.place(hornBall, lever.servoEnd)
  }
}
