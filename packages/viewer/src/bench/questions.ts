/**
 * Look and move first: six questions without a gauge, which settle most faults of sign. Each answer becomes an item of
 * the readings document; "I can't tell" becomes none.
 */
import { describePath, type Rig } from '@swashtrue/mixing'
import type { WrittenItem } from './model.ts'

export interface Answer {
  readonly id: string
  readonly says: string
  readonly items: readonly WrittenItem[]
}

export interface Question {
  readonly id: string
  readonly asks: string
  readonly how: string
  readonly picture: 'leads' | 'settings' | 'collective' | 'elevator' | 'aileron' | 'parts'
  readonly answers: readonly Answer[]
  /** several may be true at once: ticked, not chosen */
  readonly several?: boolean
}

const UP = { collective: 1, elevator: 0, aileron: 0, rudder: 0 }
const FORWARD = { collective: 0, elevator: 1, aileron: 0, rudder: 0 }
const RIGHT = { collective: 0, elevator: 0, aileron: 1, rudder: 0 }

const moves = (sticks: object, part: string, way: string, of = 1): WrittenItem => ({ moves: { sticks, part, way, of } })
const seen = (path: string, value: unknown): WrittenItem => ({ seen: { path, value } })

const servoName = (rig: Rig, i: number): string => {
  const name = rig.servos[i]?.name
  return name === undefined || name === '' || name === `servo ${i + 1}` ? `servo ${i + 1}` : `servo ${i + 1} (${name})`
}

/** The six questions for a machine. */
export function questionsFor(rig: Rig): Question[] {
  return [
    {
      id: 'parts',
      asks: 'Turn everything by hand, power off. Is anything bent or worn?',
      how: 'Spindle, mast, links, horns, swashplate. What is bent or worn is replaced before anything is adjusted.',
      picture: 'parts',
      answers: [
        { id: 'straight', says: 'All straight and tight', items: [{ inspected: { part: 'head and linkage', found: 'straight' } }] },
        { id: 'bent', says: 'Something is bent', items: [{ inspected: { part: 'head and linkage', found: 'bent' } }] },
        { id: 'worn', says: 'Something is worn', items: [{ inspected: { part: 'head and linkage', found: 'worn' } }] },
      ],
    },
    {
      id: 'leads',
      asks: 'Is each lead in the output that the record says?',
      how: rig.servos.map((servo, i) => `${servoName(rig, i)} in output ${servo.output}`).join(', ') + '.',
      picture: 'leads',
      answers: [
        { id: 'as-recorded', says: 'As recorded', items: rig.servos.map((servo, i) => seen(`/servos/${i}/output`, servo.output)) },
        ...[[0, 1], [0, 2], [1, 2]].map((pair) => swapped(rig, pair as [number, number])),
      ],
    },
    {
      id: 'settings',
      asks: 'Do the outputs stand as recorded: reversed or not?',
      how: rig.transmitter.outputs.map(({ reverse }, i) => `output ${i + 1} ${reverse ? 'reversed' : 'not reversed'}`).join(', ') + '.',
      picture: 'settings',
      answers: [
        { id: 'as-recorded', says: 'As recorded', items: rig.transmitter.outputs.map(({ reverse }, i) => seen(`/transmitter/outputs/${i}/reverse`, reverse)) },
        ...rig.transmitter.outputs.map(({ reverse }, i): Answer => ({
          id: `output-${i + 1}`,
          says: `Output ${i + 1} is ${reverse ? 'not reversed' : 'reversed'}`,
          items: rig.transmitter.outputs.map((output, j) => seen(`/transmitter/outputs/${j}/reverse`, j === i ? !output.reverse : output.reverse)),
        })),
      ],
    },
    {
      id: 'collective',
      asks: 'Raise collective a little. Which horns lift their ball?',
      how: 'Gently, until you have seen that nothing binds. Watch the ball on each horn, not the swashplate.',
      picture: 'collective',
      several: true,
      answers: rig.servos.map((_, i) => ({
        id: `servo-${i + 1}`,
        says: servoName(rig, i),
        items: [moves(UP, 'servo', 'up', i + 1)],
      })),
    },
    {
      id: 'elevator',
      asks: 'Push elevator forward. Which way does the swashplate tip?',
      how: 'Toward the nose is forward. If it tips aside more than forward, say the side.',
      picture: 'elevator',
      answers: [
        { id: 'forward', says: 'Forward', items: [moves(FORWARD, 'fore-aft', 'forward'), moves(FORWARD, 'side', 'none')] },
        { id: 'aft', says: 'Back', items: [moves(FORWARD, 'fore-aft', 'aft'), moves(FORWARD, 'side', 'none')] },
        { id: 'right', says: 'Aside, to the right', items: [moves(FORWARD, 'side', 'right')] },
        { id: 'left', says: 'Aside, to the left', items: [moves(FORWARD, 'side', 'left')] },
      ],
    },
    {
      id: 'aileron',
      asks: 'Push aileron right. Which way does the swashplate tip?',
      how: 'Seen from behind. If it tips fore or aft more than aside, say so.',
      picture: 'aileron',
      answers: [
        { id: 'right', says: 'Right', items: [moves(RIGHT, 'side', 'right'), moves(RIGHT, 'fore-aft', 'none')] },
        { id: 'left', says: 'Left', items: [moves(RIGHT, 'side', 'left'), moves(RIGHT, 'fore-aft', 'none')] },
        { id: 'forward', says: 'Forward', items: [moves(RIGHT, 'fore-aft', 'forward')] },
        { id: 'aft', says: 'Back', items: [moves(RIGHT, 'fore-aft', 'aft')] },
      ],
    },
  ]
}

function swapped(rig: Rig, [a, b]: [number, number]): Answer {
  const outputs = rig.servos.map(({ output }) => output)
  const [one, other] = [outputs[a] as number, outputs[b] as number]
  outputs[a] = other
  outputs[b] = one
  return {
    id: `swapped-${a + 1}-${b + 1}`,
    says: `Leads of ${servoName(rig, a)} and ${servoName(rig, b)} are swapped`,
    items: outputs.map((output, i) => seen(`/servos/${i}/output`, output)),
  }
}

/** The answers ticked of a question with several: those ticked go up, the others down. */
export function severalItems(question: Question, ticked: ReadonlySet<string>): WrittenItem[] {
  return question.answers.flatMap(({ id, items }) =>
    ticked.has(id)
      ? [...items]
      : items.map((item) => ({ moves: { ...(item['moves'] as object), way: 'down' } })),
  )
}

/** An item marked with the question it answers, so that a new answer takes the old one's place. */
export const marked = (items: readonly WrittenItem[], question: string, answer: string): WrittenItem[] =>
  items.map((item) => ({ ...item, 'x-question': question, 'x-answer': answer }))

export function withAnswer(items: readonly unknown[], question: string, answer: readonly WrittenItem[], id: string): unknown[] {
  const others = items.filter((item) => (item as WrittenItem)['x-question'] !== question)
  return [...marked(answer, question, id), ...others]
}

export function answerTo(items: readonly unknown[], question: string): string | undefined {
  const item = items.find((one) => (one as WrittenItem)['x-question'] === question) as WrittenItem | undefined
  return item?.['x-answer'] as string | undefined
}

/** An item that was looked at, in words, for the list. */
export const seenInWords = (rig: Rig, path: string, value: unknown): string => `${describePath(rig, path)}: ${String(value)}`
