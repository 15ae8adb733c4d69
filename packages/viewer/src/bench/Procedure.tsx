/** The whole order of the bench, to be ticked off: what a plan's steps are part of. */
import { procedureFor } from '@swashtrue/mixing/bench'
import { usePage } from '../ui/usePage.ts'
import { useBench, useSetBench } from './useBench.ts'

export function Procedure() {
  const record = usePage((state) => state.session.record)
  const bench = useBench()
  const set = useSetBench()
  const ticked = new Set(bench.ticked)
  const steps = procedureFor(record)
  return (
    <details className="bench-more">
      <summary>
        The whole order, from the beginning ({steps.filter(({ name }) => ticked.has(name)).length} of {steps.length} done)
      </summary>
      <ol className="bench-ticks">
        {steps.map(({ name, says }) => (
          <li key={name}>
            <label>
              <input
                type="checkbox"
                checked={ticked.has(name)}
                onChange={() => set({ ticked: ticked.has(name) ? bench.ticked.filter((one) => one !== name) : [...bench.ticked, name] }, `ticked: ${says}`)}
              />
              <span>{says}</span>
            </label>
          </li>
        ))}
      </ol>
    </details>
  )
}
