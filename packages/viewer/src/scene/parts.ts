/**
 * The few shapes that every stage is drawn from. Geometries are shared and of unit size; a part is placed by writing
 * to its matrix, so that a pose allocates nothing. Millimetres, machine axes (axes.ts).
 */
import {
  type BufferGeometry,
  CylinderGeometry,
  ExtrudeGeometry,
  Group,
  type Material,
  type Matrix4,
  Mesh,
  type Object3D,
  Path,
  Shape,
  SphereGeometry,
  TorusGeometry,
  Vector3,
} from 'three'
import { mergeGeometries } from 'three/examples/jsm/utils/BufferGeometryUtils.js'
import type { MachinePoint } from '../axes/axes.ts'

const SPHERE = new SphereGeometry(1, 20, 14)
/** Along z from 0 to 1, radius 1: a rod is its length in z and its thickness in x and y. */
const ROD = new CylinderGeometry(1, 1, 1, 14).rotateX(Math.PI / 2).translate(0, 0, 0.5)
const EYE = new TorusGeometry(1, 0.36, 10, 22)

const BALL_MM = 2.4
const LINK_MM = 1.15

const along = new Vector3()
const side = new Vector3()
const up = new Vector3()
const start = new Vector3()

export function part(geometry: BufferGeometry, material: Material): Mesh {
  const mesh = new Mesh(geometry, material)
  mesh.matrixAutoUpdate = false
  return mesh
}

export function body(): Group {
  const group = new Group()
  group.matrixAutoUpdate = false
  return group
}

/** Writes into `object` a frame at `from` whose z points to `to`, scaled (thick, thick, length). */
export function placeBetween(object: Object3D, from: MachinePoint, to: MachinePoint, thick: number): void {
  start.set(from[0], from[1], from[2])
  along.set(to[0] - from[0], to[1] - from[1], to[2] - from[2])
  const length = along.length() || 1e-9
  along.divideScalar(length)
  // Any side will do for a round rod; the axis least along it keeps the cross product long.
  side
    .set(Math.abs(along.x) < 0.7 ? 1 : 0, Math.abs(along.x) < 0.7 ? 0 : 1, 0)
    .cross(along)
    .normalize()
  up.crossVectors(along, side)
  object.matrix.makeBasis(side.multiplyScalar(thick), up.multiplyScalar(thick), along.multiplyScalar(length))
  object.matrix.setPosition(start)
  object.matrixWorldNeedsUpdate = true
}

