/** That the worker is at it, that it failed, or that the notes cannot be used: never a silent panel. */
import type { BenchAnswer } from '../worker/bench.ts'

export function Working(props: {
  answer: BenchAnswer | undefined
  working: boolean
  stale: boolean
  trouble: string | undefined
}) {
  const { answer, working, stale, trouble } = props
  if (trouble !== undefined) {
    return (
      <p className="bench-word warn" role="alert">
        The work stopped: {trouble}. Your notes are kept. Take the last one back, or save and open the machine again.
      </p>
    )
  }
  if (answer?.ok === false) {
    return (
      <div className="bench-word warn" role="alert">
        <p>These notes do not fit the machine of the record:</p>
        <ul>
          {answer.faults.map(({ pointer, got, expected, wayOut }) => (
            <li key={pointer + got}>
              {pointer}: got {got}, expected {expected}; {wayOut}
            </li>
          ))}
        </ul>
      </div>
    )
  }
  return (
    <p className="bench-count" role="status">
      {working || stale ? 'Working it out …' : 'Worked out from all notes so far'}
    </p>
  )
}
