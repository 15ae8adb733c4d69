/** What the hands do: both sticks, ready-made motions, the rotor turned by hand, flight mode, flybar and nose. */
import { Pause, Play, Square } from 'lucide-react'
import { MOTIONS } from '../state/motions.ts'
import type { Stand } from '../state/session.ts'
import { useActions, usePage } from '../ui/usePage.ts'
import { LiveQuantity } from '../ui/live.tsx'
import { HandSlider } from './HandSlider.tsx'
import { StickPad } from './StickPad.tsx'
import './sticks.css'

const ELEVATOR = { stick: 'elevator', plus: 'forward', minus: 'back', springs: true } as const
const AILERON = { stick: 'aileron', plus: 'right', minus: 'left', springs: true } as const
const COLLECTIVE = { stick: 'collective', plus: 'more', minus: 'less', springs: false } as const
const RUDDER = { stick: 'rudder', plus: 'right', minus: 'left', springs: true } as const

/** Where a blade at psi points, as one says it standing beside the machine. */
export function bladePoints(rotorDeg: number, rotation: 'clockwise' | 'counterclockwise'): string {
  const quarter = Math.round(rotorDeg / 45) % 8
  const counter = ['tail', 'tail right', 'right', 'nose right', 'nose', 'nose left', 'left', 'tail left'] as const
  const place = rotation === 'counterclockwise' ? quarter : (8 - quarter) % 8
  return counter[place] ?? 'tail'
}

export function Hands() {
  const actions = useActions()
  const spring = usePage((state) => state.view.spring)
  const rig = usePage((state) => state.session.record)
  const stand = usePage((state) => state.session.stand)
  const put = (patch: Partial<Stand>, did: string, gesture?: string): void => actions.setStand(patch, did, gesture)
  return (
    <>
      <section aria-label="Sticks">
        <div className="sticks">
          <StickPad name="Collective" x={rig.tail ? RUDDER : undefined} y={COLLECTIVE} />
          <StickPad name="Cyclic" x={AILERON} y={ELEVATOR} />
        </div>
        <p id="stick-keys" className="visually-hidden">
          Arrow keys move the stick by a tenth, with Shift by a fiftieth; Page Up and Page Down go to the ends, Home centres it.
        </p>
        <div className="row">
          <label className="check">
            <input type="checkbox" checked={spring} onChange={(event) => actions.show({ spring: event.target.checked })} />
            Spring to centre
          </label>
          <button
            type="button"
            className="button plain"
            onClick={() => actions.setSticks({ collective: 0, elevator: 0, aileron: 0, rudder: 0 }, 'centred the sticks')}
          >
            Centre all
          </button>
        </div>
      </section>
      <Motions />
      <section aria-label="Rotor">
        <HandSlider
          label="Rotor, turned by hand"
          value={stand.rotorDeg}
          min={0}
          max={359}
          step={1}
          says={`blade 1 to ${bladePoints(stand.rotorDeg, rig.rotor.rotation)}`}
          unit="°"
          onPut={(rotorDeg) => put({ rotorDeg }, 'turned the rotor', 'rotor')}
        />
        {rig.transmitter.flightModes.length > 1 && (
          <label className="field-line">
            <span>Flight mode</span>
            <select
              value={stand.mode ?? rig.transmitter.flightModes[0]?.name}
              onChange={(event) => put({ mode: event.target.value }, `chose flight mode ${event.target.value}`)}
            >
              {rig.transmitter.flightModes.map(({ name }) => (
                <option key={name}>{name}</option>
              ))}
            </select>
          </label>
        )}
        {rig.flybar && (
          <>
            <label className="check">
              <input
                type="checkbox"
                checked={stand.settled}
                onChange={(event) =>
                  put({ settled: event.target.checked }, event.target.checked ? 'let the flybar settle' : 'held the flybar')
                }
              />
              Flybar follows its paddles, as in flight
            </label>
            {stand.settled ? (
              <p className="small quiet">
                It tips by itself: now <LiveQuantity read={({ machine }) => machine.flybar?.teeter} unit="°" signed />
              </p>
            ) : (
              <HandSlider
                label="Flybar, tipped by hand"
                value={stand.teeterDeg}
                min={-15}
                max={15}
                step={0.5}
                unit="°"
                onPut={(teeterDeg) => put({ teeterDeg }, 'tipped the flybar', 'teeter')}
              />
            )}
          </>
        )}
        {rig.tail?.gyro && (
          <HandSlider
            label="Nose, swung by hand"
            value={-stand.yawRateDegPerS}
            min={-180}
            max={180}
            step={5}
            unit="°/s"
            says={stand.yawRateDegPerS === 0 ? 'still' : stand.yawRateDegPerS > 0 ? 'nose left' : 'nose right'}
            onPut={(right) => put({ yawRateDegPerS: -right }, 'swung the nose', 'yaw')}
          />
        )}
      </section>
    </>
  )
}

function Motions() {
  const actions = useActions()
  const motion = usePage((state) => state.play?.motion)
  const playing = usePage((state) => state.play?.playing ?? false)
  const speed = usePage((state) => state.view.speed)
  const tail = usePage((state) => state.session.record.tail !== undefined)
  return (
    <section aria-label="Ready-made motions">
      <h2>Let it move</h2>
      <div className="motions">
        {MOTIONS.filter(({ id }) => tail || id !== 'rudder').map(({ id, name, says }) => (
          <button
            key={id}
            type="button"
            className="button"
            aria-pressed={motion === id}
            onClick={() => (motion === id ? actions.stopMotion() : actions.startMotion(id))}
          >
            {name}
            <small>{says}</small>
          </button>
        ))}
      </div>
      <div className="row" style={{ marginTop: 8 }}>
        <button type="button" className="button" disabled={motion === undefined} onClick={() => actions.pauseMotion(!playing)}>
          {playing ? <Pause size={18} aria-hidden /> : <Play size={18} aria-hidden />}
          {playing ? 'Pause' : 'Play'}
        </button>
        <button
          type="button"
          className="button icon"
          aria-label="Stop"
          disabled={motion === undefined}
          onClick={() => actions.stopMotion()}
        >
          <Square size={16} aria-hidden />
        </button>
        <label className="field-line compact">
          <span className="visually-hidden">Speed</span>
          <select value={speed} onChange={(event) => actions.show({ speed: Number(event.target.value) })}>
            {[0.25, 0.5, 1, 2].map((one) => (
              <option key={one} value={one}>
                {one}×
              </option>
            ))}
          </select>
        </label>
      </div>
    </section>
  )
}
