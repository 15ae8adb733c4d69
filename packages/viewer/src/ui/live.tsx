/** Parts of the page that follow the machine without React: a number with its unit, and anything else that is drawn. */
import { createContext, type ReactNode, useContext, useEffect, useRef } from 'react'
import type { Listener, Reading, Readouts } from '../state/readouts.ts'

export const ReadoutsContext = createContext<Readouts | undefined>(undefined)

/** Calls `draw` now and whenever the machine has moved. `draw` writes to refs. */
export function useReadout(draw: Listener): void {
  const readouts = useContext(ReadoutsContext)
  const latest = useRef(draw)
  useEffect(() => {
    latest.current = draw
  })
  useEffect(() => readouts?.subscribe((reading) => latest.current(reading)), [readouts])
}

/** A live value; `read` gives undefined where there is none just now. */
export function LiveQuantity(props: {
  read: (reading: Reading) => number | undefined
  unit: string
  digits?: number
  signed?: boolean
  className?: string
  children?: ReactNode
}) {
  const element = useRef<HTMLSpanElement>(null)
  useReadout((reading) => {
    if (element.current) element.current.textContent = written(props.read(reading), props.digits ?? 1, props.signed ?? false)
  })
  return (
    <span className={`quantity ${props.className ?? ''}`}>
      <span ref={element} />
      <Unit unit={props.unit} />
    </span>
  )
}

export function Quantity(props: {
  value: number | undefined
  unit: string
  digits?: number
  signed?: boolean
  className?: string
}) {
  return (
    <span className={`quantity ${props.className ?? ''}`}>
      {written(props.value, props.digits ?? 1, props.signed ?? false)}
      <Unit unit={props.unit} />
    </span>
  )
}

function Unit({ unit }: { unit: string }) {
  if (unit === '') return null
  return unit === '°' ? <span className="unit-degree">°</span> : <span className="unit">{unit}</span>
}

const MINUS = '\u2212'

/** A number as it stands on the page: fixed digits, a true minus sign, never "-0.0". */
export function written(value: number | undefined, digits: number, signed: boolean): string {
  if (value === undefined || Number.isNaN(value)) return '–'
  const text = Math.abs(value).toFixed(digits)
  const zero = Number(text) === 0
  return `${zero ? '' : value < 0 ? MINUS : signed ? '+' : ''}${text}`
}
