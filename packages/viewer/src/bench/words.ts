/** What the bench says of a place and a value, in words of the trade and with their units. */
import { type Measure, type ReadingPlace, unitOfMeasure } from '@swashtrue/mixing/bench'
import type { Rig } from '@swashtrue/mixing'
import { pointingOf } from './model.ts'

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
  'horn-angle': 'by eye; plus with the ball above level',
  'lever-angle': 'by eye; plus with the swashplate end raised',
  'swash-height': 'caliper; ring centre above the zero of the record',
  'fore-aft-tilt': 'leveller; plus with the front edge down',
  'side-tilt': 'leveller; plus with the right edge down',
  'blade-pitch': 'pitch gauge; plus with the leading edge up',
  'blade-play': 'the whole freedom felt, end to end',
  'washout-height': 'caliper; base above the zero of the record',
  'washout-arm': 'by eye; plus with its outer end raised',
  'mixing-arm': 'by eye; plus with its outer end raised',
  'paddle-pitch': 'gauge on paddle 1; plus with the leading edge up',
  'tail-horn-angle': 'by eye; plus with the ball aft of square',
  slider: 'caliper; plus away from the gear case',
  'tail-pitch': 'gauge; plus swings the nose right',
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

export const plusOf = ({ measure }: ReadingPlace): string => PLUS[measure]

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
  return text[0]?.toUpperCase() + text.slice(1)
}

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

export const percent = (chance: number): string => (chance > 0 && chance < 0.01 ? 'under 1 %' : `${Math.round(100 * chance)} %`)
