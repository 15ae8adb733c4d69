/** The tail seen from above, to scale: horn, rod (cut short), lever, and the slider between its stops. */
import type { ArmEnd, Figure } from '@swashtrue/mixing'
import { useRef } from 'react'
import { figureOfMachine } from '../state/pose.ts'
import { LiveQuantity, useReadout, written } from '../ui/live.tsx'
import { useAnswers } from '../ui/useAnswers.ts'
import { usePage } from '../ui/usePage.ts'

const WIDE = 340
const HIGH = 150

export function TailPlan() {
  const tail = usePage((state) => state.session.record.tail)
  const horn = useRef<SVGPathElement>(null)
  const rod = useRef<SVGPathElement>(null)
  const lever = useRef<SVGPathElement>(null)
  const slider = useRef<SVGGElement>(null)
  const says = useRef<HTMLParagraphElement>(null)

  useReadout(({ state, machine }) => {
    const figure = figureOfMachine(state).tail
    if (!figure || !tail) return
    const at = placer(figure)
    horn.current?.setAttribute('d', line(at.servo(figure.shaft), at.servo(figure.hornBall)))
    if (figure.leverServoEnd && figure.leverSliderEnd) {
      rod.current?.setAttribute('d', line(at.servo(figure.hornBall), at.lever(figure.leverServoEnd)))
      lever.current?.setAttribute(
        'd',
        `${line(at.lever(figure.leverServoEnd), at.lever(figure.leverPivot))} L${at.lever(figure.leverSliderEnd).join(' ')}`,
      )
      const [x] = at.lever(figure.leverSliderEnd)
      slider.current?.setAttribute('transform', `translate(${x} ${sliderY(tail.lever.sliderEnd, figure.slider ?? 0)})`)
    }
    const past = machine.tail?.past ?? 0
    if (says.current) {
      says.current.textContent = machine.tail?.unreachable
        ? `Cannot be reached: ${written(machine.tail.unreachable.short, 2, false)} mm short.`
        : past === 0
          ? 'The slider is free.'
          : `Binds: the command goes ${written(Math.abs(past), 2, false)} mm past the ${past > 0 ? 'outer' : 'inner'} stop.`
    }
  })
  if (!tail) return null
  const stops = tail.slider.stops
  const endU = tail.lever.sliderEnd.length * Math.cos((tail.lever.sliderEnd.angle * Math.PI) / 180) * SCALE
  return (
    <figure className="tail-plan">
      <svg
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        role="img"
        aria-label="The tail linkage from above: servo at the left, tail shaft at the right"
      >
        <text className="plot-word" x={SERVO_AT[0]} y={HIGH - 12} textAnchor="middle">
          servo
        </text>
        <text className="plot-word" x={LEVER_AT[0] + 20} y={HIGH - 12} textAnchor="middle">
          lever and slider
        </text>
        {stops?.map((stop) => (
          <line
            key={stop}
            className="tail-stop"
            x1={LEVER_AT[0] + endU - 15}
            x2={LEVER_AT[0] + endU + 15}
            y1={stopY(tail.lever.sliderEnd, stop)}
            y2={stopY(tail.lever.sliderEnd, stop)}
          />
        ))}
        <path ref={rod} className="tail-rod" />
        <path ref={horn} className="tail-arm" />
        <path ref={lever} className="tail-arm" />
        <g ref={slider}>
          <rect className="tail-slider" x="-10" y="-6" width="20" height="12" rx="3" />
        </g>
      </svg>
      <p ref={says} className="small" />
      <dl className="values">
        <dt>Slider{stops ? `, stops ${written(stops[0], 1, true)} and ${written(stops[1], 1, true)} mm` : ''}</dt>
        <dd>
          <LiveQuantity read={({ machine }) => machine.tail?.slider} unit="mm" signed digits={2} />
        </dd>
        <dt>Tail pitch, plus swings the nose right</dt>
        <dd>
          <LiveQuantity read={({ machine }) => machine.tail?.pitch} unit="°" signed />
        </dd>
        <dt>Rudder pulse</dt>
        <dd>
          <LiveQuantity read={({ machine }) => machine.tail?.pulse} unit="µs" digits={0} />
        </dd>
      </dl>
    </figure>
  )
}

/** The tail check in sentences: which way stick and gyro go, where the ends bind, and what would make both sides equal. */
export function TailWords() {
  const check = useAnswers((state) => state.latest?.tail)
  if (!check) return null
  return (
    <ul className="tail-words">
      {check.says.map((one) => (
        <li key={one}>{one}</li>
      ))}
    </ul>
  )
}

type Place = readonly [number, number]

const line = (from: Place, to: Place): string => `M${from.join(' ')} L${to.join(' ')}`

const SCALE = 2.1
const SERVO_AT: Place = [58, HIGH * 0.56]
const LEVER_AT: Place = [250, HIGH * 0.56]
/** Half the slider's own height in the picture: a stop is drawn where its edge meets it. */
const SLIDER_HALF = 6

/** Where the slider stands in the picture, `sliderMm` from where the lever's end was designed to hold it. */
const sliderY = (sliderEnd: ArmEnd, sliderMm: number): number =>
  LEVER_AT[1] - (sliderEnd.length * Math.sin((sliderEnd.angle * Math.PI) / 180) + sliderMm) * SCALE

const stopY = (sliderEnd: ArmEnd, stopMm: number): number => sliderY(sliderEnd, stopMm) - Math.sign(stopMm) * (SLIDER_HALF + 2)

/** Both ends of the rod at one scale, the length between them left out. Aft is to the right, v is up. */
function placer(figure: NonNullable<Figure['tail']>) {
  const about = (point: readonly number[], origin: readonly number[], at: Place): Place => [
    at[0] + ((point[0] as number) - (origin[0] as number)) * SCALE,
    at[1] - ((point[1] as number) - (origin[1] as number)) * SCALE,
  ]
  return {
    servo: (point: readonly number[]) => about(point, figure.shaft, SERVO_AT),
    lever: (point: readonly number[]) => about(point, figure.leverPivot, LEVER_AT),
  }
}
