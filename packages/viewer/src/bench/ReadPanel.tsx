/** One reading at a time: where the gauge sits, which way the blade points, where the stick is, and a number. */
import { ChevronLeft, ChevronRight } from 'lucide-react'
import { usePage } from '../ui/usePage.ts'
import {
  type BenchPlace,
  bindsAt,
  flipSplit,
  mayBind,
  notedAt,
  placesOf,
  withBindTurned,
  withoutReading,
  withReading,
} from './model.ts'
import { NumberEntry } from './NumberEntry.tsx'
import { PlaceCard } from './PlaceCard.tsx'
import { useBench, useSetBench } from './useBench.ts'
import { sticksInWords, titleOf, valueInWords } from './words.ts'

export function ReadPanel() {
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const bench = useBench()
  const set = useSetBench()
  const places = placesOf(record, bench.set, bench.zeroSdDeg > 0)
  const at = Math.min(bench.place, places.length - 1)
  const place = places[at] as BenchPlace
  const noted = notedAt(readings, place.key)
  const binds = bindsAt(readings, place.key)
  const taken = places.filter(({ key }) => notedAt(readings, key)).length
  const go = (to: number, did: string, items?: readonly unknown[]): void =>
    set(to >= places.length ? { stage: 'causes' } : { place: Math.max(0, to) }, did, items)
  return (
    <section aria-label="Readings">
      <div>
        <div className="bench-progress" role="img" aria-label={`${taken} of ${places.length} readings taken`}>
          {places.map(({ key }, i) => (
            <span key={key} className={`${notedAt(readings, key) ? 'taken' : ''} ${i === at ? 'here' : ''}`} />
          ))}
        </div>
        <p className="bench-count">
          Reading {at + 1} of {places.length}, {taken} taken
        </p>
      </div>
      <PlaceCard rig={record} place={place} />
      <NumberEntry
        key={`${place.key} ${noted?.value}`}
        place={place}
        value={noted?.value}
        label={noted ? 'Change it' : 'Note it'}
        note={(value) => go(at + 1, `noted ${titleOf(record, place)}`, withReading(readings, place, value))}
      />
      {place.flipped && <FlipWord places={places} at={at} readings={readings} />}
      <div className="bench-foot row">
        <button type="button" className="button" disabled={at === 0} onClick={() => go(at - 1, 'went back')}>
          <ChevronLeft size={18} aria-hidden /> Back
        </button>
        <button type="button" className="button" onClick={() => go(at + 1, noted ? 'went on' : 'passed a reading over')}>
          {noted ? 'Next' : 'Can’t read it'} <ChevronRight size={18} aria-hidden />
        </button>
        {noted && (
          <button
            type="button"
            className="button plain"
            onClick={() => set({}, 'took a reading out', withoutReading(readings, place))}
          >
            Take it out
          </button>
        )}
      </div>
      {mayBind(place) && (
        <button
          type="button"
          className="button plain"
          aria-pressed={binds}
          onClick={() =>
            go(
              binds ? at : at + 1,
              binds ? 'took a bind out' : `noted a bind: ${sticksInWords(place).toLowerCase()}`,
              withBindTurned(readings, place),
            )
          }
        >
          {binds ? 'Noted: it binds here' : 'It binds or hums here: note that'}
        </button>
      )}
      <button
        type="button"
        className="button wide"
        disabled={taken === 0}
        onClick={() => set({ stage: 'causes' }, 'asked for the causes')}
      >
        What do they say so far?
      </button>
      <details key={place.key} className="bench-more">
        <summary>Set, gauge and bench</summary>
        <div className="segments" role="group" aria-label="Which set">
          <button
            type="button"
            aria-pressed={bench.set === 'standard'}
            onClick={() => set({ set: 'standard', place: 0 }, 'chose the standard set')}
          >
            Standard, 25 minutes
          </button>
          <button
            type="button"
            aria-pressed={bench.set === 'short'}
            onClick={() => set({ set: 'short', place: 0 }, 'chose the short set')}
          >
            Short
          </button>
        </div>
        <p className="small quiet">{SET_WORDS}</p>
        <Spread
          name="Gauge’s own zero, unknown by"
          value={bench.zeroSdDeg}
          set={(zeroSdDeg) => set({ zeroSdDeg }, 'said how far the gauge’s zero may be off')}
        />
        <Spread
          name="Mast may lean by"
          value={bench.leanSdDeg}
          set={(leanSdDeg) => set({ leanSdDeg }, 'said how far the mast may lean')}
        />
        <div className="field-line">
          <span>Leveller reads against</span>
          <div className="segments" role="group" aria-label="Leveller reads against">
            {(['shaft', 'gravity'] as const).map((one) => (
              <button
                key={one}
                type="button"
                aria-pressed={bench.leveller === one}
                onClick={() => set({ leveller: one }, 'said what the leveller reads against')}
              >
                {one === 'shaft' ? 'the mast' : 'gravity'}
              </button>
            ))}
          </div>
        </div>
        <ol className="bench-list">
          {places.map((one, i) => {
            const value = notedAt(readings, one.key)?.value
            return (
              <li key={one.key}>
                <button type="button" aria-current={i === at ? 'true' : undefined} onClick={() => go(i, 'went to a reading')}>
                  <span>
                    {titleOf(record, one)}
                    {one.flipped ? ', gauge turned round' : ''}
                  </span>
                  <b>{value !== undefined ? valueInWords(one, value) : bindsAt(readings, one.key) ? 'binds' : 'not taken'}</b>
                </button>
              </li>
            )
          })}
        </ol>
      </details>
    </section>
  )
}

/** What the flip check says once both readings of it are there. */
function FlipWord({ places, at, readings }: { places: readonly BenchPlace[]; at: number; readings: readonly unknown[] }) {
  const before = places[at - 1]
  const read = before && notedAt(readings, before.key)?.value
  const flipped = notedAt(readings, (places[at] as BenchPlace).key)?.value
  if (read === undefined || flipped === undefined) {
    return (
      <p className="bench-word">
        The same place, gauge turned end for end: half the sum is the gauge’s own zero, half the difference the pitch.
      </p>
    )
  }
  const { zeroDeg, pitchDeg } = flipSplit(read, flipped)
  return (
    <p className="bench-word">
      The gauge shows {Math.abs(zeroDeg).toFixed(2)}° {zeroDeg >= 0 ? 'too much' : 'too little'}; the blade stands at{' '}
      {pitchDeg.toFixed(2)}°, before any lean of the mast.
    </p>
  )
}

/**
 * Measured on 120 machines with one fault each (bench/diagnosis/draw.ts, first 60 seeds that can be read, direct and lever heads),
 * a gauge's zero of 0.5 and a lean of 1 degree unknown, with the flip check: of the standard set 114 first or alike and 114 in the
 * first three, of the short one 95 and 100.
 */
const SET_WORDS =
  'Tried on 120 machines of one fault each, the standard set names it first, or level with the first, on 95 of 100; the short set on 79. Among the first three: 95 and 83.'

const SPREADS = [0, 0.5, 1, 2]

function Spread({ name, value, set }: { name: string; value: number; set(value: number): void }) {
  return (
    <div className="field-line">
      <span>{name}</span>
      <div className="segments" role="group" aria-label={name}>
        {SPREADS.map((one) => (
          <button key={one} type="button" aria-pressed={value === one} onClick={() => set(one)}>
            {one}°
          </button>
        ))}
      </div>
    </div>
  )
}
