/** First of all: nothing is read or powered before a person has said that it is safe. */
import { CAUTIONS } from '@swashtrue/mixing/bench'
import { FlaskConical, ShieldCheck } from 'lucide-react'
import { useState } from 'react'
import { usePageStore } from '../ui/usePage.ts'
import { demoBench } from './demo.ts'
import { FRESH_BENCH, isSafe } from './model.ts'
import { useBench, useSetBench } from './useBench.ts'

export function CautionsPanel() {
  const bench = useBench()
  const set = useSetBench()
  const store = usePageStore()
  const safe = isSafe(bench, Date.now())
  const [ticked, setTicked] = useState<ReadonlySet<number>>(new Set(safe ? CAUTIONS.map((_, i) => i) : []))
  const all = ticked.size === CAUTIONS.length
  const toggle = (i: number): void => {
    const next = new Set(ticked)
    if (next.has(i)) next.delete(i)
    else next.add(i)
    setTicked(next)
  }
  // A plan or a reading that was in hand when the tab was closed is taken up again where it was.
  const goOn = (): void =>
    set({ safeAt: Date.now(), stage: bench.stage === 'cautions' ? 'look' : bench.stage }, 'confirmed the cautions')
  const tryDemo = (): void => {
    const { record, items, instruments } = demoBench()
    store.getState().open(record, 'opened the demo machine')
    set({ ...FRESH_BENCH, ...instruments, stage: 'read' }, 'laid the demo readings on the bench', items)
  }
  return (
    <section aria-label="Make safe">
      <h2>{bench.safeAt !== undefined && !safe ? 'Some hours have passed: make safe again' : 'Make safe first'}</h2>
      <p className="quiet">Tick each one at the machine, not from memory.</p>
      <ul className="bench-ticks cautions">
        {CAUTIONS.map((text, i) => (
          <li key={text}>
            <label>
              <input type="checkbox" checked={ticked.has(i)} onChange={() => toggle(i)} />
              <span>{text}</span>
            </label>
          </li>
        ))}
      </ul>
      <div className="bench-foot">
        <button type="button" className="button strong wide" disabled={!all} onClick={goOn}>
          <ShieldCheck size={20} aria-hidden /> It is safe: go on
        </button>
        {safe && (
          <button
            type="button"
            className="button wide"
            onClick={() => set({ safeAt: undefined, stage: 'cautions' }, 'took the cautions back')}
          >
            Not safe any more: stop
          </button>
        )}
      </div>
      <div className="bench-demo">
        <p>No machine at hand?</p>
        <button type="button" className="button" onClick={tryDemo}>
          <FlaskConical size={18} aria-hidden /> Try it with the demo readings
        </button>
        <p className="small quiet">
          Opens the demo machine with readings noted: find what is wrong. What you have noted goes; undo brings it back.
        </p>
      </div>
    </section>
  )
}
