/** First of all: nothing is read or powered before a person has said that it is safe. */
import { CAUTIONS } from '@swashtrue/mixing/bench'
import { ShieldCheck } from 'lucide-react'
import { useState } from 'react'
import { useBench, useSetBench } from './useBench.ts'

export function CautionsPanel() {
  const bench = useBench()
  const set = useSetBench()
  const [ticked, setTicked] = useState<ReadonlySet<number>>(new Set(bench.safe ? CAUTIONS.map((_, i) => i) : []))
  const all = ticked.size === CAUTIONS.length
  const toggle = (i: number): void => {
    const next = new Set(ticked)
    if (next.has(i)) next.delete(i)
    else next.add(i)
    setTicked(next)
  }
  return (
    <section aria-label="Make safe">
      <h2>Make safe first</h2>
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
        <button type="button" className="button strong wide" disabled={!all} onClick={() => set({ safe: true, stage: 'look' }, 'confirmed the cautions')}>
          <ShieldCheck size={20} aria-hidden /> It is safe: go on
        </button>
        {bench.safe && (
          <button type="button" className="button wide" onClick={() => set({ safe: false, stage: 'cautions' }, 'took the cautions back')}>
            Not safe any more: stop
          </button>
        )}
      </div>
    </section>
  )
}
