/** The whole order of the bench, to be ticked off: what a plan's steps are part of. The tail's own check stands in its place. */
import { type Rig, TAIL_CAUTIONS, tailCheck } from '@swashtrue/mixing'
import { procedureFor } from '@swashtrue/mixing/bench'
import { useMemo } from 'react'
import { usePage } from '../ui/usePage.ts'
import { recordNow } from './questions.ts'
import { useBench, useSetBench } from './useBench.ts'

export function Procedure() {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const bench = useBench()
  const set = useSetBench()
  const now = useMemo(() => recordNow(record, readings), [record, readings])
  const ticked = new Set(bench.ticked)
  const steps = procedureFor(record)
  return (
    <details className="bench-more">
      <summary>
        The whole order ({steps.filter(({ name }) => ticked.has(name)).length} of {steps.length} done)
      </summary>
      <ol className="bench-ticks">
        {steps.map(({ name, says }) => (
          <li key={name}>
            <label>
              <input
                type="checkbox"
                checked={ticked.has(name)}
                onChange={() =>
                  set(
                    { ticked: ticked.has(name) ? bench.ticked.filter((one) => one !== name) : [...bench.ticked, name] },
                    `ticked: ${says}`,
                  )
                }
              />
              <span>{says}</span>
            </label>
            {name === 'tail-centre' && <TailWords rig={now} />}
          </li>
        ))}
      </ol>
    </details>
  )
}

/** What the check says of the tail as recorded, with all that was turned since. */
function TailWords({ rig }: { rig: Rig }) {
  const check = useMemo(() => tailCheck(rig), [rig])
  return (
    <div className="bench-word tail-words">
      <p className="strong-word">The tail by its record</p>
      {TAIL_CAUTIONS.map((says) => (
        <p key={says} className="small">
          {says}
        </p>
      ))}
      {check.says.map((says) => (
        <p key={says}>{says}</p>
      ))}
      {check.adjustments.map(({ path, says }) => (
        <p key={path} className="strong-word">
          {says}
        </p>
      ))}
    </div>
  )
}
