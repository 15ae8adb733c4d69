/**
 * What the machine stands on: mast, guide, and a round plate engraved with azimuths, so that nose, left, tail and right
 * can always be read off the picture.
 */
import type { Rig } from '@swashtrue/mixing'
import { CanvasTexture, CircleGeometry, CylinderGeometry, MeshBasicMaterial, SRGBColorSpace } from 'three'
import { azimuthDirection } from '../axes/axes.ts'
import type { Look } from './look.ts'
import { bar, body, part, Rod, weld } from './parts.ts'
import { SERVO_BELOW_MM, servoReach } from './servo.ts'
import { guideRails } from './swashplate.ts'

const MAST_MM = 4
const PLATE_THICK_MM = 5

/** The plate reaches past everything that stands on it. */
export const plateRadius = (rig: Rig): number => Math.max(78, servoReach(rig) + 22)

export class BenchDrawing {
  readonly group = body()
  readonly radiusMm: number
  readonly topMm: number

  constructor(rig: Rig, look: Look, dark: boolean) {
    const lowest = Math.min(...rig.servos.map(({ shaft }) => shaft[2]))
    this.topMm = lowest - SERVO_BELOW_MM - 4
    this.radiusMm = plateRadius(rig)
    const plate = part(
      new CylinderGeometry(this.radiusMm, this.radiusMm + 1.5, PLATE_THICK_MM, 96).rotateX(Math.PI / 2),
      look.plate,
    )
    plate.matrix.makeTranslation(0, 0, this.topMm - PLATE_THICK_MM / 2)
    this.group.add(plate, bar(look.metal, MAST_MM, this.topMm, rig.rotor.hubHeight + (rig.flybar ? 26 : 4)))
    this.group.add(bar(look.metal, 11, this.topMm, this.topMm + 4))
    for (const rail of guideRails(rig, look)) this.group.add(rail.mesh)
    const [gx, gy] = azimuthDirection(rig.swash.guide)
    const post = new Rod(this.group, look.metal, 1.6)
    const r = Math.hypot(...guideFoot(rig))
    post.place([gx * r, gy * r, this.topMm], [gx * r, gy * r, rig.swash.height - 20])
    for (const servo of rig.servos) {
      const [x, y] = azimuthDirection(servo.horn.azimuth)
      const out = Math.sign(y * servo.shaft[0] - x * servo.shaft[1]) || 1
      const leg = new Rod(this.group, look.plate, 3.2)
      const at = [servo.shaft[0] + y * out * 15, servo.shaft[1] - x * out * 15] as const
      leg.place([at[0], at[1], this.topMm], [at[0], at[1], servo.shaft[2] - 18])
    }
    weld(this.group)
    if (typeof document !== 'undefined') this.group.add(this.#engraving(dark))
  }

  /** A ring of azimuth marks every ten degrees, drawn once into a texture. */
  #engraving(dark: boolean) {
    const size = 1024
    const canvas = document.createElement('canvas')
    canvas.width = canvas.height = size
    const pen = canvas.getContext('2d') as CanvasRenderingContext2D
    const ink = dark ? 'rgba(233,228,212,0.8)' : 'rgba(38,44,46,0.82)'
    pen.translate(size / 2, size / 2)
    pen.strokeStyle = pen.fillStyle = ink
    const rim = size / 2 - 14
    // What stands on the plate shades it: softer and cheaper than a shadow that is worked out each frame.
    const shade = pen.createRadialGradient(0, 0, size * 0.03, 0, 0, size * 0.42)
    shade.addColorStop(0, dark ? 'rgba(0,0,0,0.55)' : 'rgba(20,24,26,0.4)')
    shade.addColorStop(1, 'rgba(0,0,0,0)')
    pen.fillStyle = shade
    pen.fillRect(-size / 2, -size / 2, size, size)
    pen.fillStyle = ink
    for (let deg = 0; deg < 360; deg += 5) {
      const major = deg % 30 === 0
      pen.lineWidth = major ? 3.5 : 1.8
      pen.save()
      // Seen from above with the nose up, azimuths run counter-clockwise; the canvas runs clockwise.
      pen.rotate((-deg * Math.PI) / 180)
      pen.beginPath()
      pen.moveTo(0, -rim)
      pen.lineTo(0, -rim + (major ? 24 : deg % 10 === 0 ? 15 : 8))
      pen.stroke()
      if (major) {
        pen.font = `${deg % 90 === 0 ? 700 : 500} ${deg % 90 === 0 ? 34 : 24}px "Archivo Variable", sans-serif`
        pen.textAlign = 'center'
        // Read from outside, by one who stands on that side.
        pen.save()
        pen.translate(0, -rim + 46)
        pen.rotate(Math.PI)
        pen.textBaseline = 'middle'
        pen.fillText(NAMED[deg] ?? `${deg}`, 0, 0)
        pen.restore()
      }
      pen.restore()
    }
    pen.lineWidth = 2
    pen.beginPath()
    pen.arc(0, 0, rim, 0, 2 * Math.PI)
    pen.stroke()
    const map = new CanvasTexture(canvas)
    map.colorSpace = SRGBColorSpace
    map.anisotropy = 8
    const disc = part(new CircleGeometry(this.radiusMm, 96), new MeshBasicMaterial({ map, transparent: true, depthWrite: false }))
    // The canvas has its nose up: its up is +x of the machine, its right is -y.
    disc.matrix.makeRotationZ(-Math.PI / 2).setPosition(0, 0, this.topMm + 0.15)
    return disc
  }
}

const NAMED: Record<number, string> = { 0: 'NOSE', 90: 'LEFT', 180: 'TAIL', 270: 'RIGHT' }

function guideFoot(rig: Rig): [number, number] {
  const [x, y] = azimuthDirection(rig.swash.guide)
  const r = Math.max(13, Math.min(...rig.servos.map(({ ball }) => ball.radius)) - 4) + 9
  return [x * r, y * r]
}