/** A straight round rod between two points that are given at each pose. */
export class Rod {
  readonly mesh: Mesh
  readonly #thick: number
  constructor(parent: Object3D, material: Material, thickMm: number) {
    this.mesh = part(ROD, material)
    this.#thick = thickMm
    parent.add(this.mesh)
  }
  place(from: MachinePoint, to: MachinePoint): void {
    placeBetween(this.mesh, from, to, this.#thick)
  }
}

/** A ball, named after the figure's own place for it, so that a test can lay the drawn beside the computed. */
export class Ball {
  readonly mesh: Mesh
  constructor(parent: Object3D, material: Material, name: string, radiusMm = BALL_MM) {
    this.mesh = part(SPHERE, material)
    this.mesh.matrix.makeScale(radiusMm, radiusMm, radiusMm)
    this.mesh.userData['ball'] = name
    parent.add(this.mesh)
  }
  place(at: MachinePoint): void {
    this.mesh.matrix.setPosition(at[0], at[1], at[2])
    this.mesh.matrixWorldNeedsUpdate = true
  }
}

/** A link: a thin rod with a socket about the ball at either end. */
export class Link {
  readonly #rod: Rod
  readonly #eyes: [Mesh, Mesh]
  constructor(parent: Object3D, rod: Material, socket: Material) {
    this.#rod = new Rod(parent, rod, LINK_MM)
    this.#eyes = [part(EYE, socket), part(EYE, socket)]
    parent.add(...this.#eyes)
  }
  get meshes(): Mesh[] {
    return [this.#rod.mesh, ...this.#eyes]
  }
  place(from: MachinePoint, to: MachinePoint): void {
    this.#rod.place(from, to)
    this.#socket(this.#eyes[0], this.#rod.mesh.matrix, from)
    this.#socket(this.#eyes[1], this.#rod.mesh.matrix, to)
  }
  /** A socket's hole looks away from the mast, square to the link. */
  #socket(eye: Mesh, link: Matrix4, at: MachinePoint): void {
    along.setFromMatrixColumn(link, 2).normalize()
    side.set(at[0], at[1], 0)
    if (side.lengthSq() < 1e-6) side.set(1, 0, 0)
    side.addScaledVector(along, -side.dot(along))
    if (side.lengthSq() < 1e-6) side.setFromMatrixColumn(link, 0)
    side.normalize()
    up.crossVectors(side, along)
    eye.matrix.makeBasis(along.multiplyScalar(SOCKET_MM), up.multiplyScalar(SOCKET_MM), side.multiplyScalar(SOCKET_MM))
    eye.matrix.setPosition(at[0], at[1], at[2])
    eye.matrixWorldNeedsUpdate = true
  }
}

const SOCKET_MM = 2.9

/**
 * A flat arm from its pivot at the origin along +x to `lengthMm`, in the xy plane, `thickMm` in z, centred there:
 * a horn, or one limb of a lever. `holesMm` are bored along it.
 */
export function armGeometry(
  lengthMm: number,
  rootMm: number,
  tipMm: number,
  thickMm: number,
  holesMm: number[] = [],
): BufferGeometry {
  const shape = new Shape()
  const lean = Math.asin(Math.max(-1, Math.min(1, (rootMm - tipMm) / Math.max(lengthMm, rootMm + 0.1))))
  shape.absarc(0, 0, rootMm, Math.PI / 2 - lean, 1.5 * Math.PI + lean, false)
  shape.absarc(lengthMm, 0, tipMm, -Math.PI / 2 + lean, Math.PI / 2 - lean, false)
  shape.closePath()
  for (const hole of holesMm) shape.holes.push(new Path().absarc(hole, 0, Math.min(0.8, tipMm * 0.4), 0, 2 * Math.PI, true))
  return new ExtrudeGeometry(shape, {
    depth: thickMm,
    bevelEnabled: true,
    bevelSize: 0.25,
    bevelThickness: 0.25,
    bevelSegments: 1,
    curveSegments: 14,
  }).translate(0, 0, -thickMm / 2)
}

/**
 * Makes one mesh of each material out of the meshes that stand still in `group`: what moves as one is drawn as one,
 * which is most of what a frame costs a phone.
 */
export function weld<G extends Group>(group: G): G {
  const byMaterial = new Map<Material, BufferGeometry[]>()
  for (const child of [...group.children]) {
    if (!(child instanceof Mesh) || child.children.length > 0 || child.userData['ball'] !== undefined) continue
    const mesh = child as Mesh<BufferGeometry, Material>
    const shape = (mesh.geometry.index ? mesh.geometry.toNonIndexed() : mesh.geometry.clone()).applyMatrix4(mesh.matrix)
    shape.deleteAttribute('uv')
    byMaterial.set(mesh.material, [...(byMaterial.get(mesh.material) ?? []), shape])
    group.remove(child)
  }
  for (const [material, shapes] of byMaterial) group.add(part(mergeGeometries(shapes), material))
  return group
}

/** A plain round bar from z = `from` to z = `to`. */
export function bar(material: Material, radiusMm: number, from: number, to: number, sides = 28): Mesh {
  const mesh = part(new CylinderGeometry(radiusMm, radiusMm, to - from, sides).rotateX(Math.PI / 2), material)
  mesh.matrix.setPosition(0, 0, (from + to) / 2)
  return mesh
}

const axisX: [number, number, number] = [0, 0, 0]
const axisY: [number, number, number] = [0, 0, 0]

/** Writes a frame at `pivot` whose x points at `end` and whose z is the (unit) axis that the arm turns about. */
export function placeArm(object: Object3D, pivot: MachinePoint, end: MachinePoint, axis: MachinePoint): void {
  const x = end[0] - pivot[0]
  const y = end[1] - pivot[1]
  const z = end[2] - pivot[2]
  const length = Math.hypot(x, y, z) || 1
  axisX[0] = x / length
  axisX[1] = y / length
  axisX[2] = z / length
  axisY[0] = axis[1] * axisX[2] - axis[2] * axisX[1]
  axisY[1] = axis[2] * axisX[0] - axis[0] * axisX[2]
  axisY[2] = axis[0] * axisX[1] - axis[1] * axisX[0]
  object.matrix.set(
    axisX[0],
    axisY[0],
    axis[0],
    pivot[0],
    axisX[1],
    axisY[1],
    axis[1],
    pivot[1],
    axisX[2],
    axisY[2],
    axis[2],
    pivot[2],
    0,
    0,
    0,
    1,
  )
  object.matrixWorldNeedsUpdate = true
}
