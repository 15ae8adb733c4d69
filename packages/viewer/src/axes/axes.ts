/**
 * The one place that knows both our axes and three's.
 *
 *   machine: x forward (nose), y left, z up along the mast, millimetres (REP-103)
 *   three:   X right, Y up, Z toward the viewer; one unit is one millimetre
 *   X = -y,  Y = z,  Z = -x      so that who looks along -Z stands behind the tail, as a pilot does
 *
 * The map is a rotation (determinant +1): a right-handed machine stays right-handed.
 * The tail has axes of its own, [u, v, w]: u aft along the boom, v along the tail shaft, w up. It is drawn at a place
 * on the boom that the document does not fix; `tailMatrix` says where.
 */
import { Matrix4, type Vector3 } from 'three'

export type MachinePoint = readonly [number, number, number]

export function toScene(out: Vector3, point: MachinePoint): Vector3 {
  return out.set(-point[1], point[2], -point[0])
}

export function toMachine(out: [number, number, number], inScene: { x: number; y: number; z: number }): [number, number, number] {
  out[0] = -inScene.z
  out[1] = -inScene.x
  out[2] = inScene.y
  return out
}

/** The machine azimuth, in degrees, of a place in three's scene. */
export function azimuthOf(inScene: { x: number; z: number }): number {
  return (Math.atan2(-inScene.x, -inScene.z) * 180) / Math.PI
}

/** The matrix of `toScene`, for a group whose children are placed in machine axes. */
export const sceneFromMachine = (): Matrix4 => new Matrix4().set(0, -1, 0, 0, 0, 0, 1, 0, -1, 0, 0, 0, 0, 0, 0, 1)

/**
 * Puts a body's frame into `out`, in machine axes: columns are the body's own x, y and z as seen in the machine frame.
 * Takes a left-handed triad too (a blade of a clockwise rotor: out, ahead, up), which three draws with faces turned.
 */
export function frame(out: Matrix4, origin: MachinePoint, x: MachinePoint, y: MachinePoint, z: MachinePoint): Matrix4 {
  return out.set(x[0], y[0], z[0], origin[0], x[1], y[1], z[1], origin[1], x[2], y[2], z[2], origin[2], 0, 0, 0, 1)
}

/** The same from a row-major rotation matrix, the body's axes in the machine frame. */
export function frameOf(out: Matrix4, origin: MachinePoint, rotation: ArrayLike<number>): Matrix4 {
  const r = rotation as number[]
  return out.set(
    r[0] as number,
    r[1] as number,
    r[2] as number,
    origin[0],
    r[3] as number,
    r[4] as number,
    r[5] as number,
    origin[1],
    r[6] as number,
    r[7] as number,
    r[8] as number,
    origin[2],
    0,
    0,
    0,
    1,
  )
}

/** Unit direction of an azimuth in degrees, counter-clockwise from above, from the nose, in machine axes. */
export function azimuthDirection(azimuthDeg: number): [number, number, number] {
  const rad = (azimuthDeg * Math.PI) / 180
  return [Math.cos(rad), Math.sin(rad), 0]
}

/**
 * Where the tail's axes sit on the machine, in machine axes: u points aft (-x), w up (z), and v to the machine's
 * right (-y), the side that leaves the triad right-handed.
 */
export function tailMatrix(out: Matrix4, originForwardMm: number, heightMm: number): Matrix4 {
  return frame(out, [originForwardMm, 0, heightMm], [-1, 0, 0], [0, -1, 0], [0, 0, 1])
}
