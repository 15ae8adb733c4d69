/** The flybar with its paddles, the washout base and arms that slide below it, and the mixing arms on its carrier. */
import type { Figure, Rig } from '@swashtrue/mixing'
import { BoxGeometry, type Mesh, TorusGeometry } from 'three'
import { frame, type MachinePoint } from '../axes/axes.ts'
import type { Look } from './look.ts'
import { armGeometry, Ball, bar, body, Link, part, placeArm, Rod, weld } from './parts.ts'

const PADDLE = { at: 112, span: 34, chord: 22, thick: 2.4 }
const SIDES = [0, 1] as const

export class FlybarDrawing {
  readonly group = body()
  readonly #paddles = body()
  readonly #carrier = body()
  readonly #base: Mesh
  readonly #posts: Rod[]
  readonly #arms: Rod[]
  readonly #armBalls: Ball[]
  readonly #washout: ArmPair
  readonly #mixing: ArmPair

  constructor(rig: Rig, look: Look, changed: (path: string) => boolean) {
    const flybar = rig.flybar as NonNullable<Rig['flybar']>
    const bar_ = new Rod(this.#paddles, look.bright, 1.3)
    bar_.place([-PADDLE.at - 4, 0, 0], [PADDLE.at + 4, 0, 0])
    for (const side of [1, -1]) {
      const paddle = part(new BoxGeometry(PADDLE.span, PADDLE.chord, PADDLE.thick), look.blade)
      paddle.matrix.makeTranslation(side * PADDLE.at, -side * 2, 0)
      this.#paddles.add(paddle)
      if (side === 1) {
        const stripe = part(new BoxGeometry(5, PADDLE.chord + 0.2, PADDLE.thick + 0.2), look.mark)
        stripe.matrix.makeTranslation(PADDLE.at + PADDLE.span / 2 - 5, -side * 2, 0)
        this.#paddles.add(stripe)
      }
    }
    // The seesaw that carries the flybar and, on a stalk below, the mixing arms' pivots.
    const seesaw = part(new BoxGeometry(17, 6.5, 6.5), look.metal)
    this.#carrier.add(seesaw)
    this.#base = part(new TorusGeometry(7.2, 2.2, 12, 32), changed('/flybar/washout') ? look.changed : look.metal)
    this.group.add(weld(this.#paddles), this.#carrier, this.#base)
    this.group.userData['path'] = '/flybar'
    this.#posts = [0, 1, 2, 3].map(() => new Rod(this.group, look.metal, 1.3))
    this.#arms = SIDES.map(() => new Rod(this.group, changed('/flybar/arm') ? look.changed : look.bright, 1.5))
    this.#armBalls = SIDES.map((k) => new Ball(this.group, look.ball, `/flybar/armBalls/${k}`, 2))
    this.#washout = new ArmPair(
      this.group,
      '/flybar/washout',
      ['flybarEnd', 'swashEnd'],
      [flybar.washout.flybarEnd.length, flybar.washout.swashEnd.length],
      look,
      changed,
      (k) => [`/flybar/washout/rods/${k}`, `/flybar/washout/links/${k}`],
    )
    this.#mixing = new ArmPair(
      this.group,
      '/flybar/mixing',
      ['bladeEnd', 'swashEnd'],
      [flybar.mixing.bladeEnd.length, flybar.mixing.swashEnd.length],
      look,
      changed,
      (k) => [undefined, `/flybar/mixing/rods/${k}`],
    )
  }

  pose(figure: Figure): void {
    const flybar = figure.flybar
    if (!flybar) return
    const { centre, axis, across, paddleRad } = flybar
    cross(carrierUp, axis, across)
    // `axis` x `across` points down on a clockwise rotor; the picture's up does not.
    if (carrierUp[2] < 0) for (let k = 0; k < 3; k++) carrierUp[k] = -(carrierUp[k] as number)
    frame(this.#carrier.matrix, centre, axis, across, carrierUp)
    const c = Math.cos(paddleRad)
    const s = Math.sin(paddleRad)
    for (let k = 0; k < 3; k++) {
      ahead[k] = c * (across[k] as number) + s * (carrierUp[k] as number)
      above[k] = c * (carrierUp[k] as number) - s * (across[k] as number)
    }
    frame(this.#paddles.matrix, centre, axis, ahead, above)
    this.#base.matrix.makeTranslation(0, 0, flybar.washoutBase[2])
    this.#carrier.matrixWorldNeedsUpdate = true
    this.#paddles.matrixWorldNeedsUpdate = true
    this.#base.matrixWorldNeedsUpdate = true
    for (const k of SIDES) {
      const washout = flybar.washout[k]
      const mixing = flybar.mixing[k]
      if (!washout || !mixing) continue
      this.#armBalls[k]?.place(flybar.armBalls[k])
      onAxis(foot, centre, axis, flybar.armBalls[k])
      this.#arms[k]?.place(foot, flybar.armBalls[k])
      this.#washout.pose(k, washout, flybar.armBalls[k])
      this.#mixing.pose(k, mixing, undefined)
      this.#posts[k]?.place(flybar.washoutBase, washout.pivot)
      onAxis(foot, centre, axis, mixing.pivot)
      this.#posts[k + 2]?.place(foot, mixing.pivot)
    }
  }
}

interface ArmFigure {
  pivot: MachinePoint
  swashEnd: MachinePoint
  ringBall: MachinePoint
  flybarEnd?: MachinePoint
  bladeEnd?: MachinePoint
}

/** Two arms on two pivots, with the rods that reach their ends. */
class ArmPair {
  readonly #sides

  constructor(
    parent: ReturnType<typeof body>,
    path: string,
    ends: readonly ['flybarEnd' | 'bladeEnd', 'swashEnd'],
    lengthsMm: readonly [number, number],
    look: Look,
    changed: (path: string) => boolean,
    rodPaths: (k: number) => readonly [string | undefined, string],
  ) {
    this.#sides = SIDES.map((k) => {
      const limbs = lengthsMm.map((lengthMm, n) => {
        const limb = body()
        const own = changed(`${path}/${ends[n]}`) || changed(`${path}/pivot`) ? look.changed : look.bright
        limb.add(part(armGeometry(lengthMm, 2.6, 1.8, 1.6), own))
        if (n === 0) limb.add(bar(look.metal, 1.3, -3, 3))
        parent.add(weld(limb))
        return limb
      })
      const [farPath, nearPath] = rodPaths(k)
      return {
        limbs,
        far: new Ball(parent, look.ball, `${path}/${k}/${ends[0]}`, 2),
        near: new Ball(parent, look.ball, `${path}/${k}/${ends[1]}`, 2),
        farRod: farPath === undefined ? undefined : new Link(parent, changed(farPath) ? look.changed : look.metal, look.plastic),
        nearRod: new Link(parent, changed(nearPath) ? look.changed : look.metal, look.plastic),
      }
    })
  }

  pose(k: 0 | 1, arm: ArmFigure, farTo: MachinePoint | undefined): void {
    const side = this.#sides[k]
    const far = (arm.flybarEnd ?? arm.bladeEnd) as MachinePoint
    if (!side) return
    // Both ends and the pivot lie in the arm's plane; where they lie in one line, that plane is taken upright.
    normalOf(axisOf, arm.pivot, far, arm.swashEnd)
    placeArm(side.limbs[0] as ReturnType<typeof body>, arm.pivot, far, axisOf)
    placeArm(side.limbs[1] as ReturnType<typeof body>, arm.pivot, arm.swashEnd, axisOf)
    side.far.place(far)
    side.near.place(arm.swashEnd)
    if (farTo) side.farRod?.place(far, farTo)
    side.nearRod.place(arm.swashEnd, arm.ringBall)
  }
}

type Mutable = [number, number, number]
const carrierUp: Mutable = [0, 0, 1]
const ahead: Mutable = [0, 0, 0]
const above: Mutable = [0, 0, 0]
const foot: Mutable = [0, 0, 0]
const axisOf: Mutable = [0, 0, 0]

function cross(out: Mutable, a: MachinePoint, b: MachinePoint): void {
  out[0] = a[1] * b[2] - a[2] * b[1]
  out[1] = a[2] * b[0] - a[0] * b[2]
  out[2] = a[0] * b[1] - a[1] * b[0]
}

/** The foot of `point` on the line through `origin` along the unit `axis`. */
function onAxis(out: Mutable, origin: MachinePoint, axis: MachinePoint, point: MachinePoint): void {
  let along = 0
  for (let k = 0; k < 3; k++) along += ((point[k] as number) - (origin[k] as number)) * (axis[k] as number)
  for (let k = 0; k < 3; k++) out[k] = (origin[k] as number) + along * (axis[k] as number)
}

function normalOf(out: Mutable, pivot: MachinePoint, a: MachinePoint, b: MachinePoint): void {
  for (let k = 0; k < 3; k++) {
    ahead[k] = (a[k] as number) - (pivot[k] as number)
    above[k] = (b[k] as number) - (pivot[k] as number)
  }
  cross(out, ahead, above)
  let length = Math.hypot(out[0], out[1], out[2])
  if (length < 1e-3) {
    cross(out, ahead, Math.hypot(ahead[0], ahead[1]) > 1e-3 ? UP : FORWARD)
    length = Math.hypot(out[0], out[1], out[2])
  }
  for (let k = 0; k < 3; k++) out[k] = (out[k] as number) / length
}

const UP: MachinePoint = [0, 0, 1]
const FORWARD: MachinePoint = [1, 0, 0]
