/** The head: blade links, and on a flybar head the washout's and the mixing arms' rods. */
import { usePage } from '../ui/usePage.ts'
import { Field } from './Field.tsx'

const SIDES = [0, 1] as const

export function HeadFields() {
  const record = usePage((state) => state.session.record)
  const step = record.linkStep
  return (
    <div className="fields">
      {record.rotor.links.map((_, k) => (
        <Field
          key={k}
          label={`Blade ${k + 1}'s link`}
          path={`/rotor/links/${k}`}
          step={step}
          by
          hint={`in steps of ${step} mm`}
        />
      ))}
      {record.rotor.ring && (
        <Field
          label="Turning ring's balls, ahead"
          path="/rotor/ring/azimuth"
          step={5}
          by
          hint="of their blades; not for a hand to turn"
        />
      )}
      {record.flybar && (
        <>
          <h3>Washout</h3>
          {SIDES.map((k) => (
            <Field key={`link${k}`} label={`Washout link ${k + 1}`} path={`/flybar/washout/links/${k}`} step={step} by />
          ))}
          {SIDES.map((k) => (
            <Field key={`rod${k}`} label={`Washout rod ${k + 1}`} path={`/flybar/washout/rods/${k}`} step={step} by />
          ))}
          <h3>Mixing arms</h3>
          {SIDES.map((k) => (
            <Field key={`mixing${k}`} label={`Mixing rod ${k + 1}`} path={`/flybar/mixing/rods/${k}`} step={step} by />
          ))}
        </>
      )}
    </div>
  )
}
