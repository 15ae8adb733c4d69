/**
 * One number of the machine under the hand: less, the value, more. Where it differs from the record, both stand there,
 * each in its own accent. A value can also be typed.
 */
import { describePath, valueAt } from '@swashtrue/mixing'
import { Minus, Plus } from 'lucide-react'
import { useEffect, useId, useState } from 'react'
import { machineIn } from '../state/pose.ts'
import { useActions, usePage } from '../ui/usePage.ts'
import { amount, shownUnit, shownValue } from './words.ts'

export interface FieldProps {
  readonly label: string
  readonly path: string
  /** what one press adds */
  readonly step: number
  /** lengths and angles are changed by an amount, so that they ride on whatever the record says */
  readonly by?: boolean
  readonly hint?: string
}

export const useMachineValue = (path: string): unknown => usePage((state) => valueAt(machineIn(state), path))
export const useRecordValue = (path: string): unknown => usePage((state) => valueAt(state.session.record, path))

/** Sums of steps such as 0.2 gather rounding; a nanometre is nothing, so it is rounded away. */
const tidy = (value: number): number => Math.round(value * 1e9) / 1e9

export function Field({ label, path, step, by = false, hint }: FieldProps) {
  const actions = useActions()
  const id = useId()
  const value = useMachineValue(path)
  const recorded = useRecordValue(path)
  const rig = usePage((state) => state.session.record)
  const unit = shownUnit(path)
  const number = typeof value === 'number' ? value : undefined
  const [typed, setTyped] = useState<string>()
  // A value that changes under the field (undo, another button) puts an end to what was being typed.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of the value that matters
  useEffect(() => setTyped(undefined), [value])
  if (number === undefined) return null

  const add = (amountBy: number): void => put(tidy(number + amountBy))
  const put = (to: number): void => {
    const did = `${describePath(rig, path)} to ${amount(to, unit)}`
    actions.change(by ? { path, by: tidy(to - number) } : { path, to }, did)
  }
  const settle = (): void => {
    const text = typed?.replace(',', '.').replace('\u2212', '-').trim()
    setTyped(undefined)
    if (!text || !Number.isFinite(Number(text))) return
    const to = Number(text)
    if (to !== number) put(to)
  }
  const off = typeof recorded === 'number' && Math.abs(recorded - number) > 1e-9
  return (
    <div className="field">
      <div className="field-words">
        <label htmlFor={id}>{label}</label>
        {off ? (
          <span className="small as-recorded">recorded {shownValue(recorded, unit)}</span>
        ) : (
          hint && <span className="small quiet">{hint}</span>
        )}
      </div>
      <div className="stepper">
        <button type="button" aria-label={`${label}: less`} onClick={() => add(-step)}>
          <Minus size={18} aria-hidden />
        </button>
        <span className={off ? 'stepper-value as-is' : 'stepper-value'}>
          <input
            id={id}
            inputMode="decimal"
            value={typed ?? amount(number, '')}
            onChange={(event) => setTyped(event.target.value)}
            onFocus={(event) => event.target.select()}
            onBlur={settle}
            onKeyDown={(event) => event.key === 'Enter' && settle()}
          />
          <span className="unit">{unit}</span>
        </span>
        <button type="button" aria-label={`${label}: more`} onClick={() => add(step)}>
          <Plus size={18} aria-hidden />
        </button>
      </div>
    </div>
  )
}

/** A switch on the machine: reversed or not. */
export function SwitchField({ label, path }: { label: string; path: string }) {
  const actions = useActions()
  const value = useMachineValue(path)
  const recorded = useRecordValue(path)
  const rig = usePage((state) => state.session.record)
  const id = useId()
  if (typeof value !== 'boolean') return null
  return (
    <div className="field">
      <div className="field-words">
        <label htmlFor={id}>{label}</label>
        {value !== recorded && <span className="small as-recorded">recorded {shownValue(recorded, '')}</span>}
      </div>
      <button
        id={id}
        type="button"
        role="switch"
        aria-checked={value}
        className={value !== recorded ? 'switch off-record' : 'switch'}
        onClick={() => actions.change({ path, to: !value }, `${describePath(rig, path)} ${value ? 'off' : 'on'}`)}
      >
        <span aria-hidden>{value ? 'on' : 'off'}</span>
      </button>
    </div>
  )
}

/** A choice among a few: which output a lead is in, which way a sign stands. */
export function ChoiceField<T extends string | number>(props: {
  label: string
  choices: readonly { value: T; name: string }[]
  value: T | undefined
  recorded: T | undefined
  onChoose(value: T): void
}) {
  const { label, choices, value, recorded, onChoose } = props
  const off = value !== recorded
  return (
    <div className="field tall">
      <div className="field-words">
        <span>{label}</span>
        {off && (
          <span className="small as-recorded">
            recorded {choices.find((one) => one.value === recorded)?.name ?? 'none of these'}
          </span>
        )}
      </div>
      <div className={off ? 'segments off-record' : 'segments'} role="group" aria-label={label}>
        {choices.map((one) => (
          <button key={one.value} type="button" aria-pressed={one.value === value} onClick={() => onChoose(one.value)}>
            {one.name}
          </button>
        ))}
      </div>
    </div>
  )
}
