/** The ways in which a question of the look card is answered: each a few big buttons, nothing to type but a setting. */
import { useState } from 'react'
import type { WrittenItem } from './model.ts'
import {
  type HornWay,
  hornItems,
  partsItems,
  type Question,
  seenItems,
  TIP_WORDS,
  TIPS,
  type Tip,
  tipItems,
} from './questions.ts'

type Given = { id: string; items: readonly WrittenItem[] } | undefined

export interface AnswerProps<K extends Question['kind']> {
  question: Extract<Question, { kind: K }>
  given: Given
  /** all notes so far */
  items: readonly unknown[]
  answer(items: readonly WrittenItem[], id: string): void
}

export function ChoiceAnswer({ question, given, answer }: AnswerProps<'choice'>) {
  return (
    <div className="bench-answers" role="group" aria-label="Your answer">
      {question.answers.map(({ id, says, items }) => (
        <button key={id} type="button" className="button" aria-pressed={given?.id === id} onClick={() => answer(items, id)}>
          {says}
        </button>
      ))}
    </div>
  )
}

/** A row of two or three buttons of which one is pressed. */
function Pick<T>(props: {
  label: string
  value: T | undefined
  options: readonly (readonly [T, string])[]
  choose(value: T): void
}) {
  return (
    <div className="segments" role="group" aria-label={props.label}>
      {props.options.map(([value, says]) => (
        <button key={says} type="button" aria-pressed={props.value === value} onClick={() => props.choose(value)}>
          {says}
        </button>
      ))}
    </div>
  )
}

const set = <K, V>(map: ReadonlyMap<K, V>, key: K, value: V): Map<K, V> => new Map(map).set(key, value)

export function PartsAnswer({ question, given, items, answer }: AnswerProps<'parts'>) {
  const before = new Map(
    (given?.items ?? []).flatMap((item): [string, 'bent' | 'worn'][] => {
      const { part, found } = item['inspected'] as { part: string; found: string }
      return found === 'bent' || found === 'worn' ? [[part, found]] : []
    }),
  )
  const [found, setFound] = useState<ReadonlyMap<string, 'bent' | 'worn'>>(before)
  const [open, setOpen] = useState(before.size > 0)
  return (
    <>
      <div className="bench-answers" role="group" aria-label="Your answer">
        <button
          type="button"
          className="button"
          aria-pressed={given?.id === 'straight'}
          onClick={() => answer(partsItems(question, new Map(), items), 'straight')}
        >
          All straight, tight and free
        </button>
        <button type="button" className="button" aria-expanded={open} onClick={() => setOpen(!open)}>
          Something is bent or worn
        </button>
      </div>
      {open && (
        <>
          <ul className="bench-rows">
            {question.parts.map(({ part, says }) => (
              <li key={part}>
                <span>{says}</span>
                <Pick
                  label={says}
                  value={found.get(part) ?? 'good'}
                  options={
                    [
                      ['good', 'good'],
                      ['bent', 'bent'],
                      ['worn', 'worn'],
                    ] as const
                  }
                  choose={(state) => {
                    const next = new Map(found)
                    if (state === 'good') next.delete(part)
                    else next.set(part, state as 'bent' | 'worn')
                    setFound(next)
                  }}
                />
              </li>
            ))}
          </ul>
          <button
            type="button"
            className="button strong wide"
            disabled={found.size === 0}
            onClick={() => answer(partsItems(question, found, items), 'found')}
          >
            Note it: to be replaced first
          </button>
        </>
      )}
    </>
  )
}

/** What was noted of a path in an earlier answer. */
const seenBefore = (given: Given): Map<string, unknown> =>
  new Map(
    (given?.items ?? []).map((item) => item['seen'] as { path: string; value: unknown }).map(({ path, value }) => [path, value]),
  )

export function LeadsAnswer({ question, given, answer }: AnswerProps<'leads'>) {
  const before = seenBefore(given)
  const [outputs, setOutputs] = useState<ReadonlyMap<string, unknown>>(
    new Map(question.servos.map(({ path, recorded }) => [path, before.get(path) ?? recorded])),
  )
  const twice = new Set(outputs.values()).size < question.servos.length
  return (
    <>
      <ul className="bench-rows">
        {question.servos.map(({ path, says, recorded }) => (
          <li key={path}>
            <span>
              {says}
              {outputs.get(path) !== recorded && <b className="against"> recorded in {recorded}</b>}
            </span>
            <Pick
              label={`${says}, in output`}
              value={outputs.get(path)}
              options={[1, 2, 3].map((n) => [n, String(n)] as const)}
              choose={(n) => setOutputs(set(outputs, path, n))}
            />
          </li>
        ))}
      </ul>
      {twice && (
        <p className="bench-word warn" role="alert">
          Two leads cannot be in one output: look again.
        </p>
      )}
      <button type="button" className="button strong wide" disabled={twice} onClick={() => answer(seenItems(outputs), 'seen')}>
        So they are plugged
      </button>
    </>
  )
}

