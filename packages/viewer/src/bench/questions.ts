/**
 * Look and move first: a card of questions without a gauge, which settles most faults of sign. Each answer becomes items
 * of the readings document; "I can't tell" becomes none. Questions are put of the record with all that was turned since,
 * so that "as recorded" still means it after a step of the plan.
 */
import { applyChanges, type Change, describePath, type Rig, unitAt, valueAt } from '@swashtrue/mixing'
import type { Sticks } from '@swashtrue/mixing/bench'
import { lastAdjusted, type WrittenItem } from './model.ts'

interface Asked {
  readonly id: string
  readonly asks: string
  readonly how: string
  /** where the sticks are to be */
  readonly sticks?: Sticks
}

export interface Choice {
  readonly id: string
  readonly says: string
  readonly items: readonly WrittenItem[]
}

export interface SettingRow {
  readonly path: string
  readonly says: string
  readonly unit: string
  readonly recorded: boolean | number
}

export type Question =
  | (Asked & { readonly kind: 'choice'; readonly answers: readonly Choice[] })
  | (Asked & { readonly kind: 'parts'; readonly parts: readonly { part: string; says: string }[] })
  | (Asked & { readonly kind: 'leads'; readonly servos: readonly { path: string; says: string; recorded: number }[] })
  | (Asked & { readonly kind: 'settings'; readonly rows: readonly SettingRow[] })
  | (Asked & { readonly kind: 'horns'; readonly servos: readonly { of: number; says: string }[] })
  | (Asked & { readonly kind: 'tip' })

const MID: Sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0 }
/** Part of the way: enough to see, before anybody knows that nothing binds. */
const UP: Sticks = { ...MID, collective: 0.5 }
const FORWARD: Sticks = { ...MID, elevator: 0.6 }
const RIGHT: Sticks = { ...MID, aileron: 0.6 }
const RIGHT_RUDDER: Sticks = { ...MID, rudder: 0.6 }
const HAND_TURN_DEG_PER_S = 90

const seen = (path: string, value: unknown): WrittenItem => ({ seen: { path, value } })

export const servoName = (rig: Rig, i: number): string => {
  const name = rig.servos[i]?.name
  return name === undefined || name === '' || name === `servo ${i + 1}` ? `Servo ${i + 1}` : `Servo ${i + 1}, ${name}`
}

/** The questions for a machine, in the order in which a mechanic moves. */
export function questionsFor(rig: Rig): Question[] {
  const tip = (id: string, asks: string, how: string, sticks: Sticks): Question => ({ id, kind: 'tip', asks, how, sticks })
  return [
    {
      id: 'parts',
      kind: 'parts',
      asks: 'Power off, move everything by hand. Is a part bent or worn?',
      how: 'What is bent or worn is replaced before anything is adjusted, never adjusted around.',
      parts: partsOf(rig),
    },
    {
      id: 'leads',
      kind: 'leads',
      asks: 'Which output is each servo’s lead in?',
      how: 'Follow each wire. Marked is what the record says.',
      servos: rig.servos.map(({ output }, i) => ({ path: `/servos/${i}/output`, says: servoName(rig, i), recorded: output })),
    },
    {
      id: 'settings',
      kind: 'settings',
      asks: 'Do the settings stand as recorded?',
      how: 'Change here what stands otherwise on your transmitter.',
      rows: settingsOf(rig),
    },
    {
      id: 'collective',
      kind: 'horns',
      asks: 'Raise collective a little. Which way does the ball on each horn go?',
      how: 'Gently, gauge off. Watch the horns, not the swashplate.',
      sticks: UP,
      servos: rig.servos.map((_, i) => ({ of: i + 1, says: servoName(rig, i) })),
    },
    tip('elevator', 'Push elevator forward. Which edge of the swashplate goes down?', 'Seen from above, nose up.', FORWARD),
    tip('aileron', 'Push aileron right. Which edge of the swashplate goes down?', 'Seen from above, nose up.', RIGHT),
    ...(rig.tail ? tailQuestions(rig) : []),
  ]
}

function tailQuestions(rig: Rig): Question[] {
  const moves = (way: string, more: object): WrittenItem => ({ moves: { part: 'tail', way, ...more } })
  const sides = (more: object): Choice[] => [
    { id: 'right', says: 'To the right', items: [moves('right', more)] },
    { id: 'left', says: 'To the left', items: [moves('left', more)] },
    { id: 'none', says: 'They do not move', items: [moves('none', more)] },
  ]
  const rudder: Question = {
    id: 'rudder',
    kind: 'choice',
    asks: 'Push rudder right. Which way would the tail blades swing the nose?',
    how: 'Blades that push the tail to the left swing the nose right.',
    sticks: RIGHT_RUDDER,
    answers: sides({ sticks: RIGHT_RUDDER }),
  }
  if (rig.tail?.gyro === undefined) return [rudder]
  const gyro: Question = {
    id: 'gyro',
    kind: 'choice',
    asks: 'Swing the nose left by hand, briskly. Which way do the tail blades answer?',
    how: 'Rudder stick in the middle. To the right is as under right rudder.',
    sticks: MID,
    answers: sides({ sticks: MID, yawRate: HAND_TURN_DEG_PER_S }),
  }
  return [rudder, gyro]
}

