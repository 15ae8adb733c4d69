/** A number with its sign and unit, for a thumb: the keyboard that comes up has figures, and the sign is a button. */
import { useId, useState } from 'react'
import type { BenchPlace } from './model.ts'
import { unitOf } from './words.ts'

export function NumberEntry(props: { place: BenchPlace; value: number | undefined; label: string; note(value: number): void }) {
  const { place, value, label, note } = props
  const id = useId()
  const [minus, setMinus] = useState(value !== undefined && value < 0)
  const [text, setText] = useState(value === undefined ? '' : String(Math.abs(value)))
  const size = Number(text.replace(',', '.'))
  const wrong = text !== '' && !(size >= 0 && size < 1000)
  const ready = text.trim() !== '' && !wrong
  return (
    <form
      className="number-entry"
      onSubmit={(event) => {
        event.preventDefault()
        if (ready) note((minus ? -1 : 1) * size || 0)
      }}
    >
      <label htmlFor={id} className="visually-hidden">
        What it shows, {unitOf(place) === 'mm' ? 'millimetres' : 'degrees'}
      </label>
      <button
        type="button"
        className="button sign"
        aria-label={minus ? 'minus; make it plus' : 'plus; make it minus'}
        onClick={() => setMinus(!minus)}
      >
        {minus ? '−' : '+'}
      </button>
      <span className="entry">
        <input
          id={id}
          inputMode="decimal"
          autoComplete="off"
          placeholder="0.0"
          value={text}
          onChange={({ target }) => {
            const typed = target.value.trim()
            if (/^[-−]/.test(typed)) setMinus(true)
            setText(typed.replace(/^[-−+]/, ''))
          }}
        />
        <span className="unit">{unitOf(place)}</span>
      </span>
      <button type="submit" className="button strong" disabled={!ready}>
        {label}
      </button>
      {wrong && (
        <p className="entry-wrong" role="alert">
          “{text}” is no number: type figures, as 3.5
        </p>
      )}
    </form>
  )
}
