/** A slider under the hand: one drag is one step of undo. */
import { useId } from 'react'
import { useActions } from '../ui/usePage.ts'
import { written } from '../ui/live.tsx'

export function HandSlider(props: {
  label: string
  value: number
  min: number
  max: number
  step: number
  unit: string
  says?: string
  onPut(value: number): void
}) {
  const actions = useActions()
  const id = useId()
  const digits = props.step < 1 ? 1 : 0
  return (
    <div className="slider-row">
      <div className="slider-head">
        <label htmlFor={id}>{props.label}</label>
        <span className="small quiet">
          {props.says ? `${props.says}, ` : ''}
          <span className="quantity">
            {written(props.value, digits, props.min < 0)}
            {props.unit === '°' ? '°' : <span className="unit">{props.unit}</span>}
          </span>
        </span>
      </div>
      <input
        id={id}
        type="range"
        min={props.min}
        max={props.max}
        step={props.step}
        value={props.value}
        aria-valuetext={`${written(props.value, digits, false)} ${props.unit === '°' ? 'degrees' : props.unit}${props.says ? `, ${props.says}` : ''}`}
        onChange={(event) => props.onPut(Number(event.target.value))}
        onPointerUp={() => actions.endGesture()}
        onBlur={() => actions.endGesture()}
      />
    </div>
  )
}
