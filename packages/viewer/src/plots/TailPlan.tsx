/** The tail seen from above, to scale: horn, rod (cut short), lever, and the slider between its stops. */
import type { ArmEnd, Figure } from '@swashtrue/mixing'
import { useRef } from 'react'
import { figureOfMachine } from '../state/pose.ts'
import { LiveQuantity, useReadout, written } from '../ui/live.tsx'
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
    const at = placer(figure, tail.lever.sliderEnd)
    horn.current?.setAttribute('d', line(at.servo(figure.shaft), at.servo(figure.hornBall)))
    if (figure.leverServoEnd && figure.leverSliderEnd) {
      rod.current?.setAttribute('d', line(at.servo(figure.hornBall), at.lever(figure.leverServoEnd)))
      lever.current?.setAttribute('d', `${line(at.lever(figure.leverServoEnd), at.lever(figure.leverPivot))} L${at.lever(figure.leverSliderEnd).join(' ')}`)
      const [x] = at.lever(figure.leverSliderEnd)
      slider.current?.setAttribute('transform', `translate(${x} ${at.sliderY(figure.slider ?? 0)})`)
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
  return (
    <figure className="tail-plan">
      <svg viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label="The tail linkage from above: servo at the left, tail shaft at the right">
        <path ref={rod} className="tail-rod" />
        <path ref={horn} className="tail-arm" />
        <path ref={lever} className="tail-arm" />
        <g ref={slider}>
          <rect className="tail-slider" x="-10" y="-6" width="20" height="12" rx="3" />
        </g>
      </svg>
      <p ref={says} className="small" role="status" />
      <dl className="values">
        <dt>Slider{stops ? `, stops ${written(stops[0], 1, true)} and ${written(stops[1], 1, true)} mm` : ''}</dt>
        <dd><LiveQuantity read={({ machine }) => machine.tail?.slider} unit="mm" signed digits={2} /></dd>
        <dt>Tail pitch, plus swings the nose right</dt>
        <dd><LiveQuantity read={({ machine }) => machine.tail?.pitch} unit="°" signed /></dd>
        <dt>Rudder pulse</dt>
        <dd><LiveQuantity read={({ machine }) => machine.tail?.pulse} unit="µs" digits={0} /></dd>
      </dl>
    </figure>
  )
}

type Place = readonly [number, number]

const line = (from: Place, to: Place): string => `M${from.join(' ')} L${to.join(' ')}`

/** Both ends of the rod at one scale, the length between them left out. Aft is to the right, v is up. */
function placer(figure: NonNullable<Figure['tail']>, sliderEnd: ArmEnd) {
  const scale = 2.1
  const servoAt: Place = [58, HIGH * 0.62]
  const leverAt: Place = [250, HIGH * 0.62]
  const about = (point: readonly number[], origin: readonly number[], at: Place): Place => [
    at[0] + ((point[0] as number) - (origin[0] as number)) * scale,
    at[1] - ((point[1] as number) - (origin[1] as number)) * scale,
  ]
  return {
    servo: (point: readonly number[]) => about(point, figure.shaft, servoAt),
    lever: (point: readonly number[]) => about(point, figure.leverPivot, leverAt),
    /** The slider's own height: where the lever's end was designed to be, and as far from there as the stops let it. */
    sliderY: (sliderMm: number) =>
      leverAt[1] - (sliderEnd.length * Math.sin((sliderEnd.angle * Math.PI) / 180) + sliderMm) * scale,
  }
}
