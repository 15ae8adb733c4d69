/** The transmitter's mix: values and signs, the layout it believes the balls to be in, phase, and the cyclic limit. */
import { type Change, describePath, valueAt } from '@swashtrue/mixing'
import { machineIn } from '../state/pose.ts'
import { useActions, usePage } from '../ui/usePage.ts'
import { Field, useMachineValue, useRecordValue } from './Field.tsx'

const STICKS = ['collective', 'elevator', 'aileron'] as const

export function TransmitterFields() {
  return (
    <div className="fields">
      {STICKS.map((stick) => (
        <MixValue key={stick} stick={stick} />
      ))}
      <Layout />
      <Field label="Phase" path="/transmitter/mix/phase" step={5} hint="turns the tilt in the direction of rotation" />
      <CyclicLimit />
      <Field label="Elevator rate" path="/transmitter/rates/elevator/rate" step={5} />
      <Field label="Elevator expo" path="/transmitter/rates/elevator/expo" step={5} hint="plus softens the centre" />
      <Field label="Aileron rate" path="/transmitter/rates/aileron/rate" step={5} />
      <Field label="Aileron expo" path="/transmitter/rates/aileron/expo" step={5} />
    </div>
  )
}

export function MixValue({ stick }: { stick: (typeof STICKS)[number] }) {
  const actions = useActions()
  const path = `/transmitter/mix/${stick}`
  const value = useMachineValue(path)
  if (typeof value !== 'number') return null
  return (
    <div className="with-sign">
      <Field label={`${stick.charAt(0).toUpperCase()}${stick.slice(1)} value`} path={path} step={1} />
      <button
        type="button"
        className="button"
        aria-label={`Turn the sign of the ${stick} value`}
        onClick={() => actions.change({ path, to: -value }, `turned the sign of the ${stick} value`)}
      >
        ±
      </button>
    </div>
  )
}

/** What a hand would choose in a transmitter's list of layouts; the machine's own balls come first. */
function layouts(own: readonly number[]): { name: string; azimuths: [number, number, number] }[] {
  const [first = 0] = own
  const turned = (aside: number): [number, number, number] => {
    const sense = ((((own[1] ?? 0) - first) % 360) + 360) % 360 < 180 ? 1 : -1
    return [first, wrap(first + sense * aside), wrap(first - sense * aside)]
  }
  return [120, 135, 140, 90].map((aside) => ({ name: `${aside}°`, azimuths: turned(aside) }))
}

const wrap = (deg: number): number => ((deg % 360) + 360) % 360

export function Layout() {
  const actions = useActions()
  const machine = usePage(machineIn)
  const record = usePage((state) => state.session.record)
  const believed = useMachineValue('/transmitter/mix/azimuths')
  const recorded = useRecordValue('/transmitter/mix/azimuths')
  if (!Array.isArray(believed) || !Array.isArray(recorded)) {
    return <p className="small quiet">This document gives the mix's weights outright, so there is no layout to believe.</p>
  }
  const balls = machine.servos.map(({ ball }) => ball.azimuth)
  const same = (a: readonly unknown[], b: readonly unknown[]): boolean =>
    a.every((one, k) => Math.abs(wrap(Number(one) - Number(b[k]) + 180) - 180) < 0.01)
  const choices = layouts(recorded as number[])
  const put = (azimuths: readonly number[], name: string): void => {
    const changes: Change[] = azimuths.map((to, k) => ({ path: `/transmitter/mix/azimuths/${k}`, to }))
    actions.change(changes, `made the transmitter believe ${name}`)
  }
  return (
    <div className="field tall">
      <div className="field-words">
        <span>Layout the transmitter believes</span>
        <span className={same(believed, recorded) ? 'small quiet' : 'small as-recorded'}>
          {same(believed, recorded)
            ? `balls at ${balls.map((one) => `${Math.round(wrap(one))}°`).join(', ')}`
            : `recorded ${recorded.map((one) => `${Math.round(one as number)}°`).join(', ')}`}
        </span>
      </div>
      <div className="segments" role="group" aria-label="Layout the transmitter believes">
        {choices.map(({ name, azimuths }) => (
          <button
            key={name}
            type="button"
            aria-pressed={same(believed, azimuths)}
            onClick={() => put(azimuths, `a ${name} layout`)}
          >
            {name}
          </button>
        ))}
        <button
          type="button"
          aria-pressed={same(believed, recorded) && !choices.some(({ azimuths }) => same(believed, azimuths))}
          onClick={() => put(recorded as number[], 'the recorded layout')}
        >
          As recorded
        </button>
      </div>
      <span className="visually-hidden">{describePath(record, '/transmitter/mix/azimuths')}</span>
    </div>
  )
}

export function CyclicLimit() {
  const actions = useActions()
  const machine = usePage(machineIn)
  const value = valueAt(machine, '/transmitter/mix/cyclicLimit')
  if (value === undefined) {
    return (
      <div className="field">
        <div className="field-words">
          <span>Cyclic limit</span>
          <span className="small quiet">none: the stick's corners go as far as they can</span>
        </div>
        <button
          type="button"
          className="button"
          onClick={() => actions.change({ path: '/transmitter/mix/cyclicLimit', to: 100 }, 'set a cyclic limit')}
        >
          Set one
        </button>
      </div>
    )
  }
  return (
    <Field
      label="Cyclic limit"
      path="/transmitter/mix/cyclicLimit"
      step={5}
      hint="of full stick, elevator and aileron together"
    />
  )
}
