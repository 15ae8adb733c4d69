/** Changes and units in words, for lists, buttons and undo. */
import { type Change, describePath, type Rig, unitAt, valueAt } from '@swashtrue/mixing'
import { written } from '../ui/live.tsx'

/** A unit as it stands beside a number on the page. */
export function shownUnit(path: string): string {
  const unit = unitAt(path)
  return SHORT[unit] ?? unit
}

const SHORT: Readonly<Record<string, string>> = {
  degree: '°',
  us: 'µs',
  percent: '%',
  'degree/us': '°/µs',
  'us/(degree/s)': 'µs per °/s',
  'degree/s': '°/s',
}

const digitsOf = (value: number): number =>
  Number.isInteger(value) ? 0 : Math.abs(value) < 0.1 ? 3 : Number.isInteger(value * 10) ? 1 : 2

export function amount(value: number, unit: string, signed = false): string {
  const text = written(value, digitsOf(Math.round(value * 1e6) / 1e6), signed)
  return unit === '' ? text : unit === '°' ? `${text}°` : `${text} ${unit}`
}

export function shownValue(value: unknown, unit: string): string {
  if (typeof value === 'number') return amount(value, unit)
  if (typeof value === 'boolean') return value ? 'on' : 'off'
  if (Array.isArray(value)) return value.map((one) => shownValue(one, unit)).join(', ')
  return value === undefined ? 'none' : String(value)
}

/** "servo 2 (left rear)'s horn offset": the whole name of what a change is made to, with a capital. */
export function changedPart(rig: Rig, change: Change): string {
  const words = describePath(rig, change.path)
  return words.charAt(0).toUpperCase() + words.slice(1)
}

export function changedBy(record: Rig, change: Change): string {
  const unit = shownUnit(change.path)
  if ('by' in change) return amount(change.by, unit, true)
  return `${shownValue(valueAt(record, change.path), unit)} → ${shownValue(change.to, unit)}`
}
