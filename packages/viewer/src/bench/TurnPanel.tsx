/** What to turn, in order: one step at a time, ticked, undone, and checked by a second reading before the next. */
import { Check, Undo2 } from 'lucide-react'
import type { Adjustment, Foretold, Plan } from '@swashtrue/mixing/bench'
import { usePage } from '../ui/usePage.ts'
import { asForetold, type BenchPlace, notedAt, placeOf, type WrittenItem, withReading } from './model.ts'
import { NumberEntry } from './NumberEntry.tsx'
import { PlaceCard } from './PlaceCard.tsx'
import { Procedure } from './Procedure.tsx'
import { useBench, useBenchAnswer, useSetBench } from './useBench.ts'
import { percent, titleOf, valueInWords } from './words.ts'
import { Working } from './Working.tsx'

export function TurnPanel() {
  const bench = useBench()
  return (
    <section aria-label="What to turn">
      {bench.plan === undefined ? <Proposed /> : <InHand plan={bench.plan} made={bench.made} />}
      <Procedure />
    </section>
  )
}

/** The plan that follows from the notes at hand. */
function Proposed() {
  const set = useSetBench()
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
  return (
    <>
      <h2>{plan.adjustments.length === 0 ? 'Leave it alone' : plan.adjustments.length === 1 ? 'One thing to turn' : `${plan.adjustments.length} things to turn`}</h2>
      {plan.replace.map(({ part, says }) => (
        <p key={part} className="bench-word warn">
          Replace first: {part}. {says}
        </p>
      ))}
      {plan.adjustments.length === 0 ? (
        <p>{plan.says === '' ? 'As far as the readings tell, it stands within its targets, or nothing that a hand can turn would better it for sure.' : plan.says}</p>
      ) : (
        <ol className="turn-list">
          {plan.adjustments.map(({ path, says }) => (
            <li key={path}>{says}</li>
          ))}
        </ol>
      )}
      <Meets plan={plan} />
      <div className="bench-foot">
        {plan.adjustments.length > 0 ? (
          <button type="button" className="button strong wide" onClick={() => set({ plan: plan.adjustments, made: 0 }, 'took up the plan')}>
            Start turning
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

const TARGET_WORDS: readonly [keyof Plan['meets'], string][] = [
  ['level', 'Swashplate level'],
  ['zero', 'Blades at zero'],
  ['match', 'Blades alike'],
  ['ends', 'Collective ends'],
  ['cyclic', 'Cyclic size'],
  ['cross', 'Nothing moving along'],
]

function Meets({ plan }: { plan: Plan }) {
  return (
    <dl className="bench-meets">
      <dt className="strong-word">All targets then met</dt>
      <dd className="strong-word">{percent(plan.meets.chance)}</dd>
      {TARGET_WORDS.flatMap(([key, says]) => {
        const chance = plan.meets[key]
        return typeof chance === 'number' ? [<dt key={`${key} name`}>{says}</dt>, <dd key={key}>{percent(chance)}</dd>] : []
      })}
    </dl>
  )
}

/** A plan that is being worked through. */
function InHand({ plan, made }: { plan: readonly Adjustment[]; made: number }) {
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  const step = plan[made]
  const last = made > 0 ? plan[made - 1] : undefined
  const tick = (): void => {
    if (!step) return
    const { path, by, to } = step
    const item: WrittenItem = { adjusted: by === undefined ? { path, to } : { path, by }, 'x-step': made }
    set({ made: made + 1 }, `turned: ${step.says}`, [...readings, item])
  }
  const untick = (): void => {
    const at = readings.findLastIndex((item) => (item as WrittenItem)['x-step'] === made - 1)
    set({ made: made - 1 }, 'took a step back', at < 0 ? readings : readings.slice(0, at))
  }
  return (
    <>
      <p className="bench-count">
        {made} of {plan.length} turned
      </p>
      {last && <SecondReading rigStep={last} />}
      {step ? (
        <div className="turn-step">
          <h2>{step.says}</h2>
          <ul className="place-words">
            {step.after.slice(0, 3).map((told) => (
              <ForetoldWords key={JSON.stringify(told)} told={told} />
            ))}
          </ul>
          <button type="button" className="button strong wide" onClick={tick}>
            <Check size={20} aria-hidden /> Turned
          </button>
        </div>
      ) : (
        <>
          <h2>All turned</h2>
          <p>Take a fresh set of readings now: what they say decides whether anything is left to turn.</p>
          <button type="button" className="button strong wide" onClick={() => set({ plan: undefined, made: 0, stage: 'read', place: 0 }, 'went to read again')}>
            Read again
          </button>
          <button type="button" className="button wide" onClick={() => set({ plan: undefined, made: 0, stage: 'sheet' }, 'went to the sheet')}>
            To the sheet
          </button>
        </>
      )}
      <div className="bench-foot row">
        <button type="button" className="button" disabled={made === 0} onClick={untick}>
          <Undo2 size={18} aria-hidden /> Turned it back
        </button>
        <button type="button" className="button plain" onClick={() => set({ plan: undefined, made: 0 }, 'put the plan away')}>
          Plan anew from here
        </button>
      </div>
    </>
  )
}

function ForetoldWords({ told }: { told: Foretold }) {
  const record = usePage((state) => state.session.record)
  return (
    <li>
      {titleOf(record, told)} should then show <b>{valueInWords(told, told.value)}</b>, {valueInWords(told, told.value - 1.96 * told.sd)} to {valueInWords(told, told.value + 1.96 * told.sd)} is as foretold
    </li>
  )
}

/** After a step: the reading that tells whether it did what was foretold. */
function SecondReading({ rigStep }: { rigStep: Adjustment }) {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  const told = rigStep.after[0]
  if (!told) return null
  const place: BenchPlace = placeOf(told, record)
  const value = notedAt(readings, place.key)?.value
  const good = value === undefined ? undefined : asForetold(value, told)
  return (
    <div className="bench-inline">
      <h3>Check the last step before the next</h3>
      {good === undefined && <PlaceCard rig={record} place={place} />}
      {good !== undefined && (
        <p className={good ? 'bench-word' : 'bench-word warn'} role="status">
          {titleOf(record, place)}: {valueInWords(place, value as number)}.{' '}
          {good
            ? 'As foretold: go on.'
            : `Not as foretold (${valueInWords(told, told.value - 1.96 * told.sd)} to ${valueInWords(told, told.value + 1.96 * told.sd)}): stop. The step may have gone the wrong way, or the cause is another. Turn it back, or plan anew from here.`}
        </p>
      )}
      <NumberEntry
        key={`${place.key} ${value}`}
        place={place}
        value={value}
        label={value === undefined ? 'Note it' : 'Change it'}
        note={(read) => set({}, `noted ${titleOf(record, place)}`, withReading(readings, place, read))}
      />
    </div>
  )
}
