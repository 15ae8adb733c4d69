/**
 * Three ready-made faults for "what is wrong here?". Each is made on whatever machine is open; what it then does is
 * worked out, not written down.
 */
import { type Change, type Rig, valueAt } from '@swashtrue/mixing'

export interface Riddle {
  readonly id: string
  readonly name: string
  readonly ask: string
  readonly motion: string
  changes(record: Rig): Change[]
}

export const RIDDLES: readonly Riddle[] = [
  {
    id: 'leans',
    name: 'It leans',
    ask: 'The sticks are centred, and still it is not level. Push elevator: does the lean come from the stick?',
    motion: 'push-elevator',
    changes: (record) => [{ path: `/servos/${sideServo(record)}/horn/offset`, by: 8 }],
  },
  {
    id: 'rolls',
    name: 'Forward is not forward',
    ask: 'Centred it stands level. Push elevator, and watch which way the swashplate goes.',
    motion: 'elevator',
    changes: (record) => {
      const [a, b] = unlikePair(record)
      return [
        { path: `/servos/${a}/output`, to: record.servos[b as 0].output },
        { path: `/servos/${b}/output`, to: record.servos[a as 0].output },
      ]
    },
  },
  {
    id: 'tips',
    name: 'Up, but not straight up',
    ask: 'Cyclic looks odd and collective looks worse. Move collective from end to end.',
    motion: 'collective',
    changes: (record) => {
      const path = `/transmitter/outputs/${record.servos[2].output - 1}/reverse`
      return [{ path, to: !valueAt(record, path) }]
    },
  },
]

/** The servo whose ball lies farthest to a side: set wrong, it rolls the machine. */
export function sideServo(record: Rig): number {
  const aside = record.servos.map(({ ball }) => Math.abs(ball.radius * Math.sin((ball.azimuth * Math.PI) / 180)))
  return aside.findIndex((one) => one >= Math.max(...aside) - 1e-6)
}

/** Two servos that elevator moves differently: swapping their leads must show under elevator. */
function unlikePair(record: Rig): [number, number] {
  const ahead = record.servos.map(({ ball }) => Math.cos((ball.azimuth * Math.PI) / 180))
  let pair: [number, number] = [0, 1]
  let most = -1
  for (const [a, b] of [
    [0, 1],
    [1, 2],
    [0, 2],
  ] as const) {
    const apart = Math.abs((ahead[a] ?? 0) - (ahead[b] ?? 0))
    if (apart > most + 1e-9) {
      most = apart
      pair = [a, b]
    }
  }
  return pair
}

/** What one may guess: the kinds of thing that such a fault could be. */
export const GUESSES: readonly { id: string; says: string }[] = [
  { id: 'leans', says: 'A horn is on its spline wrong' },
  { id: 'rolls', says: 'Two leads are swapped' },
  { id: 'tips', says: 'One output is reversed' },
  { id: 'none', says: 'The phase is wrong' },
]
