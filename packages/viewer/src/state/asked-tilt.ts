/**
 * The tilt that the sticks ask of the swashplate: the direction that they command, with as much tilt as the machine as
 * recorded gives it. A record that leans, or answers in another direction than it is told, does not ask for that.
 *
 * Direction: elevator forward and aileron right after rates, mix values (their size: a sign there goes with the servos'
 * own) and phase, which turns what is asked of the swashplate; the limit alters no direction. Size: how far the cyclic
 * stick takes the recorded swashplate from where it stands with that stick centred.
 */
import { type PreparedRig, type Prediction, shapedStick } from '@swashtrue/mixing'
import { preparedOf, predictionOfRecordCentred } from './pose.ts'
import { actingSticks, type PageState } from './store.ts'

export interface Tilt {
  /** degrees, positive forward and right */
  readonly foreAft: number
  readonly side: number
}

const RAD = Math.PI / 180

/** Undefined where the machine as recorded cannot be posed at these sticks, or with the cyclic stick centred. */
export function askedTilt(state: PageState, record: Prediction): Tilt | undefined {
  const centred = predictionOfRecordCentred(state).swash
  if (!record.swash || !centred) return undefined
  const { elevator, aileron } = actingSticks(state)
  const [forward, right] = commandedDirection(preparedOf(state.session.record), elevator, aileron)
  const size = Math.hypot(
    Math.tan(record.swash.foreAft * RAD) - Math.tan(centred.foreAft * RAD),
    Math.tan(record.swash.side * RAD) - Math.tan(centred.side * RAD),
  )
  return { foreAft: Math.atan(size * forward) / RAD, side: Math.atan(size * right) / RAD }
}

/** Forward and right parts of a unit vector, or of none with the stick centred. */
export function commandedDirection({ transmitter }: PreparedRig, elevator: number, aileron: number): [number, number] {
  const e = Math.abs(transmitter.elevatorMixRatio) * shapedStick(transmitter.elevator, elevator)
  const a = Math.abs(transmitter.aileronMixRatio) * shapedStick(transmitter.aileron, aileron)
  const size = Math.hypot(e, a)
  if (size === 0) return [0, 0]
  const { phaseCos, phaseSin } = transmitter
  return [(e * phaseCos + a * phaseSin) / size, (a * phaseCos - e * phaseSin) / size]
}
