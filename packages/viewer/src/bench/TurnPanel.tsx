/** What to turn, in order: what is replaced first, then what a hand turns, one step at a time, each checked before the next. */
import type { Plan } from '@swashtrue/mixing/bench'
import { usePage } from '../ui/usePage.ts'
import { Procedure } from './Procedure.tsx'
import { StepsInHand } from './StepsInHand.tsx'
import { useBench, useBenchAnswer, useSetBench } from './useBench.ts'
import { capital, percent } from './words.ts'
import { Working } from './Working.tsx'

export function TurnPanel() {
  const bench = useBench()
  return (
    <section aria-label="What to turn">
      {bench.plan === undefined ? <Proposed /> : <StepsInHand plan={bench.plan} made={bench.made} checked={bench.checked} />}
      <Procedure />
    </section>
  )
}

/** The plan that follows from the notes at hand. */
function Proposed() {
  const set = useSetBench()
  const readings = usePage((state) => state.session.readings)
  const { answer, ...progress } = useBenchAnswer()
  if (!answer?.ok || progress.stale) {
    return (
      <>
        <h2>What to turn</h2>
        <Working {...progress} answer={answer} />
      </>
    )
  }
  const { plan } = answer
  const count = plan.adjustments.length
  const replaces = plan.replace.length > 0
  const toTurn = count === 1 ? 'one thing to turn' : `${count} things to turn`
  const title =
    count === 0 ? (replaces ? 'Replace first' : 'Leave it alone') : replaces ? `Replace first, then ${toTurn}` : capital(toTurn)
  return (
    <>
      <h2>{title}</h2>
      {replaces && (
        <ul className="bench-word warn replace-first">
          {plan.replace.map(({ part, says }) => (
            <li key={part}>{says}</li>
          ))}
        </ul>
      )}
      {count === 0 ? (
        <p>{leftAlone(plan, readings.length)}</p>
      ) : (
        <ol className="turn-list">
          {plan.adjustments.map(({ path, says }) => (
            <li key={path}>{says}</li>
          ))}
        </ol>
      )}
      {readings.length > 0 && <Meets plan={plan} />}
      <div className="bench-foot">
        {count > 0 ? (
          <button
            type="button"
            className="button strong wide"
            onClick={() => set({ plan: plan.adjustments, made: 0, checked: 0 }, 'took up the plan')}
          >
            {replaces ? 'Replaced: start turning' : 'Start turning'}
          </button>
        ) : (
          <button type="button" className="button strong wide" onClick={() => set({ stage: 'sheet' }, 'went to the sheet')}>
            To the sheet
          </button>
        )}
      </div>
    </>
  )
}

function leftAlone({ replace, asItStands }: Plan, noted: number): string {
  if (replace.length > 0) return 'Nothing is adjusted around a part that is bent or worn. Replace it, then read again.'
  if (noted === 0) return 'Nothing is noted yet, so nothing can be said to be wrong. Read first.'
  if (asItStands >= 0.5) return 'It stands within its targets as far as the readings tell.'
  return 'No change that a hand can make would surely better it yet. Read more: the causes say what would tell most.'
}

const TARGET_WORDS: readonly [keyof Plan['meets'], string][] = [
  ['level', 'Swashplate level'],
  ['zero', 'Blades at zero'],
  ['match', 'Blades alike'],
  ['ends', 'Collective ends'],
  ['cyclic', 'Cyclic size'],
  ['cross', 'No stick moves another axis'],
]

const OF_THE_TAIL = /^\/(tail|transmitter\/rudder)\//

function Meets({ plan }: { plan: Plan }) {
  return (
    <>
      <MeetsRows plan={plan} />
      {plan.adjustments.some(({ path }) => OF_THE_TAIL.test(path)) && (
        <p className="small quiet">The targets judge the main blades; the tail is put right beside them.</p>
      )}
    </>
  )
}

function MeetsRows({ plan }: { plan: Plan }) {
  return (
    <dl className="bench-meets">
      <dt className="strong-word">Chance that all targets are {plan.adjustments.length > 0 ? 'then ' : ''}met</dt>
      <dd className="strong-word">{percent(plan.meets.chance)}</dd>
      {plan.adjustments.length > 0 && (
        <>
          <dt>As it stands</dt>
          <dd>{percent(plan.asItStands)}</dd>
        </>
      )}
      {TARGET_WORDS.flatMap(([key, says]) => {
        const chance = plan.meets[key]
        return typeof chance === 'number' ? [<dt key={`${key} name`}>{says}</dt>, <dd key={key}>{percent(chance)}</dd>] : []
      })}
    </dl>
  )
}
