/** The cyclic limit as a line over the cyclic stick: where the sticks, after their rates and expo, come to it. */
import { type PreparedRig, shapedStick } from '@swashtrue/mixing'

const POINTS = 176
/** Halvings: 2^-20 of the stick's way is far below a pixel. */
const HALVINGS = 20

/** [elevator, aileron] round the stick, undefined where the stick ends before the limit; nothing where there is no limit. */
export function limitRing({ transmitter }: PreparedRig): ([number, number] | undefined)[] | undefined {
  const limit = transmitter.cyclicLimitRatio
  if (limit === Number.POSITIVE_INFINITY) return undefined
  const size = (elevator: number, aileron: number): number =>
    Math.hypot(shapedStick(transmitter.elevator, elevator), shapedStick(transmitter.aileron, aileron))
  return Array.from({ length: POINTS + 1 }, (_, k) => {
    const angle = (2 * Math.PI * k) / POINTS
    const forward = Math.cos(angle)
    const right = Math.sin(angle)
    // to the square's edge
    let far = 1 / Math.max(Math.abs(forward), Math.abs(right))
    if (size(far * forward, far * right) <= limit) return undefined
    let near = 0
    for (let n = 0; n < HALVINGS; n++) {
      const middle = (near + far) / 2
      if (size(middle * forward, middle * right) > limit) far = middle
      else near = middle
    }
    return [near * forward, near * right]
  })
}

/** Whether the limit holds all four corners in. */
export function limitsCorners(ring: ReturnType<typeof limitRing>): boolean {
  if (!ring) return false
  return [1, 3, 5, 7].every((eighth) => ring[(eighth * POINTS) / 8] !== undefined)
}