export function SettingsAnswer({ question, given, answer }: AnswerProps<'settings'>) {
  const before = seenBefore(given)
  const [values, setValues] = useState<ReadonlyMap<string, string | boolean>>(
    new Map(
      question.rows.map(({ path, recorded }) => {
        const value = before.get(path) ?? recorded
        return [path, typeof value === 'boolean' ? value : String(value)]
      }),
    ),
  )
  const numberOf = (text: string): number => (text.trim() === '' ? Number.NaN : Number(text.replace(',', '.').replace('−', '-')))
  const read = new Map([...values].map(([path, value]) => [path, typeof value === 'boolean' ? value : numberOf(value)]))
  const wrong = [...read.values()].some((value) => Number.isNaN(value))
  const differ = question.rows.filter(({ path, recorded }) => read.get(path) !== recorded).length
  return (
    <>
      <ul className="bench-rows">
        {question.rows.map(({ path, says, unit, recorded }) => {
          const value = values.get(path)
          const otherwise = read.get(path) !== recorded
          return (
            <li key={path} className={otherwise ? 'against' : ''}>
              <span>{says}</span>
              {typeof value === 'boolean' ? (
                <Pick
                  label={says}
                  value={value}
                  options={
                    [
                      [false, 'normal'],
                      [true, 'reversed'],
                    ] as const
                  }
                  choose={(to) => setValues(set(values, path, to))}
                />
              ) : (
                <label className="row-number">
                  <span className="visually-hidden">{says}</span>
                  <input
                    inputMode="text"
                    autoComplete="off"
                    value={value}
                    onChange={({ target }) => setValues(set(values, path, target.value))}
                  />
                  {unit}
                </label>
              )}
            </li>
          )
        })}
      </ul>
      {wrong && (
        <p className="bench-word warn" role="alert">
          One of these is no number: type figures, as -24.
        </p>
      )}
      <button type="button" className="button strong wide" disabled={wrong} onClick={() => answer(seenItems(read), 'seen')}>
        {differ === 0 ? 'All stand so' : `Note them: ${differ} against the record`}
      </button>
    </>
  )
}

export function HornsAnswer({ question, given, answer }: AnswerProps<'horns'>) {
  const before = (given?.items ?? []).map((item) => item['moves'] as { of: number; way: HornWay })
  const [ways, setWays] = useState<ReadonlyMap<number, HornWay>>(new Map(before.map(({ of, way }) => [of, way])))
  return (
    <>
      <ul className="bench-rows">
        {question.servos.map(({ of, says }) => (
          <li key={of}>
            <span>{says}</span>
            <Pick
              label={says}
              value={ways.get(of)}
              options={
                [
                  ['up', 'up'],
                  ['down', 'down'],
                  ['none', 'still'],
                ] as const
              }
              choose={(way) => setWays(set(ways, of, way))}
            />
          </li>
        ))}
      </ul>
      <button
        type="button"
        className="button strong wide"
        disabled={ways.size === 0}
        onClick={() => answer(hornItems(ways), 'seen')}
      >
        That is what they do
      </button>
    </>
  )
}

const ARROWS: Readonly<Record<Tip, string>> = {
  'forward left': '↖',
  forward: '↑',
  'forward right': '↗',
  left: '←',
  none: '·',
  right: '→',
  'aft left': '↙',
  aft: '↓',
  'aft right': '↘',
}

export function TipAnswer({ question, given, answer }: AnswerProps<'tip'>) {
  return (
    <div className="tip-pad" role="group" aria-label="The edge that goes down">
      <span className="tip-nose" aria-hidden>
        nose
      </span>
      {TIPS.flat().map((tip) => (
        <button
          key={tip}
          type="button"
          className="button"
          aria-pressed={given?.id === tip}
          onClick={() => answer(tipItems(question, tip), tip)}
        >
          <span className="tip-arrow" aria-hidden>
            {ARROWS[tip]}
          </span>
          {TIP_WORDS[tip]}
        </button>
      ))}
      <span className="tip-nose" aria-hidden>
        tail
      </span>
    </div>
  )
}
