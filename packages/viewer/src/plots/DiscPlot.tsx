/**
 * Blade pitch round the disc: psi across, from the tail in the direction of rotation; degrees up. Every blade of the
 * machine as it is (solid), blade 1 of the machine as recorded (dashed), and blade 1 where it now stands.
 */
import { useMemo, useRef } from 'react'
import { machineIn } from '../state/pose.ts'
import { AZIMUTHS, createRoundDisc } from '../state/round-disc.ts'
import { actingSticks } from '../state/store.ts'
import { LiveQuantity, useReadout } from '../ui/live.tsx'
import { usePage } from '../ui/usePage.ts'

const WIDE = 340
const HIGH = 168
const PAD = { left: 34, right: 8, top: 10, bottom: 24 }
const LIMIT_DEG = 20
const xOf = (psiDeg: number): number => PAD.left + (psiDeg / 360) * (WIDE - PAD.left - PAD.right)
const yOf = (pitchDeg: number): number =>
  PAD.top + ((LIMIT_DEG - Math.max(-LIMIT_DEG, Math.min(LIMIT_DEG, pitchDeg))) / (2 * LIMIT_DEG)) * (HIGH - PAD.top - PAD.bottom)

function pathOf(row: Float64Array | undefined): string {
  if (!row) return ''
  let path = ''
  for (let i = 0; i <= AZIMUTHS; i++) {
    path += `${i === 0 ? 'M' : 'L'}${xOf((i * 360) / AZIMUTHS).toFixed(1)} ${yOf(row[i % AZIMUTHS] as number).toFixed(1)}`
  }
  return path
}

export function DiscPlot() {
  const blades = usePage((state) => state.session.record.rotor.blades)
  const rotation = usePage((state) => state.session.record.rotor.rotation)
  const machineDisc = useMemo(createRoundDisc, [])
  const recordDisc = useMemo(createRoundDisc, [])
  const lines = useRef<(SVGPathElement | null)[]>([])
  const recorded = useRef<SVGPathElement>(null)
  const here = useRef<SVGGElement>(null)
  const sides = rotation === 'clockwise' ? ['left', 'right'] : ['right', 'left']

  useReadout(({ state, machine }) => {
    const sticks = actingSticks(state)
    const { stand, record } = state.session
    const { rows } = machineDisc(machineIn(state), sticks, stand)
    rows.forEach((row, k) => lines.current[k]?.setAttribute('d', pathOf(row)))
    recorded.current?.setAttribute('d', pathOf(recordDisc(record, sticks, stand).rows[0]))
    const pitch = machine.blades?.[0]?.pitch
    here.current?.setAttribute('visibility', pitch === undefined ? 'hidden' : 'visible')
    if (pitch !== undefined) here.current?.setAttribute('transform', `translate(${xOf(stand.rotorDeg)} ${yOf(pitch)})`)
  })

  return (
    <figure className="disc-plot">
      <svg
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        role="img"
        aria-label="Blade pitch around the disc, in degrees, from the tail in the direction of rotation"
      >
        {[-20, -10, 0, 10, 20].map((deg) => (
          <g key={deg}>
            <line
              className={deg === 0 ? 'plot-axis' : 'plot-grid'}
              x1={PAD.left}
              x2={WIDE - PAD.right}
              y1={yOf(deg)}
              y2={yOf(deg)}
            />
            <text className="plot-word" x={PAD.left - 5} y={yOf(deg) + 4} textAnchor="end">
              {deg < 0 ? `−${-deg}` : deg}°
            </text>
          </g>
        ))}
        {['tail', sides[0], 'nose', sides[1], 'tail'].map((word, k) => (
          <g key={k}>
            <line className="plot-grid" x1={xOf(k * 90)} x2={xOf(k * 90)} y1={PAD.top} y2={HIGH - PAD.bottom} />
            <text className="plot-word" x={xOf(k * 90)} y={HIGH - 7} textAnchor={k === 0 ? 'start' : k === 4 ? 'end' : 'middle'}>
              {word}
            </text>
          </g>
        ))}
        <path ref={recorded} className="plot-line recorded" />
        {Array.from({ length: blades }, (_, k) => (
          <path
            key={k}
            ref={(element) => {
              lines.current[k] = element
            }}
            className={k === 0 ? 'plot-line first' : 'plot-line'}
          />
        ))}
        <g ref={here}>
          <circle className="plot-here" r="5" />
        </g>
      </svg>
      <dl className="harmonics">
        <div>
          <dt>collective</dt>
          <dd>
            <LiveQuantity read={({ machine }) => harmonic(machine.harmonics, 'collective')} unit="°" signed digits={2} />
          </dd>
        </div>
        <div>
          <dt>longitudinal</dt>
          <dd>
            <LiveQuantity read={({ machine }) => harmonic(machine.harmonics, 'longitudinal')} unit="°" signed digits={2} />
          </dd>
        </div>
        <div>
          <dt>lateral</dt>
          <dd>
            <LiveQuantity read={({ machine }) => harmonic(machine.harmonics, 'lateral')} unit="°" signed digits={2} />
          </dd>
        </div>
        <div>
          <dt>left over</dt>
          <dd>
            <LiveQuantity read={({ machine }) => harmonic(machine.harmonics, 'residual')} unit="°" digits={2} />
          </dd>
        </div>
      </dl>
    </figure>
  )
}

type Harmonic = 'collective' | 'longitudinal' | 'lateral' | 'residual'

function harmonic(
  harmonics: { [K in Harmonic]: number } | { unreachable: unknown } | undefined,
  name: Harmonic,
): number | undefined {
  return harmonics && !('unreachable' in harmonics) ? harmonics[name] : undefined
}
