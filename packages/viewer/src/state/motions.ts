/**
 * Ready-made stick motions: sticks as a function of time, one whole turn in `seconds`.
 * Each begins and ends at mid-stick's side of the stroke, so that starting and stopping do not jump the machine.
 */
import { MID_STICK, type Sticks } from './session.ts'

export interface Motion {
  readonly id: string
  readonly name: string
  /** what the hands do, for a reader who has never held a transmitter */
  readonly says: string
  readonly seconds: number
  /** turn: 0 to 1 of the motion */
  sticksAt(turn: number): Sticks
}

const wave = (turn: number): number => Math.sin(2 * Math.PI * turn)

/** Rises from the centre to the rim in the first eighth, goes once round, comes back: a circle entered without a jump. */
function circle(turn: number): Sticks {
  const reach = Math.min(1, turn * 8, (1 - turn) * 8)
  const round = 2 * Math.PI * ((turn - 1 / 8) / (3 / 4))
  return { ...MID_STICK, elevator: reach * Math.cos(round), aileron: reach * Math.sin(round) }
}

export const MOTIONS: readonly Motion[] = [
  {
    id: 'elevator',
    name: 'Elevator',
    says: 'forward, back, centre',
    seconds: 4,
    sticksAt: (turn) => ({ ...MID_STICK, elevator: wave(turn) }),
  },
  {
    id: 'aileron',
    name: 'Aileron',
    says: 'right, left, centre',
    seconds: 4,
    sticksAt: (turn) => ({ ...MID_STICK, aileron: wave(turn) }),
  },
  {
    id: 'collective',
    name: 'Collective',
    says: 'from end to end',
    seconds: 4,
    sticksAt: (turn) => ({ ...MID_STICK, collective: wave(turn) }),
  },
  {
    id: 'circle',
    name: 'Full circle',
    says: 'the cyclic stick once round its rim',
    seconds: 6,
    sticksAt: circle,
  },
  {
    id: 'rudder',
    name: 'Rudder',
    says: 'right, left, centre',
    seconds: 4,
    sticksAt: (turn) => ({ ...MID_STICK, rudder: wave(turn) }),
  },
]

/** One push of the elevator, out and held, then back: what the first minute shows. Not in the list: it plays once. */
export const PUSH_ELEVATOR: Motion = {
  id: 'push-elevator',
  name: 'Push elevator',
  says: 'forward, held, centre',
  seconds: 3.2,
  sticksAt: (turn) => {
    const part = turn < 0.3 ? turn / 0.3 : turn > 0.8 ? (1 - turn) / 0.2 : 1
    return { ...MID_STICK, elevator: part * part * (3 - 2 * part) }
  },
}

export const motionNamed = (id: string): Motion | undefined =>
  id === PUSH_ELEVATOR.id ? PUSH_ELEVATOR : MOTIONS.find((motion) => motion.id === id)
