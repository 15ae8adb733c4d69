/** One servo, from its lead to its ball: what a hand can get wrong there. */
import type { Change } from '@swashtrue/mixing'
import { machineIn } from '../state/pose.ts'
import { useActions, usePage } from '../ui/usePage.ts'
import { ChoiceField, Field, SwitchField } from './Field.tsx'

export function ServoFields({ i }: { i: number }) {
  const actions = useActions()
  const machine = usePage(machineIn)
  const record = usePage((state) => state.session.record)
  const servo = machine.servos[i as 0]
  const recorded = record.servos[i as 0]
  const path = `/servos/${i}`
  const output = servo.output - 1

  // A lead put into another output pushes out the one that was there: leads change places in pairs.
  const plug = (to: number): void => {
    const other = machine.servos.findIndex((one, k) => k !== i && one.output === to)
    const changes: Change[] = [{ path: `${path}/output`, to }]
    if (other >= 0) changes.push({ path: `/servos/${other}/output`, to: servo.output })
    actions.change(
      changes,
      other >= 0 ? `swapped the leads of servos ${i + 1} and ${other + 1}` : `plugged servo ${i + 1} into output ${to}`,
    )
  }
  const link = linkStepOf(record.steps, `${path}/link`, record.linkStep)
  return (
    <div className="fields">
      {recorded.name !== `servo ${i + 1}` && <h3>{recorded.name}</h3>}
      <Field
        label="Horn, teeth"
        path={`${path}/horn/tooth`}
        step={1}
        hint={`one tooth of ${servo.horn.teeth} is ${(360 / servo.horn.teeth).toFixed(1)}°`}
      />
      <Field label="Horn, angle" path={`${path}/horn/offset`} step={1} by hint="up is plus" />
      <Field
        label="Horn ball's hole"
        path={`${path}/horn/length`}
        step={record.holeStep}
        by
        hint={`holes ${record.holeStep} mm apart`}
      />
      {link === undefined ? (
        <p className="small quiet">Link: moulded, it cannot be turned.</p>
      ) : (
        <Field label="Link" path={`${path}/link`} step={link} by hint={`in steps of ${link} mm`} />
      )}
      {servo.lever && (
        <Field label="Pushrod" path={`${path}/pushrod`} step={record.linkStep} by hint={`in steps of ${record.linkStep} mm`} />
      )}
      <ChoiceField
        label="Its lead is in"
        choices={[1, 2, 3].map((value) => ({ value, name: `Output ${value}` }))}
        value={servo.output}
        recorded={recorded.output}
        onChoose={plug}
      />
      <SwitchField label={`Output ${servo.output} reversed`} path={`/transmitter/outputs/${output}/reverse`} />
      <Field label={`Output ${servo.output}, sub-trim`} path={`/transmitter/outputs/${output}/subtrim`} step={10} by />
      <Field label={`Output ${servo.output}, travel below`} path={`/transmitter/outputs/${output}/travel/0`} step={5} />
      <Field label={`Output ${servo.output}, travel above`} path={`/transmitter/outputs/${output}/travel/1`} step={5} />
      <ChoiceField
        label="The servo's own neutral"
        choices={record.neutrals.map((value) => ({ value, name: `${value} µs` }))}
        value={servo.neutral}
        recorded={recorded.neutral}
        onChoose={(to) => actions.change({ path: `${path}/neutral`, to }, `servo ${i + 1} made for ${to} µs`)}
      />
    </div>
  )
}

type Steps = readonly ({ path: string; step: number } | { path: string; fixed: true })[]

/** The step a link turns in; undefined where the document says it cannot be turned. */
function linkStepOf(steps: Steps, path: string, usual: number): number | undefined {
  const own = steps.find((step) => step.path === path)
  if (!own) return usual
  return 'step' in own ? own.step : undefined
}
