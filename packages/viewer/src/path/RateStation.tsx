/** Elevator's and aileron's curves after rate and expo, with the sticks' places on them. */
import { useRef } from 'react'
import { machineIn } from '../state/pose.ts'
import { actingSticks } from '../state/store.ts'
import { LiveQuantity, useReadout } from '../ui/live.tsx'
import { usePage } from '../ui/usePage.ts'

const SIZE = 60
const xOf = (stick: number): number => 4 + ((stick + 1) / 2) * (SIZE - 8)
const yOf = (ratio: number): number => 4 + ((1.3 - Math.max(-1.3, Math.min(1.3, ratio))) / 2.6) * (SIZE - 8)

/** y = rate ((1 - e) x + e x^3), as the transmitter's stage has it; here only to draw its curve. */
const shaped = ({ rate, expo }: { rate: number; expo: number }, x: number): number =>
  (rate / 100) * ((1 - expo / 100) * x + (expo / 100) * x ** 3)

const SHAPED = ['elevator', 'aileron', 'rudder'] as const
type Shaped = (typeof SHAPED)[number]

export function RateStation() {
  const rates = usePage((state) => machineIn(state).transmitter.rates)
  const tail = usePage((state) => state.session.record.tail !== undefined)
  const marks = useRef<Partial<Record<Shaped, SVGCircleElement | null>>>({})
  useReadout(({ state }) => {
    const sticks = actingSticks(state)
    for (const stick of SHAPED) {
      marks.current[stick]?.setAttribute('cx', String(xOf(sticks[stick])))
      marks.current[stick]?.setAttribute('cy', String(yOf(shaped(rates[stick], sticks[stick]))))
    }
  })
  const points = Array.from({ length: 21 }, (_, k) => -1 + k / 10)
  const path = (stick: Shaped): string =>
    points.map((x, k) => `${k === 0 ? 'M' : 'L'}${xOf(x).toFixed(1)} ${yOf(shaped(rates[stick], x)).toFixed(1)}`).join('')
  return (
    <div className="mini two">
      {SHAPED.filter((stick) => tail || stick !== 'rudder').map((stick) => (
        <div key={stick}>
          <svg
            viewBox={`0 0 ${SIZE} ${SIZE}`}
            role="img"
            aria-label={`${stick}: rate ${rates[stick].rate} percent, expo ${rates[stick].expo} percent`}
          >
            <path className="mini-axis" d={`M4 ${yOf(0)}H${SIZE - 4}M${xOf(0)} 4V${SIZE - 4}`} />
            <path className="mini-line" d={path(stick)} />
            <circle
              ref={(element) => {
                marks.current[stick] = element
              }}
              className="mini-here"
              r="4"
            />
          </svg>
          <span className="small">
            {stick}{' '}
            <LiveQuantity
              read={({ state }) => shaped(machineIn(state).transmitter.rates[stick], actingSticks(state)[stick]) * 100}
              unit="%"
              digits={0}
              signed
            />
          </span>
        </div>
      ))}
    </div>
  )
}
