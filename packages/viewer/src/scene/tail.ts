/**
 * The tail in its own axes [u, v, w]: servo and horn, the rod along the boom, lever, slider between its stops, and one
 * grip with its pitch arm. axes/ says where on the machine these axes are put.
 */
import type { Figure, Rig } from '@swashtrue/mixing'
import { BoxGeometry, CylinderGeometry, type Mesh } from 'three'
import { frame, type MachinePoint, tailMatrix } from '../axes/axes.ts'
import { plateRadius } from './bench.ts'
import type { Look } from './look.ts'
import { armGeometry, Ball, bar, body, Link, part, placeArm, Rod, weld } from './parts.ts'

/** The tail servo stands this far behind the plate that the machine stands on; the rest follows from the document. */
const SERVO_BEHIND_PLATE_MM = 34
const BOOM_BELOW_MM = 16

type TailFigure = NonNullable<Figure['tail']>

export interface TailPlace {
  forwardMm: number
  heightMm: number
}

/** Where the tail's axes sit: its servo just behind the fuselage, its lever wherever the rod then ends. */
export function tailPlace(rig: Rig): TailPlace {
  const tail = rig.tail as NonNullable<Rig['tail']>
  return {
    forwardMm: -plateRadius(rig) - SERVO_BEHIND_PLATE_MM + Math.min(tail.servo.shaft[0], tail.lever.pivot[0]),
    heightMm: 18,
  }
}

export class TailDrawing {
  readonly group = body()
  readonly #horn = body()
  readonly #limbs = [body(), body()] as const
  readonly #hornBall: Ball
  readonly #leverServoEnd: Ball
  readonly #leverSliderEnd: Ball
  readonly #rod: Link
  readonly #slider: Mesh
  readonly #blades = body()
  readonly #rig: NonNullable<Rig['tail']>
  readonly #hub: MachinePoint

  constructor(rig: Rig, look: Look, changed: (path: string) => boolean) {
    const tail = rig.tail as NonNullable<Rig['tail']>
    this.#rig = tail
    const place = tailPlace(rig)
    tailMatrix(this.group.matrix, place.forwardMm, place.heightMm)
    const { lever, servo } = tail
    const own = (path: string) => (changed(path) ? look.changed : look.bright)

    this.#horn.add(part(armGeometry(servo.horn.length, 3.6, 2.2, 1.5), own('/tail/servo/horn')))
    this.#limbs[0].add(part(armGeometry(lever.servoEnd.length, 3, 2, 1.8), own('/tail/lever')), bar(look.metal, 1.5, -4, 4))
    this.#limbs[1].add(part(armGeometry(lever.sliderEnd.length, 3, 2, 1.8), own('/tail/lever')))
    this.#hornBall = new Ball(this.group, look.ball, '/tail/hornBall', 2)
    this.#leverServoEnd = new Ball(this.group, look.ball, '/tail/leverServoEnd', 2)
    this.#leverSliderEnd = new Ball(this.group, look.ball, '/tail/leverSliderEnd', 2)
    this.#rod = new Link(this.group, changed('/tail/rod') ? look.changed : look.metal, look.plastic)

    // The slider rides the tail shaft, which stands across the boom level with the lever's slider end.
    const shaftU = lever.pivot[0] + lever.sliderEnd.length * Math.cos((lever.sliderEnd.angle * Math.PI) / 180)
    const sliderV = lever.pivot[1] + lever.sliderEnd.length * Math.sin((lever.sliderEnd.angle * Math.PI) / 180)
    this.#hub = [shaftU, sliderV, lever.pivot[2]]
    this.#slider = part(new CylinderGeometry(5, 5, 5, 24), look.dark)
    this.group.add(this.#horn, ...this.#limbs.map(weld), this.#slider, this.#blades)
    if (!look.ghost) this.#still(rig, look, shaftU, sliderV)
    this.#tailBlades(look)
    this.group.userData['path'] = '/tail'
  }

  #still(rig: Rig, look: Look, shaftU: number, sliderV: number): void {
    const { lever, servo, slider } = rig.tail as NonNullable<Rig['tail']>
    const w = lever.pivot[2]
    const still = body()
    const boom = new Rod(still, look.plate, 6)
    const nose = Math.min(servo.shaft[0], lever.pivot[0]) - 20
    boom.place(
      [nose, Math.min(-14, lever.pivot[1] - 14), w - BOOM_BELOW_MM],
      [shaftU + 6, Math.min(-14, lever.pivot[1] - 14), w - BOOM_BELOW_MM],
    )
    const shaft = new Rod(still, look.metal, 2)
    shaft.place([shaftU, Math.min(-18, sliderV - 16), w], [shaftU, sliderV + 26, w])
    const gear = part(new BoxGeometry(16, 12, 16), look.plate)
    gear.matrix.makeTranslation(shaftU, Math.min(-18, sliderV - 16), w - 4)
    const bodyBox = part(new BoxGeometry(24, 11, 20), look.dark)
    bodyBox.matrix.makeTranslation(servo.shaft[0] + 6, servo.shaft[1], servo.shaft[2] - 14)
    still.add(gear, bodyBox)
    for (const stop of slider.stops ?? []) {
      const collar = part(new CylinderGeometry(3.6, 3.6, 1, 24), look.mark)
      collar.matrix.makeTranslation(shaftU, sliderV + stop + Math.sign(stop) * 3, w)
      still.add(collar)
    }
    this.group.add(weld(still))
  }

