/** What the readings say: causes and how sure, which cannot be told apart yet, what would tell most, which reading fits nothing. */
import type { Change } from '@swashtrue/mixing'
import type { Cause, Diagnosis } from '@swashtrue/mixing/bench'
import { Eye } from 'lucide-react'
import { useState } from 'react'
import { usePage, usePageStore } from '../ui/usePage.ts'
import { Limits } from './Limits.tsx'
import type { WrittenItem } from './model.ts'
import { NextThings } from './NextThings.tsx'
import { useBenchAnswer, useSetBench } from './useBench.ts'
import { percent } from './words.ts'
import { Working } from './Working.tsx'

const SHOWN = 5

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
          {readings.length === 0 ? (
            <p className="bench-word">Nothing is noted yet: these are only what is common.</p>
          ) : null}
          <CauseList diagnosis={answer.diagnosis} />
          <Outliers places={answer.diagnosis.outliers} />
          <NextThings next={answer.diagnosis.next} />
          <div className="bench-foot">
            <button type="button" className="button strong wide" onClick={() => set({ stage: 'turn' }, 'went to what to turn')}>
              What to turn
            </button>
          </div>
          <Limits />
        </>
      )}
    </section>
  )
}

function CauseList({ diagnosis }: { diagnosis: Diagnosis }) {
  const { causes, alike } = diagnosis
  const groupOf = (i: number): number[] => alike.find((group) => group.includes(i)) ?? [i]
  return (
    <ol className="bench-causes">
      {causes.slice(0, SHOWN).map((cause, i) => {
        const group = groupOf(i).filter((one) => one < SHOWN)
        const isFirst = group[0] === i
        return (
          <li key={cause.says} className={group.length > 1 ? 'alike' : ''}>
            {group.length > 1 && isFirst && <p className="alike-word">These {group.length} cannot be told apart yet:</p>}
            <CauseCard cause={cause} />
          </li>
        )
      })}
    </ol>
  )
}

/** The changes that make the drawn machine the one that a cause describes. */
const changesOf = (cause: Cause): Change[] =>
  cause.changes.filter(({ document }) => document !== 'readings').map(({ path, machine }) => ({ path, to: machine }))

function CauseCard({ cause }: { cause: Cause }) {
  const store = usePageStore()
  const shown = usePage((state) => {
    const wanted = changesOf(cause)
    return wanted.length > 0 && wanted.length === state.session.changes.length && wanted.every(({ path }) => state.session.changes.some((change) => change.path === path))
  })
  const show = (): void => {
    store.getState().takeAllBack()
    if (!shown) store.getState().change(changesOf(cause), 'showed the machine as it is believed to be')
  }
  return (
    <>
      <div className="cause-words">
        <p>{cause.says}</p>
        <b>{percent(cause.probability)}</b>
      </div>
      <div className="cause-bar" aria-hidden>
        <span style={{ width: `${Math.max(1, 100 * cause.probability)}%` }} />
      </div>
      {changesOf(cause).length > 0 && (
        <button type="button" className="button plain" aria-pressed={shown} onClick={show}>
          <Eye size={18} aria-hidden /> {shown ? 'Shown on the machine' : 'Show it on the machine'}
        </button>
      )}
    </>
  )
}

function Outliers({ places }: { places: readonly number[] }) {
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  const [kept, setKept] = useState<readonly number[]>([])
  const open = places.filter((i) => !kept.includes(i))
  if (open.length === 0) return null
  return (
    <div className="bench-word warn" role="status">
      <p>{open.length === 1 ? 'One reading fits nothing' : `${open.length} readings fit nothing`}; it was left aside. Read it again if you can.</p>
      {open.map((i) => {
        const item = readings[i] as WrittenItem
        return (
          <div key={i} className="field-line">
            <span>
              Note {i + 1}: {String(item?.['measure'] ?? 'item')} {item?.['of'] === undefined ? '' : String(item['of'])}, {String(item?.['value'] ?? '')}
            </span>
            <span className="row">
              <button type="button" className="button" onClick={() => set({}, 'took a reading out', readings.filter((_, at) => at !== i))}>
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

