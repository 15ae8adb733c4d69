/** Settings of the signal path that no other part of the page edits: the mix's weights, and an output's limits. */
import { machineIn } from '../state/pose.ts'
import { useActions, usePage } from '../ui/usePage.ts'
import { Field } from '../workbench/Field.tsx'

/** The mix's weights where the document gives them outright: a row an output, in place of the layout. */
export function Weights() {
  const weights = usePage((state) => machineIn(state).transmitter.mix.weights)
  if (!weights) return null
  return weights.map((_, j) => (
    <div key={j}>
      <h3>Output {j + 1}</h3>
      {(['collective', 'elevator', 'aileron'] as const).map((stick, k) => (
        <Field
          key={stick}
          label={`Output ${j + 1}, weight of ${stick}`}
          path={`/transmitter/mix/weights/${j}/${k}`}
          step={0.05}
        />
      ))}
    </div>
  ))
}

export function Limits({ j }: { j: number }) {
  const actions = useActions()
  const limits = usePage((state) => machineIn(state).transmitter.outputs[j as 0].limits)
  const path = `/transmitter/outputs/${j}/limits`
  if (!limits) {
    return (
      <div className="field">
        <div className="field-words">
          <span>Output {j + 1}, limits</span>
          <span className="small quiet">none</span>
        </div>
        <button
          type="button"
          className="button"
          onClick={() => actions.change({ path, to: [1120, 1920] }, `set limits on output ${j + 1}`)}
        >
          Set some
        </button>
      </div>
    )
  }
  return (
    <>
      <Field label={`Output ${j + 1}, least pulse`} path={`${path}/0`} step={10} />
      <Field label={`Output ${j + 1}, most pulse`} path={`${path}/1`} step={10} />
    </>
  )
}
