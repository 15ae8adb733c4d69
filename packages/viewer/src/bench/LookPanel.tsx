/** Look and move first: six questions without a gauge. */
import { ChevronLeft } from 'lucide-react'
import { useState } from 'react'
import { usePage } from '../ui/usePage.ts'
import type { WrittenItem } from './model.ts'
import { SticksPicture } from './pictures.tsx'
import { answerTo, type Question, questionsFor, severalItems, withAnswer } from './questions.ts'
import { useBench, useSetBench } from './useBench.ts'

const MID = { collective: 0, elevator: 0, aileron: 0, rudder: 0 }
const STICKS: Partial<Record<Question['picture'], typeof MID>> = {
  collective: { ...MID, collective: 0.5 },
  elevator: { ...MID, elevator: 0.6 },
  aileron: { ...MID, aileron: 0.6 },
}

export function LookPanel() {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const bench = useBench()
  const set = useSetBench()
  const questions = questionsFor(record)
  const at = Math.min(bench.question, questions.length - 1)
  const question = questions[at] as Question
  const next = (items?: readonly unknown[], did = 'answered a question'): void =>
    set(at + 1 < questions.length ? { question: at + 1 } : { stage: 'read' }, did, items)
  const given = answerTo(readings, question.id)
  const sticks = STICKS[question.picture]
  return (
    <section aria-label="Look and move">
      <p className="bench-count">Question {at + 1} of {questions.length}, no gauge yet</p>
      <h2>{question.asks}</h2>
      <p className="quiet">{question.how}</p>
      {sticks && <SticksPicture sticks={sticks} />}
      {question.several ? (
        <Several key={question.id} question={question} given={given} answer={(items, id) => next(withAnswer(readings, question.id, items, id))} />
      ) : (
        <div className="bench-answers" role="group" aria-label="Your answer">
          {question.answers.map(({ id, says, items }) => (
            <button key={id} type="button" className="button" aria-pressed={given === id} onClick={() => next(withAnswer(readings, question.id, items, id))}>
              {says}
            </button>
          ))}
        </div>
      )}
      {question.id === 'parts' && (given === 'bent' || given === 'worn') && (
        <p className="bench-word">Replace it before you go on: nothing is adjusted around a bent or worn part.</p>
      )}
      <div className="bench-foot row">
        <button type="button" className="button" disabled={at === 0} onClick={() => set({ question: at - 1 }, 'went back')}>
          <ChevronLeft size={18} aria-hidden /> Back
        </button>
        <button type="button" className="button" onClick={() => next(withAnswer(readings, question.id, [], ''), 'passed a question over')}>
          I can’t tell
        </button>
      </div>
    </section>
  )
}

function Several({ question, given, answer }: { question: Question; given: string | undefined; answer(items: readonly WrittenItem[], id: string): void }) {
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set(given === undefined ? [] : given.split(' ')))
  const toggle = (id: string): void => {
    const next = new Set(ticked)
    if (next.has(id)) next.delete(id)
    else next.add(id)
    setTicked(next)
  }
  const id = [...ticked].sort().join(' ')
  return (
    <>
      <ul className="bench-ticks">
        {question.answers.map((one) => (
          <li key={one.id}>
            <label>
              <input type="checkbox" checked={ticked.has(one.id)} onChange={() => toggle(one.id)} />
              <span>
                {one.says} <b>{ticked.has(one.id) ? 'goes up' : 'goes down'}</b>
              </span>
            </label>
          </li>
        ))}
      </ul>
      <button type="button" className="button strong wide" onClick={() => answer(severalItems(question, ticked), id)}>
        That is what they do
      </button>
    </>
  )
}
