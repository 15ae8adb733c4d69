/** A machine whose record is not known: which of its dimensions to measure, in which order, how well, what each unknown costs. */
import { BY_EYE_DEG, type MeasuringUp } from '@swashtrue/mixing/bench'
import { useEffect, useState } from 'react'
import { usePage } from '../ui/usePage.ts'
import { askMeasuringUp } from './useBench.ts'
import { capital } from './words.ts'

const SIGNS: Readonly<Record<string, string>> = { mm: ' mm', degree: '°', 'degree/us': '° a µs' }
const costInWords = (deg: number): string => `${deg.toFixed(deg < 1 ? 2 : 1)}°`

export function MeasureUp() {
  const [open, setOpen] = useState(false)
  return (
    <details className="bench-more" onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
      <summary>Record not known? Measure up</summary>
      {open && <Dimensions />}
    </details>
  )
}

function Dimensions() {
  const record = usePage((state) => state.session.record)
  const [found, setFound] = useState<MeasuringUp | 'failed'>()
  useEffect(() => {
    let wanted = true
    setFound(undefined)
    askMeasuringUp(record).then(
      (answer) => wanted && setFound(answer),
      () => wanted && setFound('failed'),
    )
    return () => {
      wanted = false
    }
  }, [record])
  if (found === 'failed') {
    return (
      <p className="bench-word warn" role="alert">
        This draft cannot be worked out: open another, or put right what the Figures tab says of it.
      </p>
    )
  }
  if (!found) return <p className="bench-count">Working it out …</p>
  const told = found.dimensions.filter(({ cost }) => cost.guessed >= BY_EYE_DEG)
  return (
    <>
      <p>
        Open the demo machine that is most like yours, put right what you know, and measure the rest from the top: what tells most
        for its minutes comes first. Settings are read off the transmitter before all.
      </p>
      <ol className="measure-list">
        {told.map(({ paths, says, how, values, unit, sd, cost, left }) => (
          <li key={paths[0]}>
            <b>{capital(says)}</b>
            <span>
              Draft: {[...new Set(values)].join(', ')}
              {SIGNS[unit] ?? ` ${unit}`}. {capital(how)}, within {sd}
              {SIGNS[unit] ?? ` ${unit}`}.
            </span>
            <span className="quiet">
              Guessed it costs {costInWords(cost.guessed)} of a reading, measured {costInWords(cost.measured)}; then{' '}
              {costInWords(left)} is left of {costInWords(found.guessed)}.
            </span>
          </li>
        ))}
      </ol>
      <p className="small quiet">
        {found.dimensions.length > told.length &&
          `The other ${found.dimensions.length - told.length} move no reading by ${BY_EYE_DEG}°: by eye will do. `}
        Heights and links add up to one sum: level and pitch read at mid-stick tell it better than a rule.
      </p>
    </>
  )
}
