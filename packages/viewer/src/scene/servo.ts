/**
 * A servo with its horn, link and balls; the lever where there is one is lever.ts. The body's size and its side of
 * the shaft are the picture's own: the document fixes the shaft, the horn and the ball.
 */
import type { Figure, Rig } from '@swashtrue/mixing'
import { BoxGeometry, type Group, type Material, Vector3 } from 'three'
import { azimuthDirection, frame, type MachinePoint } from '../axes/axes.ts'
import { LeverDrawing } from './lever.ts'
import type { Look } from './look.ts'
import { armGeometry, Ball, bar, body, Link, part, placeArm, Rod, weld } from './parts.ts'

const BODY = { deep: 21, wide: 11, above: 7, below: 19 }
/** The horn's plate stands this far behind its ball, as a ball stands off its horn on a stud. */
const STUD_MM = 3.2

export class ServoDrawing {
  readonly group = body()
  readonly #i: number
  readonly #horn = body()
  readonly #hornBall: Ball
  readonly #ringBall: Ball
  readonly #link: Link
  readonly #lever: LeverDrawing | undefined
  readonly #axis: MachinePoint

  constructor(rig: Rig, i: number, look: Look, changed: (path: string) => boolean) {
    this.#i = i
    const servo = rig.servos[i as 0]
    const path = `/servos/${i}`
    const hornLook = changed(`${path}/horn`) ? look.changed : look.bright
    const linkLook = changed(`${path}/link`) ? look.changed : look.metal

    // The shaft lies square to the horn's plane; of its two ends the body takes the one that points away from the mast.
    const [dx, dy] = azimuthDirection(servo.horn.azimuth)
    const outward = Math.sign(dy * servo.shaft[0] - dx * servo.shaft[1]) || 1
    const away: MachinePoint = [dy * outward, -dx * outward, 0]
    this.#axis = away
    if (!look.ghost) this.group.add(servoBody(servo.shaft, away, changed(`${path}/output`) ? look.changed : look.dark, look))

    const holes: number[] = []
    for (let at = servo.horn.length % rig.holeStep; at < servo.horn.length - 1; at += rig.holeStep) if (at > 4.4) holes.push(at)
    const arm = part(armGeometry(servo.horn.length, 4, 2.5, 1.5, holes), hornLook)
    arm.matrix.makeTranslation(0, 0, STUD_MM)
    const stud = bar(look.ball, 1, 0, STUD_MM)
    stud.matrix.setPosition(servo.horn.length, 0, STUD_MM / 2)
    this.#horn.add(arm, stud, bar(look.plastic, 1.9, STUD_MM - 1.4, STUD_MM + 4))
    this.group.userData['path'] = path
    this.group.add(weld(this.#horn))

    this.#hornBall = new Ball(this.group, look.ball, `${path}/hornBall`)
    this.#ringBall = new Ball(this.group, look.ball, `${path}/ringBall`)
    this.#link = new Link(this.group, linkLook, look.plastic)
    if (servo.lever) this.#lever = new LeverDrawing(this.group, servo.lever, path, look, changed)
  }

  pose(figure: Figure): void {
    const servo = figure.servos[this.#i]
    if (!servo?.ringBall) return
    placeArm(this.#horn, servo.shaft, servo.hornBall, this.#axis)
    this.#hornBall.place(servo.hornBall)
    this.#ringBall.place(servo.ringBall)
    if (this.#lever && servo.lever) {
      this.#lever.pose(servo.hornBall, servo.lever)
      this.#link.place(servo.lever.swashEnd, servo.ringBall)
    } else {
      this.#link.place(servo.hornBall, servo.ringBall)
    }
  }
}

function servoBody(shaft: MachinePoint, away: MachinePoint, caseLook: Material, look: Look): Group {
  const group = body()
  const across: MachinePoint = [-away[1], away[0], 0]
  frame(group.matrix, shaft, away, across, [0, 0, 1])
  const { deep, wide, above, below } = BODY
  const from = STUD_MM + 2.5
  const box = (lx: number, ly: number, lz: number, x: number, z: number, material: Material): void => {
    const mesh = part(new BoxGeometry(lx, ly, lz), material)
    mesh.matrix.makeTranslation(x, 0, z)
    group.add(mesh)
  }
  box(deep, wide, above + below, from + deep / 2, (above - below) / 2, caseLook)
  box(2, wide, above + below + 9, from + 6, (above - below) / 2, caseLook)
  box(2.2, wide + 0.6, above + below + 0.6, from + deep * 0.72, (above - below) / 2, look.metal)
  const boss = new Rod(group, caseLook, 4)
  boss.place([STUD_MM + 1, 0, 0], [from + 1, 0, 0])
  return weld(group)
}

/** How far below its shaft a servo reaches: the bench plate lies under the lowest. */
export const SERVO_BELOW_MM = BODY.below + 4.5

export const servoReach = (rig: Rig): number =>
  Math.max(...rig.servos.map(({ shaft }) => new Vector3(...shaft).setZ(0).length())) + BODY.deep
