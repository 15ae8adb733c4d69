/** The place to set the machine wrong: choose a part, turn it, and see what the sticks then do. */
import type { Rig } from '@swashtrue/mixing'
import { useActions, usePage } from '../ui/usePage.ts'
import { Caution } from '../ui/Caution.tsx'
import { ChangeList } from './ChangeList.tsx'
import { HeadFields } from './HeadFields.tsx'
import { sideServo } from './riddles.ts'
import { RiddleCard, RiddleChooser } from './Riddles.tsx'
import { ServoFields } from './ServoFields.tsx'
import { TailFields } from './TailFields.tsx'
import { TransmitterFields } from './TransmitterFields.tsx'
import './workbench.css'

interface Place {
  readonly id: string
  readonly name: string
  readonly under: readonly string[]
}

function places(rig: Rig): Place[] {
  return [
    ...rig.servos.map((_, i) => ({
      id: `servo-${i}`,
      name: `Servo ${i + 1}`,
      under: [`/servos/${i}/`, `/transmitter/outputs/${i}/`],
    })),
    { id: 'transmitter', name: 'Transmitter', under: ['/transmitter/mix', '/transmitter/rates', '/transmitter/flightModes'] },
    { id: 'head', name: 'Head', under: ['/rotor/', '/flybar/', '/swash/'] },
    ...(rig.tail ? [{ id: 'tail', name: 'Tail', under: ['/tail/', '/transmitter/rudder/'] }] : []),
  ]
}

export function MisSet() {
  const actions = useActions()
  const record = usePage((state) => state.session.record)
  const changes = usePage((state) => state.session.changes)
  const riddle = usePage((state) => state.view.riddle)
  const ghost = usePage((state) => state.view.ghost)
  const part = usePage((state) => state.view.part)
  const all = places(record)
  // Chosen here or by a tap on the part in the scene; at first a servo at the side, whose faults are seen as a roll.
  const place =
    all.find(({ under }) => part !== undefined && under.some((one) => `${part}/`.startsWith(one))) ?? all[sideServo(record)]
  if (riddle !== undefined) return <RiddleCard id={riddle} />
  return (
    <>
      <ChangeList />
      <label className="check">
        <input type="checkbox" checked={ghost} onChange={(event) => actions.show({ ghost: event.target.checked })} />
        <span>
          Show the machine <span className="as-recorded strong-word">as recorded</span> as a ghost
        </span>
      </label>
      <div className="segments parts" role="group" aria-label="Part to set wrong">
        {all.map(({ id, name, under }) => (
          <button
            key={id}
            type="button"
            aria-pressed={place?.id === id}
            className={changes.some(({ path }) => under.some((one) => path.startsWith(one))) ? 'changed' : ''}
            onClick={() => actions.show({ part: under[0] ?? '' })}
          >
            {name}
          </button>
        ))}
      </div>
      {place?.id.startsWith('servo') && <ServoFields i={Number(place.id.slice(-1))} key={place.id} />}
      {place?.id === 'transmitter' && <TransmitterFields />}
      {place?.id === 'head' && <HeadFields />}
      {place?.id === 'tail' && <TailFields />}
      <section aria-label="What is wrong here?">
        <h2>What is wrong here?</h2>
        <p className="quiet">Three ready-made faults, each made out of sight.</p>
        <RiddleChooser />
      </section>
      <Caution />
    </>
  )
}
