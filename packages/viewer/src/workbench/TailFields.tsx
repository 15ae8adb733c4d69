/** The tail: its rod, horn, output and gyro. */
import { usePage } from '../ui/usePage.ts'
import { Field, SwitchField } from './Field.tsx'

export function TailFields() {
  const record = usePage((state) => state.session.record)
  return (
    <div className="fields">
      <Field label="Tail rod" path="/tail/rod" step={record.linkStep} by hint={`in steps of ${record.linkStep} mm`} />
      <Field label="Tail horn, teeth" path="/tail/servo/horn/tooth" step={1} />
      <Field label="Tail horn, angle" path="/tail/servo/horn/offset" step={1} by />
      <Field label="Tail horn ball's hole" path="/tail/servo/horn/length" step={record.holeStep} by />
      <SwitchField label="Rudder output reversed" path="/transmitter/rudder/reverse" />
      <Field label="Rudder, sub-trim" path="/transmitter/rudder/subtrim" step={10} by />
      <Field label="Rudder, travel left" path="/transmitter/rudder/travel/0" step={5} />
      <Field label="Rudder, travel right" path="/transmitter/rudder/travel/1" step={5} />
      {record.tail?.gyro && (
        <>
          <h3>Gyro</h3>
          <SwitchField label="Gyro reversed" path="/tail/gyro/reverse" />
          <Field
            label="Gain, as shown"
            path="/tail/gyro/gain"
            step={5}
            hint={record.tail.gyro.scale === 'centred' ? '0 to 100, 50 is off' : '−100 to 100, 0 is off'}
          />
          <Field label="Gyro's limit" path="/tail/gyro/limit" step={5} />
        </>
      )}
    </div>
  )
}