/** Parts that are looked over: those of the record by their path, the others by name. */
function partsOf(rig: Rig): { part: string; says: string }[] {
  const known = [
    ...rig.servos.flatMap((servo, i) => [`/servos/${i}/link`, ...(servo.pushrod === undefined ? [] : [`/servos/${i}/pushrod`])]),
    ...rig.rotor.links.map((_, k) => `/rotor/links/${k}`),
    ...(rig.tail ? ['/tail/rod'] : []),
  ]
  const others = [
    'servo horn',
    'swashplate',
    'mast',
    'feathering spindle',
    'blade grip',
    ...(rig.flybar ? ['flybar or its arms'] : []),
    'another part',
  ]
  return [
    ...known.map((part) => ({ part, says: capital(describePath(rig, part)) })),
    ...others.map((part) => ({ part, says: capital(part) })),
  ]
}

function settingsOf(rig: Rig): SettingRow[] {
  const paths = [
    ...[0, 1, 2].flatMap((j) => [`/transmitter/outputs/${j}/reverse`, `/transmitter/outputs/${j}/subtrim`]),
    ...['collective', 'elevator', 'aileron', 'phase'].map((key) => `/transmitter/mix/${key}`),
    ...(rig.tail ? ['/transmitter/rudder/reverse'] : []),
    ...(rig.tail?.gyro ? ['/tail/gyro/reverse'] : []),
  ]
  return paths.flatMap((path) => {
    const recorded = valueAt(rig, path)
    if (typeof recorded !== 'boolean' && typeof recorded !== 'number') return []
    return [{ path, says: capital(describePath(rig, path)), unit: SIGNS[unitAt(path)] ?? '', recorded }]
  })
}

const SIGNS: Readonly<Record<string, string>> = { us: 'µs', percent: '%', degree: '°', mm: 'mm' }
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** The record with all that was turned since: what "as recorded" means now. */
export function recordNow(record: Rig, items: readonly unknown[]): Rig {
  const made = items.flatMap((item) => {
    const change = (item as WrittenItem)['adjusted'] as Change | undefined
    return change === undefined ? [] : [change]
  })
  try {
    return applyChanges(record, made)
  } catch {
    // Notes that no longer fit are told where they are worked out; until then the record stands.
    return record
  }
}

/** Items of the parts: those found bent or worn; the blade links that were not are told to be straight, and so is what was replaced. */
export function partsItems(
  question: Question,
  found: ReadonlyMap<string, 'bent' | 'worn'>,
  items: readonly unknown[],
): WrittenItem[] {
  if (question.kind !== 'parts') return []
  const inspected = (part: string, state: string): WrittenItem => ({ inspected: { part, found: state } })
  const before = items.flatMap((item) => {
    const one = (item as WrittenItem)['inspected'] as { part: string; found: string } | undefined
    return one && (one.found === 'bent' || one.found === 'worn') ? [one.part] : []
  })
  const links = question.parts.map(({ part }) => part).filter((part) => part.startsWith('/rotor/links/'))
  const straight = [...new Set([...links, ...before])].filter((part) => !found.has(part))
  return [
    ...[...found].map(([part, state]) => inspected(part, state)),
    ...straight.map((part) => inspected(part, 'straight')),
    ...(found.size === 0 ? [inspected('every part', 'straight')] : []),
  ]
}

export const seenItems = (values: ReadonlyMap<string, unknown>): WrittenItem[] =>
  [...values].map(([path, value]) => seen(path, value))

export type HornWay = 'up' | 'down' | 'none'

export const hornItems = (ways: ReadonlyMap<number, HornWay>): WrittenItem[] =>
  [...ways].map(([of, way]) => ({ moves: { sticks: UP, part: 'servo', of, way } }))

/** The eight ways in which it may tip: the edge that goes down, from above with the nose up, row by row. */
export const TIPS = [
  ['forward left', 'forward', 'forward right'],
  ['left', 'none', 'right'],
  ['aft left', 'aft', 'aft right'],
] as const
export type Tip = (typeof TIPS)[number][number]

export const TIP_WORDS: Readonly<Record<Tip, string>> = {
  'forward left': 'Front left',
  forward: 'Front',
  'forward right': 'Front right',
  left: 'Left',
  none: 'It stays level',
  right: 'Right',
  'aft left': 'Rear left',
  aft: 'Rear',
  'aft right': 'Rear right',
}

/**
 * Items of a tip. One way alone says nothing of the other axis: an eye calls "forward" what is as much as 20 degrees aside,
 * and a true machine may lean a little by its geometry or by its phase.
 */
export function tipItems(question: Question, tip: Tip): WrittenItem[] {
  const moves = (part: string, way: string): WrittenItem => ({ moves: { sticks: question.sticks, part, way } })
  if (tip === 'none') return [moves('fore-aft', 'none'), moves('side', 'none')]
  return tip.split(' ').map((way) => moves(way === 'left' || way === 'right' ? 'side' : 'fore-aft', way))
}

/** The items of an answer, each marked with its question, in place of those that answered it since the machine was last changed. */
export function withAnswer(items: readonly unknown[], question: string, answer: readonly WrittenItem[], id: string): unknown[] {
  const from = lastAdjusted(items) + 1
  const marked = answer.map((item) => ({ ...item, 'x-question': question, 'x-answer': id }))
  const others = items.slice(from).filter((item) => (item as WrittenItem)['x-question'] !== question)
  return [...items.slice(0, from), ...marked, ...others]
}

/** What was answered to a question since the machine was last changed. */
export function answerTo(items: readonly unknown[], question: string): { id: string; items: WrittenItem[] } | undefined {
  const given = (items.slice(lastAdjusted(items) + 1) as WrittenItem[]).filter((item) => item['x-question'] === question)
  return given.length === 0 ? undefined : { id: String(given[0]?.['x-answer']), items: given }
}