  #tailBlades(look: Look): void {
    for (const side of [1, -1]) {
      const blade = part(new BoxGeometry(13, 1.6, 46), look.blade)
      blade.matrix.makeTranslation(0, 0, side * 36)
      const grip = part(new CylinderGeometry(2.6, 2.6, 14, 16).rotateX(Math.PI / 2), look.dark)
      grip.matrix.makeTranslation(0, 0, side * 10)
      const holder = body()
      holder.userData['side'] = side
      holder.add(blade, grip)
      this.#blades.add(weld(holder))
    }
  }

  pose(figure: Figure): void {
    const tail = figure.tail
    if (!tail) return
    // The horn turns in the plane of u and the direction at `roll`; its axis is square to both.
    const roll = (this.#rig.servo.horn.roll * Math.PI) / 180
    hornAxis[0] = 0
    hornAxis[1] = -Math.sin(roll)
    hornAxis[2] = Math.cos(roll)
    placeArm(this.#horn, tail.shaft, tail.hornBall, hornAxis)
    this.#hornBall.place(tail.hornBall)
    if (!tail.leverServoEnd || !tail.leverSliderEnd) return
    placeArm(this.#limbs[0], tail.leverPivot, tail.leverServoEnd, W)
    placeArm(this.#limbs[1], tail.leverPivot, tail.leverSliderEnd, W)
    this.#leverServoEnd.place(tail.leverServoEnd)
    this.#leverSliderEnd.place(tail.leverSliderEnd)
    this.#rod.place(tail.hornBall, tail.leverServoEnd)
    this.#poseRotor(tail)
  }

  #poseRotor(tail: TailFigure): void {
    const [u, v, w] = this.#hub
    this.#slider.matrix.makeTranslation(u, v + (tail.slider ?? 0), w)
    this.#slider.matrixWorldNeedsUpdate = true
    frame(this.#blades.matrix, [u, v + 14, w], U, V, W)
    this.#blades.matrixWorldNeedsUpdate = true
    for (const holder of this.#blades.children) {
      holder.matrix.makeRotationZ((holder.userData['side'] as number) * (tail.pitchRad ?? 0))
      holder.matrixWorldNeedsUpdate = true
    }
  }
}

const U: MachinePoint = [1, 0, 0]
const V: MachinePoint = [0, 1, 0]
const W: MachinePoint = [0, 0, 1]
const hornAxis: [number, number, number] = [0, 0, 1]
