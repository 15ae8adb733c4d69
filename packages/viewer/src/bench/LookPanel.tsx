/** Look and move first: a few questions without a gauge. */
import { ChevronLeft } from 'lucide-react'
import type { ReactNode } from 'react'
import { usePage } from '../ui/usePage.ts'
import { ChoiceAnswer, HornsAnswer, LeadsAnswer, PartsAnswer, SettingsAnswer, TipAnswer } from './LookAnswers.tsx'
import { MeasureUp } from './MeasureUp.tsx'
import type { WrittenItem } from './model.ts'
import { SticksPicture } from './pictures.tsx'
import { answerTo, type Question, questionsFor, recordNow, withAnswer } from './questions.ts'
import { useBench, useSetBench } from './useBench.ts'

export function LookPanel() {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const bench = useBench()
  const set = useSetBench()
  const now = recordNow(record, readings)
  const questions = questionsFor(now)
  const at = Math.min(bench.question, questions.length - 1)
  const question = questions[at] as Question
  const next = (items: readonly unknown[], did: string): void =>
    set(at + 1 < questions.length ? { question: at + 1 } : { stage: 'read' }, did, items)
  const given = answerTo(readings, question.id)
  const answer = (items: readonly WrittenItem[], id: string): void =>
    next(withAnswer(readings, question.id, items, id), `answered: ${question.asks}`)
  return (
    <section aria-label="Look and move">
      <div>
        <p className="bench-count">
          Question {at + 1} of {questions.length}, no gauge yet
        </p>
        <h2>{question.asks}</h2>
        <p className="quiet">{question.how}</p>
      </div>
      {question.sticks && <SticksPicture sticks={question.sticks} />}
      <Answers key={question.id} question={question} given={given} items={readings} answer={answer} />
      <div className="bench-foot row">
        <button
          type="button"
          className="button"
          disabled={at === 0}
          onClick={() => set({ question: at - 1 }, 'went back a question')}
        >
          <ChevronLeft size={18} aria-hidden /> Back
        </button>
        <button
          type="button"
          className="button"
          onClick={() => next(withAnswer(readings, question.id, [], ''), 'passed a question over')}
        >
          I can’t tell
        </button>
      </div>
      <MeasureUp />
    </section>
  )
}

interface AnswersProps {
  question: Question
  given: ReturnType<typeof answerTo>
  items: readonly unknown[]
  answer(items: readonly WrittenItem[], id: string): void
}

function Answers({ question, ...rest }: AnswersProps): ReactNode {
  switch (question.kind) {
    case 'choice':
      return <ChoiceAnswer question={question} {...rest} />
    case 'parts':
      return <PartsAnswer question={question} {...rest} />
    case 'leads':
      return <LeadsAnswer question={question} {...rest} />
    case 'settings':
      return <SettingsAnswer question={question} {...rest} />
    case 'horns':
      return <HornsAnswer question={question} {...rest} />
    case 'tip':
      return <TipAnswer question={question} {...rest} />
  }
}
