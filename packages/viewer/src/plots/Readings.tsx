/** What the machine now does, in numbers and plots. */
import { LiveQuantity } from '../ui/live.tsx'
import { ReachPanel } from '../reach/ReachPanel.tsx'
import { usePage } from '../ui/usePage.ts'
import { CouplingTable } from './CouplingTable.tsx'
import { DiscPlot } from './DiscPlot.tsx'
import { TailPlan, TailWords } from './TailPlan.tsx'
import { TiltDial } from './TiltDial.tsx'
import './plots.css'

export function Readings() {
  const flybar = usePage((state) => state.session.record.flybar !== undefined)
  const tail = usePage((state) => state.session.record.tail !== undefined)
  return (
    <>
      <section>
        <h2>Tilt asked, tilt got</h2>
        <TiltDial />
      </section>
      <section>
        <h2>Blade pitch around the disc</h2>
        <DiscPlot />
      </section>
      <section>
        <h2>What each stick moves that it should not</h2>
        <CouplingTable />
      </section>
      <ReachPanel />
      {flybar && (
        <section>
          <h2>Flybar</h2>
          <dl className="values">
            <dt>Washout base</dt>
            <dd>
              <LiveQuantity read={({ machine }) => machine.flybar?.washout} unit="mm" digits={2} />
            </dd>
            <dt>Washout arms, from level</dt>
            <dd>
              <LiveQuantity read={({ machine }) => machine.flybar?.washoutArms[0]} unit="°" signed /> and{' '}
              <LiveQuantity read={({ machine }) => machine.flybar?.washoutArms[1]} unit="°" signed />
            </dd>
            <dt>Mixing arms</dt>
            <dd>
              <LiveQuantity read={({ machine }) => machine.flybar?.mixingArms[0]} unit="°" signed /> and{' '}
              <LiveQuantity read={({ machine }) => machine.flybar?.mixingArms[1]} unit="°" signed />
            </dd>
            <dt>Paddle pitch</dt>
            <dd>
              <LiveQuantity read={({ machine }) => machine.flybar?.paddle} unit="°" signed digits={2} />
            </dd>
            <dt>Teeter</dt>
            <dd>
              <LiveQuantity read={({ machine }) => machine.flybar?.teeter} unit="°" signed />
            </dd>
          </dl>
        </section>
      )}
      {tail && (
        <section>
          <h2>Tail</h2>
          <TailPlan />
          <TailWords />
        </section>
      )}
    </>
  )
}
