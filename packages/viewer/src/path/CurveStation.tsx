/** The pitch curve of the flight mode that acts, with the stick's place on it; editable point by point. */
import { useRef } from 'react'
import { machineIn } from '../state/pose.ts'
import { actingSticks } from '../state/store.ts'
import { useReadout } from '../ui/live.tsx'
import { useActions, usePage } from '../ui/usePage.ts'
import { Field } from '../workbench/Field.tsx'

const WIDE = 108
const HIGH = 60
const xOf = (stick: number): number => 4 + ((stick + 1) / 2) * (WIDE - 8)
const yOf = (percent: number): number => 4 + ((150 - Math.max(-150, Math.min(150, percent))) / 300) * (HIGH - 8)

export function CurveStation({ editable = false }: { editable?: boolean }) {
  const actions = useActions()
  const modes = usePage((state) => machineIn(state).transmitter.flightModes)
  const chosen = usePage((state) => state.session.stand.mode)
  const at = Math.max(
    0,
    modes.findIndex(({ name }) => name === chosen),
  )
  const mode = modes[at]
  const here = useRef<SVGCircleElement>(null)
  const curve = mode?.pitchCurve ?? []
  const stickOf = (k: number): number => -1 + (2 * k) / (curve.length - 1)

  useReadout(({ state }) => {
    const { collective } = actingSticks(state)
    const along = ((collective + 1) / 2) * (curve.length - 1)
    const k = Math.min(curve.length - 2, Math.floor(along))
    const value = (curve[k] ?? 0) + (along - k) * ((curve[k + 1] ?? 0) - (curve[k] ?? 0))
    here.current?.setAttribute('cx', String(xOf(collective)))
    here.current?.setAttribute('cy', String(yOf(value)))
  })

  if (!mode) return null
  if (editable) {
    return (
      <>
        {modes.length > 1 && (
          <div className="segments" role="group" aria-label="Flight mode">
            {modes.map(({ name }) => (
              <button
                key={name}
                type="button"
                aria-pressed={name === mode.name}
                onClick={() => actions.setStand({ mode: name }, `chose flight mode ${name}`)}
              >
                {name}
              </button>
            ))}
          </div>
        )}
        {curve.map((_, k) => (
          <Field
            key={k}
            label={`Curve at ${Math.round(stickOf(k) * 100)} % stick`}
            path={`/transmitter/flightModes/${at}/pitchCurve/${k}`}
            step={5}
          />
        ))}
      </>
    )
  }
  return (
    <div className="mini">
      <svg
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        role="img"
        aria-label={`Pitch curve of flight mode ${mode.name}: ${curve.join(', ')} percent`}
      >
        <path className="mini-axis" d={`M4 ${yOf(0)}H${WIDE - 4}M${xOf(0)} 4V${HIGH - 4}`} />
        <path
          className="mini-line"
          d={curve.map((value, k) => `${k === 0 ? 'M' : 'L'}${xOf(stickOf(k))} ${yOf(value)}`).join('')}
        />
        <circle ref={here} className="mini-here" r="4" />
      </svg>
      <span className="small">{mode.name}</span>
    </div>
  )
}
