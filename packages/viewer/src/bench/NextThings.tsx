/** What to read or look at next, best first, each done on the spot. */
import { describePath, unitAt, valueAt } from '@swashtrue/mixing'
import type { Next } from '@swashtrue/mixing/bench'
import { Eye, Gauge } from 'lucide-react'
import { useState } from 'react'
import { usePage } from '../ui/usePage.ts'
import { placeOf, type WrittenItem, withMoreReading } from './model.ts'
import { NumberEntry } from './NumberEntry.tsx'
import { PlaceCard } from './PlaceCard.tsx'
import { recordNow } from './questions.ts'
import { useSetBench } from './useBench.ts'
import { titleOf } from './words.ts'

const SHOWN = 3

export function NextThings({ next }: { next: readonly Next[] }) {
  const [open, setOpen] = useState<number>()
  const record = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const set = useSetBench()
  if (next.length === 0) return null
  const chosen = open === undefined ? undefined : next[open]
  const done = (items: readonly unknown[], did: string): void => {
    setOpen(undefined)
    set({}, did, items)
  }
  return (
    <div className="bench-next">
      <h3>What would tell most</h3>
      {next.slice(0, SHOWN).map((one, i) => (
        <button
          key={one.says}
          type="button"
          className="button"
          aria-expanded={open === i}
          onClick={() => setOpen(open === i ? undefined : i)}
        >
          {one.look ? <Eye size={20} aria-hidden /> : <Gauge size={20} aria-hidden />}
          <span>{one.says}</span>
        </button>
      ))}
      {chosen?.look && (
        <LookAt path={chosen.look.path} note={(item) => done([...readings, item], `looked at ${chosen.look?.path}`)} />
      )}
      {chosen?.reading && (
        <div className="bench-inline">
          <PlaceCard small rig={record} place={placeOf(chosen.reading, record)} />
          <NumberEntry
            key={open}
            place={placeOf(chosen.reading, record)}
            value={undefined}
            label="Note it"
            note={(value) => {
              const place = placeOf(chosen.reading as NonNullable<Next['reading']>, record)
              done(withMoreReading(readings, place, value), `noted ${titleOf(record, place)}`)
            }}
          />
        </div>
      )}
    </div>
  )
}

const UNIT_SIGNS: Readonly<Record<string, string>> = { us: ' µs', percent: ' %', degree: '°', mm: ' mm' }

function recordedInWords(value: unknown, unit: string): string {
  if (typeof value === 'boolean') return value ? 'reversed' : 'not reversed'
  if (Array.isArray(value)) return value.flat().join(', ')
  return `${String(value)}${UNIT_SIGNS[unit] ?? ''}`
}

/** A setting is looked at: as recorded, or what it is. */
function LookAt({ path, note }: { path: string; note(item: WrittenItem): void }) {
  const found = usePage((state) => state.session.record)
  const readings = usePage((state) => state.session.readings)
  const record = recordNow(found, readings)
  const recorded = valueAt(record, path)
  const [text, setText] = useState('')
  const seen = (value: unknown): void => note({ seen: { path, value } })
  const number = Number(text.replace(',', '.').replace('−', '-'))
  return (
    <div className="bench-inline">
      <p>
        The record says of {describePath(record, path)}: <b>{recordedInWords(recorded, unitAt(path))}</b>
      </p>
      <div className="row">
        <button type="button" className="button" onClick={() => seen(recorded)}>
          It is so
        </button>
        {typeof recorded === 'boolean' && (
          <button type="button" className="button" onClick={() => seen(!recorded)}>
            It is the other way
          </button>
        )}
      </div>
      {typeof recorded === 'number' && (
        <form
          className="row"
          onSubmit={(event) => {
            event.preventDefault()
            if (text !== '' && Number.isFinite(number)) seen(number)
          }}
        >
          <label className="look-value">
            It is{' '}
            <input inputMode="text" value={text} onChange={({ target }) => setText(target.value)} placeholder="what it is" />
          </label>
          <button type="submit" className="button" disabled={text === '' || !Number.isFinite(number)}>
            Note it
          </button>
        </form>
      )}
    </div>
  )
}
