/**
 * Both halves of the swashplate on their bearing, with the guide that holds the still one's yaw. The rings' widths
 * are the picture's own; where their balls stand is the document's.
 */
import type { Figure, Rig } from '@swashtrue/mixing'
import { type Material, LatheGeometry, type Mesh, SphereGeometry, Vector2 } from 'three'
import { azimuthDirection, frameOf, type MachinePoint } from '../axes/axes.ts'
import type { Look } from './look.ts'
import { Ball, body, part, Rod, weld } from './parts.ts'

const BEARING_MM = 7.5
/** How far the guide's and the driver's pins stand out of their rings, and the rails reach up and down from level. */
const PIN_MM = 12
const RAIL_MM = 20

/** A ring about z: inner and outer radius, from one height to another, its edges eased. */
function ring(inner: number, outer: number, low: number, high: number, material: Material): Mesh {
  const e = 0.7
  const outline = [
    [inner, low + e],
    [inner + e, low],
    [outer - e, low],
    [outer, low + e],
    [outer, high - e],
    [outer - e, high],
    [inner + e, high],
    [inner, high - e],
    [inner, low + e],
  ].map(([r, z]) => new Vector2(r, z))
  return part(new LatheGeometry(outline, 56).rotateX(Math.PI / 2), material)
}

export class SwashplateDrawing {
  readonly group = body()
  readonly #still = body()
  readonly #turning = body()
  readonly #bearing: Mesh
  readonly #stillSpokes: Rod[]
  readonly #turningSpokes: Rod[]
  readonly #balls: Ball[]

  constructor(rig: Rig, look: Look, changed: (path: string) => boolean) {
    const outer = stillRadius(rig)
    this.#still.add(ring(outer - 4.5, outer, -3.2, 1.4, look.bright))
    this.#stillSpokes = rig.servos.map(
      (_, i) => new Rod(this.group, changed(`/servos/${i}/ball`) ? look.changed : look.bright, 1.8),
    )
    const pin = new Rod(this.#still, look.bright, 1.2)
    const [gx, gy] = azimuthDirection(rig.swash.guide)
    pin.place([gx * (outer - 2), gy * (outer - 2), 0], [gx * (outer + PIN_MM), gy * (outer + PIN_MM), 0])

    const turning = turningRadius(rig)
    this.#turning.add(ring(BEARING_MM - 0.6, turning, 2, 6.4, look.dark))
    const driver = new Rod(this.#turning, look.dark, 1.2)
    const [tx, ty] = azimuthDirection(rig.rotor.driver)
    driver.place([tx * (turning - 2), ty * (turning - 2), 4], [tx * (turning + PIN_MM / 2), ty * (turning + PIN_MM / 2), 4])

    this.#bearing = part(new SphereGeometry(BEARING_MM, 28, 18), look.metal)
    this.group.add(weld(this.#still), weld(this.#turning), this.#bearing)
    const count = rig.flybar ? 4 : rig.rotor.blades
    const turningLook = changed('/rotor/ring') ? look.changed : look.dark
    this.#turningSpokes = Array.from({ length: count }, () => new Rod(this.group, turningLook, 1.6))
    this.#balls = Array.from({ length: count }, (_, k) => new Ball(this.group, look.ball, `/swash/rotatingBalls/${k}`))
  }

  pose(figure: Figure): void {
    const swash = figure.swash
    if (!swash) return
    frameOf(this.#still.matrix, swash.centre, swash.stationary)
    frameOf(this.#turning.matrix, swash.centre, swash.rotating)
    this.#bearing.matrix.makeTranslation(swash.centre[0], swash.centre[1], swash.centre[2])
    this.#still.matrixWorldNeedsUpdate = true
    this.#turning.matrixWorldNeedsUpdate = true
    this.#bearing.matrixWorldNeedsUpdate = true
    this.#stillSpokes.forEach((spoke, i) => {
      const to = figure.servos[i]?.ringBall
      if (to) this.#spoke(spoke, swash.centre, swash.normal, -0.9, to)
    })
    this.#balls.forEach((ball, k) => {
      const at = swash.rotatingBalls[k]
      if (!at) return
      ball.place(at)
      this.#spoke(this.#turningSpokes[k] as Rod, swash.centre, swash.normal, 4.2, at)
    })
  }

  /** From inside the ring, `high` along its normal from its centre, to a ball. */
  #spoke(spoke: Rod, centre: MachinePoint, normal: MachinePoint, high: number, to: MachinePoint): void {
    for (let k = 0; k < 3; k++) hub[k] = (centre[k] as number) + high * (normal[k] as number)
    // Starts well clear of the mast: the ring itself hides the inner end.
    for (let k = 0; k < 3; k++) hub[k] = (hub[k] as number) * 0.5 + (to[k] as number) * 0.5
    spoke.place(hub, to)
  }
}

const hub: [number, number, number] = [0, 0, 0]

/** The still ring lies inside the nearest of its balls; the turning one inside that. */
const stillRadius = (rig: Rig): number => Math.max(13, Math.min(...rig.servos.map(({ ball }) => ball.radius)) - 4)

function turningRadius(rig: Rig): number {
  const { flybar, rotor } = rig
  const reach = flybar ? [flybar.washout.ring.radius, flybar.mixing.ring.radius] : [rotor.ring?.radius ?? 20]
  return Math.max(BEARING_MM + 3, Math.min(stillRadius(rig) - 2, ...reach.map((radius) => radius - 3)))
}

/** The guide: two rails in whose slot the still ring's pin slides up and down. */
export function guideRails(rig: Rig, look: Look): Rod[] {
  const holder = body()
  const [x, y] = azimuthDirection(rig.swash.guide)
  const r = stillRadius(rig) + PIN_MM - 3
  return [-2.4, 2.4].map((aside) => {
    const rail = new Rod(holder, look.metal, 1.1)
    const at = [x * r - y * aside, y * r + x * aside] as const
    rail.place([at[0], at[1], rig.swash.height - RAIL_MM], [at[0], at[1], rig.swash.height + RAIL_MM])
    return rail
  })
}
