/**
 * What turns with the mast above the swashplate: hub, driver's fork, grips, short blades with their pitch arms, and
 * the links that reach each arm from below. The blades are cut short: only their pitch matters here.
 */
import type { Figure, Rig } from '@swashtrue/mixing'
import { CylinderGeometry, ExtrudeGeometry, Matrix4, Shape } from 'three'
import { azimuthDirection, frame, frameOf, type MachinePoint } from '../axes/axes.ts'
import type { Look } from './look.ts'
import { Ball, bar, body, Link, part, Rod, weld } from './parts.ts'

const GRIP = { from: 7, to: 30, radius: 4.6 }
const BLADE = { from: 25, to: 128, chord: 30, thick: 0.13 }
const UP: MachinePoint = [0, 0, 1]

/** A symmetrical section, leading edge toward +y, its feathering axis a third of the chord behind the leading edge. */
function bladeGeometry(): ExtrudeGeometry {
  const shape = new Shape()
  const { chord, thick } = BLADE
  const lead = chord / 3
  const half = (s: number): number =>
    thick * chord * (1.4845 * Math.sqrt(s) - 0.63 * s - 1.758 * s * s + 1.4215 * s ** 3 - 0.5075 * s ** 4)
  const stations = Array.from({ length: 15 }, (_, k) => (k / 14) ** 1.6)
  stations.forEach((s, k) => {
    if (k === 0) shape.moveTo(lead, 0)
    else shape.lineTo(lead - s * chord, half(s))
  })
  for (const s of stations.toReversed().slice(1)) shape.lineTo(lead - s * chord, -half(s))
  // Drawn in (y, z) of the blade and drawn out along x.
  return new ExtrudeGeometry(shape, { depth: BLADE.to - BLADE.from, bevelEnabled: false })
}

/** (y, z, x) to (x, y, z), moved out to the blade's root. */
const ALONG_BLADE = new Matrix4().set(0, 0, 1, BLADE.from, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1)

class BladeDrawing {
  readonly #blade = body()
  readonly #arm: Rod
  readonly #armBall: Ball
  readonly #link: Link

  constructor(parent: ReturnType<typeof body>, rig: Rig, k: number, look: Look, changed: (path: string) => boolean) {
    const blade = part(bladeGeometry(), look.blade)
    blade.matrix.copy(ALONG_BLADE)
    const grip = part(new CylinderGeometry(GRIP.radius, GRIP.radius, GRIP.to - GRIP.from, 20).rotateZ(Math.PI / 2), look.dark)
    grip.matrix.makeTranslation((GRIP.from + GRIP.to) / 2, 0, 0)
    const { station, lead, height } = rig.rotor.pitchArm
    this.#arm = new Rod(this.#blade, changed('/rotor/pitchArm') ? look.changed : look.dark, 2)
    this.#arm.place([Math.max(station, GRIP.from + 2), 0, 0], [station, lead, height])
    this.#blade.add(blade, grip)
    if (k === 0) {
      const stripe = part(new CylinderGeometry(1, 1, 1, 4), look.mark)
      stripe.geometry = bladeGeometry().scale(1.012, 1.06, 0.055)
      stripe.matrix.copy(ALONG_BLADE).setPosition(BLADE.to - 14, 0, 0)
      this.#blade.add(stripe)
    }
    this.#blade.userData['path'] = '/rotor'
    parent.add(weld(this.#blade))
    this.#armBall = new Ball(parent, look.ball, `/blades/${k}/armBall`)
    this.#link = new Link(parent, changed(`/rotor/links/${k}`) ? look.changed : look.metal, look.plastic)
  }

  pose(blade: NonNullable<Figure['blades']>[number]): void {
    const { root, direction, leading, pitchRad } = blade
    const c = Math.cos(pitchRad)
    const s = Math.sin(pitchRad)
    for (let k = 0; k < 3; k++) {
      chordwise[k] = c * (leading[k] as number) + s * (UP[k] as number)
      upward[k] = c * (UP[k] as number) - s * (leading[k] as number)
    }
    frame(this.#blade.matrix, root, direction, chordwise, upward)
    this.#blade.matrixWorldNeedsUpdate = true
    this.#armBall.place(blade.armBall)
    this.#link.place(blade.lowerEye, blade.armBall)
  }
}

const chordwise: [number, number, number] = [0, 0, 0]
const upward: [number, number, number] = [0, 0, 0]

export class RotorDrawing {
  readonly group = body()
  readonly #hub = body()
  readonly #blades: BladeDrawing[]

  constructor(rig: Rig, look: Look, changed: (path: string) => boolean) {
    const { hubHeight, blades, driver } = rig.rotor
    const hub = part(new CylinderGeometry(8, 8, 13, 28).rotateX(Math.PI / 2), look.metal)
    hub.matrix.makeTranslation(0, 0, hubHeight)
    this.#hub.add(hub, bar(look.metal, 5.5, hubHeight - 17, hubHeight - 6))
    const [fx, fy] = azimuthDirection(driver)
    for (const aside of [-2.3, 2.3]) {
      const leg = new Rod(this.#hub, look.metal, 1)
      const x = (r: number): number => fx * r - fy * aside
      const y = (r: number): number => fy * r + fx * aside
      leg.place([x(15), y(15), rig.swash.height - 8], [x(15), y(15), Math.max(rig.swash.height + 22, hubHeight - 22)])
      const foot = new Rod(this.#hub, look.metal, 1)
      foot.place([x(15), y(15), Math.max(rig.swash.height + 22, hubHeight - 22)], [x(5), y(5), hubHeight - 13])
    }
    if (!look.ghost) this.group.add(weld(this.#hub))
    this.#blades = Array.from({ length: blades }, (_, k) => new BladeDrawing(this.group, rig, k, look, changed))
  }

  pose(figure: Figure): void {
    const first = figure.blades?.[0]
    if (!first) return
    // The hub turns with blade 1; a plain turn about the mast, so its axes follow from blade 1's direction.
    // Its own y is the way blade 1 goes, so that an azimuth ahead of blade 1 is one whichever way the rotor turns.
    turn[0] = first.direction[0]
    turn[1] = first.leading[0]
    turn[3] = first.direction[1]
    turn[4] = first.leading[1]
    frameOf(this.#hub.matrix, ORIGIN, turn)
    this.#hub.matrixWorldNeedsUpdate = true
    this.#blades.forEach((blade, k) => {
      const posed = figure.blades?.[k]
      if (posed) blade.pose(posed)
    })
  }
}

const ORIGIN: MachinePoint = [0, 0, 0]
const turn = [1, 0, 0, 0, 1, 0, 0, 0, 1]
