/** What the bench says of a place and a value, in words of the trade and with their units. */
import { type Measure, type ReadingPlace, unitOfMeasure } from '@swashtrue/mixing/bench'
import type { Rig } from '@swashtrue/mixing'
import { placeOf, pointingOf, type WrittenItem } from './model.ts'

const TITLES: Readonly<Record<Measure, string>> = {
  'horn-angle': 'Horn angle',
  'lever-angle': 'Lever angle',
  'swash-height': 'Swashplate height',
  'fore-aft-tilt': 'Swashplate, front to back',
  'side-tilt': 'Swashplate, side to side',
  'blade-pitch': 'Blade pitch',
  'blade-play': 'Blade play',
  'washout-height': 'Washout height',
  'washout-arm': 'Washout arm',
  'mixing-arm': 'Mixing arm',
  'paddle-pitch': 'Paddle pitch',
  'tail-horn-angle': 'Tail horn',
  slider: 'Tail slider',
  'tail-pitch': 'Tail pitch',
}

/** Which way is plus, said for each. */
const PLUS: Readonly<Record<Measure, string>> = {
  'horn-angle': 'By eye; plus with the ball above level',
  'lever-angle': 'By eye, from its level place; plus with its {end} raised',
  'swash-height': 'Caliper, ring centre above the zero of the record',
  'fore-aft-tilt': 'Leveller; plus with the front edge down',
  'side-tilt': 'Leveller; plus with the right edge down',
  'blade-pitch': 'Pitch gauge; plus with the leading edge up',
  'blade-play': 'The whole freedom felt, end to end',
  'washout-height': 'Caliper, base above the zero of the record',
  'washout-arm': 'By eye, from its level place; plus with its {end} raised',
  'mixing-arm': 'By eye, from its level place; plus with its {end} raised',
  'paddle-pitch': 'Gauge on paddle 1; plus with the leading edge up',
  'tail-horn-angle': 'By eye; plus with the ball aft of square',
  slider: 'Caliper; plus away from the gear case',
  'tail-pitch': 'Gauge; plus swings the nose right',
}

const NUMBERED = new Set<Measure>(['horn-angle', 'lever-angle', 'blade-pitch', 'blade-play', 'washout-arm', 'mixing-arm'])

export const titleOf = (rig: Rig, { measure, of }: ReadingPlace): string => {
  if (!NUMBERED.has(measure)) return TITLES[measure]
  if (measure === 'blade-pitch' || measure === 'blade-play') return `${TITLES[measure]}, blade ${of}`
  if (measure === 'horn-angle' || measure === 'lever-angle') {
    const name = rig.servos[of - 1]?.name
    return `${TITLES[measure]}, servo ${of}${name === undefined || name === '' || name === `servo ${of}` ? '' : ` (${name})`}`
  }
  return `${TITLES[measure]} ${of}`
}

/** Which way is plus. An arm's angle is positive where it raises the end that points the arm's own way. */
export function plusOf(rig: Rig, { measure, of }: ReadingPlace): string {
  const isOwnWay = (end: { angle: number } | undefined): boolean => end !== undefined && Math.cos((end.angle * Math.PI) / 180) > 0
  const end = {
    'lever-angle': isOwnWay(rig.servos[of - 1]?.lever?.swashEnd) ? 'swashplate end' : 'servo end',
    'washout-arm': isOwnWay(rig.flybar?.washout.swashEnd) ? 'swashplate end' : 'flybar end',
    'mixing-arm': isOwnWay(rig.flybar?.mixing.swashEnd) ? 'swashplate end' : 'blade end',
  }[measure as string]
  return PLUS[measure].replace('{end}', end ?? 'end')
}

export const unitOf = ({ measure }: ReadingPlace): 'mm' | '°' => (unitOfMeasure(measure) === 'mm' ? 'mm' : '°')

/** "Sticks in the middle" or "Full forward elevator". */
export function sticksInWords({ sticks, yawRate }: ReadingPlace): string {
  const words: string[] = []
  const part = (value: number, plus: string, minus: string): void => {
    if (value === 0) return
    const way = value > 0 ? plus : minus
    words.push(Math.abs(value) === 1 ? `full ${way}` : `${Math.round(Math.abs(value) * 100)} % ${way}`)
  }
  part(sticks.collective, 'up collective', 'down collective')
  part(sticks.elevator, 'forward elevator', 'back elevator')
  part(sticks.aileron, 'right aileron', 'left aileron')
  part(sticks.rudder, 'right rudder', 'left rudder')
  if (yawRate !== 0) words.push(`nose swung ${yawRate > 0 ? 'left' : 'right'} by hand, about ${Math.abs(yawRate)}° a second`)
  const text = words.length === 0 ? 'sticks in the middle' : words.join(', ')
  return capital(text)
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

export function bladeInWords(rig: Rig, place: ReadingPlace): string | undefined {
  const pointing = pointingOf(rig, place)
  if (pointing === undefined) return undefined
  const who = place.measure === 'paddle-pitch' ? 'Paddle 1' : `Blade ${place.of}`
  return `${who} points to the ${pointing}`
}

export const valueInWords = (place: ReadingPlace, value: number, digits = 1): string => {
  const text = value.toFixed(digits)
  return `${value > 0 && Number(text) !== 0 ? '+' : ''}${Number(text) === 0 ? text.replace('-', '') : text}${unitOf(place) === 'mm' ? ' mm' : '°'}`
}

/** Never a plain 0 or 100: no reading makes that sure. */
export const percent = (chance: number): string =>
  chance < 0.01 ? 'under 1 %' : chance > 0.99 && chance < 1 ? 'over 99 %' : `${Math.round(100 * chance)} %`

/** A note of the bench in a line. */
export function itemInWords(rig: Rig, item: WrittenItem | undefined): string {
  if (typeof item?.['measure'] !== 'string') return 'A note'
  const sticks = { collective: 0, elevator: 0, aileron: 0, rudder: 0, ...(item['sticks'] as object) }
  const place = placeOf({ azimuth: 0, teeter: 0, yawRate: 0, flipped: false, of: 1, ...item, sticks } as ReadingPlace, rig)
  return `${titleOf(rig, place)}, ${sticksInWords(place).toLowerCase()}: ${valueInWords(place, Number(item['value']))}`
}

/** The interval that holds 19 of 20 readings, where all is as foretold. */
export const rangeInWords = (told: ReadingPlace & { value: number; sd: number }): string =>
  `${valueInWords(told, told.value - 1.96 * told.sd)} to ${valueInWords(told, told.value + 1.96 * told.sd)}`
