/** The balls of a figure by the names that the drawing gives them, and those that a drawing has, in machine axes. */
import type { Figure } from '@swashtrue/mixing'
import { toMachine } from '../../packages/viewer/src/axes/axes.ts'
import type { MachineDrawing } from '../../packages/viewer/src/scene/machine.ts'

export type Place = [number, number, number]

/** Every ball of the figure that is an end of something: shafts and pivots are no balls. */
export function figureBalls(figure: Figure): Map<string, Place> {
  const balls = new Map<string, Place>()
  const put = (name: string, at: readonly number[] | undefined): void => {
    if (at) balls.set(name, [...at] as Place)
  }
  figure.servos.forEach((servo, i) => {
    put(`/servos/${i}/hornBall`, servo.hornBall)
    put(`/servos/${i}/ringBall`, servo.ringBall)
    put(`/servos/${i}/lever/servoEnd`, servo.lever?.servoEnd)
    put(`/servos/${i}/lever/swashEnd`, servo.lever?.swashEnd)
  })
  figure.swash?.rotatingBalls.forEach((at, k) => put(`/swash/rotatingBalls/${k}`, at))
  figure.blades?.forEach((blade, k) => put(`/blades/${k}/armBall`, blade.armBall))
  figure.flybar?.armBalls.forEach((at, k) => put(`/flybar/armBalls/${k}`, at))
  figure.flybar?.washout.forEach((arm, k) => {
    put(`/flybar/washout/${k}/flybarEnd`, arm.flybarEnd)
    put(`/flybar/washout/${k}/swashEnd`, arm.swashEnd)
  })
  figure.flybar?.mixing.forEach((arm, k) => {
    put(`/flybar/mixing/${k}/bladeEnd`, arm.bladeEnd)
    put(`/flybar/mixing/${k}/swashEnd`, arm.swashEnd)
  })
  put('/tail/hornBall', figure.tail?.hornBall)
  put('/tail/leverServoEnd', figure.tail?.leverServoEnd)
  put('/tail/leverSliderEnd', figure.tail?.leverSliderEnd)
  return balls
}

/** Every ball in the drawing's scene graph: world positions, turned back from three's axes into the machine's. */
export function drawnBalls(drawing: MachineDrawing): Map<string, Place> {
  drawing.group.updateMatrixWorld(true)
  const balls = new Map<string, Place>()
  const at: Place = [0, 0, 0]
  drawing.group.traverse((object) => {
    const name = object.userData['ball'] as string | undefined
    if (name === undefined) return
    const [, , , , , , , , , , , , x = 0, y = 0, z = 0] = object.matrixWorld.elements
    toMachine(at, { x, y, z })
    balls.set(name, [...at])
  })
  return balls
}
