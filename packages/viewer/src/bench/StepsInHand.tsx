/** A plan that is being worked through: a step is turned, its second reading taken, and only then comes the next. */
import type { Adjustment, Foretold } from '@swashtrue/mixing/bench'
import { Check, Undo2 } from 'lucide-react'
import { usePage } from '../ui/usePage.ts'
import { asForetold, type BenchPlace, isBetweenLeads, notedAt, placeOf, stepBack, stepMade, withReading } from './model.ts'
import { NumberEntry } from './NumberEntry.tsx'
import { PlaceCard } from './PlaceCard.tsx'
import { useSetBench } from './useBench.ts'
import { rangeInWords, sticksInWords, titleOf, valueInWords } from './words.ts'

export function StepsInHand({ plan, made, checked }: { plan: readonly Adjustment[]; made: number; checked: number }) {
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  const last = made > 0 ? plan[made - 1] : undefined
  const betweenLeads = isBetweenLeads(plan, made)
  const awaits = !betweenLeads && last?.after[0] !== undefined && checked < made
  const step = plan[made]
  return (
    <>
      <p className="bench-count">
        {made} of {plan.length} turned
      </p>
      {last && !betweenLeads && <SecondReading step={last} made={made} awaits={awaits} />}
      {!awaits && (step ? <NextStep step={step} made={made} tells={!isBetweenLeads(plan, made + 1)} /> : <AllTurned />)}
      <div className="bench-foot row">
        <button
          type="button"
          className="button"
          disabled={made === 0}
          onClick={() =>
            set({ made: made - 1, checked: Math.min(checked, made - 1) }, 'turned a step back', stepBack(readings, made - 1))
          }
        >
          <Undo2 size={18} aria-hidden /> Turned it back
        </button>
        <button
          type="button"
          className="button plain"
          onClick={() => set({ plan: undefined, made: 0, checked: 0 }, 'put the plan away')}
        >
          Plan anew from here
        </button>
      </div>
    </>
  )
}

/** `tells`: whether something can be read after it. */
function NextStep({ step, made, tells }: { step: Adjustment; made: number; tells: boolean }) {
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  return (
    <div className="turn-step">
      <h2>{step.says}</h2>
      {tells && step.after.length > 0 && (
        <ul className="place-words">
          {step.after.slice(0, 2).map((told) => (
            <ForetoldWords key={JSON.stringify(told)} told={told} />
          ))}
        </ul>
      )}
      <button
        type="button"
        className="button strong wide"
        onClick={() => set({ made: made + 1 }, `turned: ${step.says}`, stepMade(readings, step, made))}
      >
        <Check size={20} aria-hidden /> Turned
      </button>
    </div>
  )
}

function AllTurned() {
  const set = useSetBench()
  return (
    <>
      <h2>All turned</h2>
      <p>Take a fresh set of readings: they decide whether anything is left to turn.</p>
      <button
        type="button"
        className="button strong wide"
        onClick={() => set({ plan: undefined, made: 0, checked: 0, stage: 'read', place: 0 }, 'went to read again')}
      >
        Read again
      </button>
      <button
        type="button"
        className="button wide"
        onClick={() => set({ plan: undefined, made: 0, checked: 0, stage: 'sheet' }, 'went to the sheet')}
      >
        To the sheet
      </button>
    </>
  )
}

function ForetoldWords({ told }: { told: Foretold }) {
  const record = usePage((state) => state.session.record)
  return (
    <li>
      {titleOf(record, told)}, {sticksInWords(told).toLowerCase()}: should then show <b>{valueInWords(told, told.value)}</b> (
      {rangeInWords(told)})
    </li>
  )
}

/** After a step: the reading that tells whether it did what was foretold. */
function SecondReading({ step, made, awaits }: { step: Adjustment; made: number; awaits: boolean }) {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  const told = step.after[0]
  if (!told) return null
  const place: BenchPlace = placeOf(told, record)
  const value = notedAt(readings, place.key)?.value
  if (!awaits && value === undefined) return null
  const good = value !== undefined && asForetold(value, told)
  return (
    <div className="bench-inline">
      {value === undefined ? (
        <>
          <p className="quiet">Check the step before the next one.</p>
          <PlaceCard rig={record} place={place} />
          <p>
            It should show <b>{valueInWords(told, told.value)}</b> ({rangeInWords(told)}).
          </p>
        </>
      ) : (
        <p className={good ? 'bench-word' : 'bench-word warn'} role="status">
          {titleOf(record, place)}: {valueInWords(place, value)}.{' '}
          {good
            ? 'As foretold: go on.'
            : `Not as foretold (${rangeInWords(told)}): stop. The step may have gone the wrong way, or the cause is another. Read once more; then turn it back, or plan anew from here.`}
        </p>
      )}
      <NumberEntry
        key={`${place.key} ${value}`}
        place={place}
        value={value}
        label={value === undefined ? 'Note it' : 'Change it'}
        note={(read) =>
          set(
            asForetold(read, told) ? { checked: made } : { checked: made - 1 },
            `noted ${titleOf(record, place)}`,
            withReading(readings, place, read),
          )
        }
      />
      {awaits && (
        <button type="button" className="button wide" onClick={() => set({ checked: made }, 'went on without the check')}>
          {value === undefined ? 'Go on without reading' : 'Go on all the same'}
        </button>
      )}
    </div>
  )
}
