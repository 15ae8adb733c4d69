/** What the readings say: causes and how sure, which cannot be told apart yet, what would tell most, which reading fits nothing. */
import { describePath } from '@swashtrue/mixing'
import type { Cause, Diagnosis } from '@swashtrue/mixing/bench'
import { Eye } from 'lucide-react'
import { useMemo, useState } from 'react'
import { usePage, usePageStore } from '../ui/usePage.ts'
import { Limits } from './Limits.tsx'
import type { WrittenItem } from './model.ts'
import { NextThings } from './NextThings.tsx'
import { believedChanges, isShown } from './steps.ts'
import { useBenchAnswer, useSetBench } from './useBench.ts'
import { itemInWords, percent } from './words.ts'
import { Working } from './Working.tsx'

const SHOWN = 5
const LEAST_SHOWN = 0.02

export function CausesPanel() {
  const set = useSetBench()
  const readings = usePage((state) => state.session.readings)
  const { answer, ...progress } = useBenchAnswer()
  return (
    <section aria-label="Causes" aria-busy={progress.working}>
      <h2>What the readings say</h2>
      <Working {...progress} answer={answer} />
      {answer?.ok && (
        <>
          {readings.length === 0 ? <NothingNoted /> : <CauseList diagnosis={answer.diagnosis} />}
          {readings.length > 0 && <Unseen paths={answer.diagnosis.unseen} />}
          <Outliers places={answer.diagnosis.outliers} />
          <div className="bench-foot">
            <button type="button" className="button strong wide" onClick={() => set({ stage: 'turn' }, 'went to what to turn')}>
              What to turn
            </button>
          </div>
          <NextThings next={answer.diagnosis.next} />
          <Limits />
        </>
      )}
    </section>
  )
}

function NothingNoted() {
  const set = useSetBench()
  return (
    <>
      <p className="bench-word">Nothing is noted yet, so nothing can be said. Look and read first.</p>
      <button type="button" className="button strong wide" onClick={() => set({ stage: 'look', question: 0 }, 'went to look')}>
        Look and read
      </button>
    </>
  )
}

const UNSEEN_SHOWN = 4

/** What nothing noted so far could show: it is not ruled out, only not looked at. */
function Unseen({ paths }: { paths: readonly string[] }) {
  const record = usePage((state) => state.session.record)
  const words = [...new Set(paths.map((path) => describePath(record, path)))]
  if (words.length === 0) return null
  const more = words.length - UNSEEN_SHOWN
  return (
    <p className="bench-word">
      Not ruled out, for nothing noted so far would show it: {words.slice(0, UNSEEN_SHOWN).join(', ')}
      {more > 0 ? `, and ${more} more` : ''}.
    </p>
  )
}

function CauseList({ diagnosis }: { diagnosis: Diagnosis }) {
  const { causes, alike } = diagnosis
  // What is all but ruled out is left off, but never an alike of the first.
  const likely = causes.filter(({ probability }) => probability >= LEAST_SHOWN).length
  const shown = Math.min(SHOWN, Math.max(1, likely, ...(alike.find((group) => group.includes(0)) ?? []).map((i) => i + 1)))
  const groupOf = (i: number): number[] => alike.find((group) => group.includes(i)) ?? [i]
  return (
    <ol className="bench-causes">
      {causes.slice(0, shown).map((cause, i) => {
        const group = groupOf(i).filter((one) => one < shown)
        const isFirst = group[0] === i
        return (
          <li key={`${i} ${cause.says}`} className={group.length > 1 ? 'alike' : ''}>
            {group.length > 1 && isFirst && <p className="alike-word">These {group.length} cannot be told apart yet:</p>}
            <CauseCard cause={cause} />
          </li>
        )
      })}
    </ol>
  )
}

/** A cause, how sure it is, and the machine as it would then stand, with the record as its ghost. */
function CauseCard({ cause }: { cause: Cause }) {
  const store = usePageStore()
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const changes = usePage((state) => state.session.changes)
  const believed = useMemo(() => believedChanges(record, cause, readings), [record, cause, readings])
  const shown = isShown(changes, believed)
  const show = (): void =>
    store
      .getState()
      .setBench(
        { changes: shown ? [] : believed },
        shown ? 'showed the machine as recorded' : 'showed the machine as it is believed to be',
      )
  return (
    <>
      <div className="cause-words">
        <p>{cause.says}</p>
        <b>{percent(cause.probability)}</b>
      </div>
      <div className="cause-bar" aria-hidden>
        <span style={{ width: `${Math.max(1, 100 * cause.probability)}%` }} />
      </div>
      {believed.length > 0 && (
        <button type="button" className="button plain" aria-pressed={shown} onClick={show}>
          <Eye size={18} aria-hidden /> {shown ? 'Shown: solid as it is, ghost as recorded' : 'Show it on the machine'}
        </button>
      )}
    </>
  )
}

function Outliers({ places }: { places: readonly number[] }) {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  const [kept, setKept] = useState<readonly number[]>([])
  const open = places.filter((i) => !kept.includes(i))
  if (open.length === 0) return null
  return (
    <div className="bench-word warn" role="status">
      <p>
        {open.length === 1 ? 'One reading fits nothing' : `${open.length} readings fit nothing`}: left aside here. Read again
        there if you can.
      </p>
      {open.map((i) => {
        const item = readings[i] as WrittenItem
        return (
          <div key={i} className="field-line">
            <span>{itemInWords(record, item)}</span>
            <span className="row">
              <button
                type="button"
                className="button"
                onClick={() =>
                  set(
                    {},
                    'took a reading out',
                    readings.filter((_, at) => at !== i),
                  )
                }
              >
                Take it out
              </button>
              <button type="button" className="button plain" onClick={() => setKept([...kept, i])}>
                Keep
              </button>
            </span>
          </div>
        )
      })}
    </div>
  )
}
