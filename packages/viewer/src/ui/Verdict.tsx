/** The one sentence over the scene: what the machine does that it should not, or that it is true. */
import { unreachableSays } from '@swashtrue/mixing'
import { useState } from 'react'
import { machineIn } from '../state/pose.ts'
import { mayShowChanges } from '../state/store.ts'
import { useReadout } from './live.tsx'
import { useAnswers } from './useAnswers.ts'
import { usePage } from './usePage.ts'

export function Verdict() {
  const explanation = useAnswers((state) => state.latest?.explanation)
  const trouble = useAnswers((state) => state.trouble)
  const telling = usePage(mayShowChanges)
  const machine = usePage(machineIn)
  const tail = useAnswers((state) => state.latest?.tail)
  // A rudder or a gyro that works the wrong way round: said before anything finer, and first where the head is true.
  const tailWrong = tail
    ? [tail.rudder === 'reversed' ? tail.says[0] : undefined, tail.gyro === 'worsens' ? tail.says[1] : undefined].filter(
        (one) => one !== undefined,
      )
    : []
  const [short, setShort] = useState('')

  useReadout(({ machine: now }) => {
    const missing = now.unreachable
    setShort(missing ? `${unreachableSays(machine, missing)}. The last pose that closes is shown dimmed.` : '')
  })

  const headOff = explanation?.state !== 'true'
  const said = explanation
    ? [...(headOff ? [explanation.headline, ...tailWrong] : [...tailWrong, explanation.headline]), ...explanation.more]
    : []
  const headline = trouble ?? (telling ? said[0] : 'Something on this machine is not as recorded. What?')
  return (
    <div className="verdict" role="status" aria-live="polite">
      <p>{short || headline || 'Working it out.'}</p>
      {!short &&
        telling &&
        said.slice(1, 3).map((one) => (
          <p key={one} className="more">
            {one}
          </p>
        ))}
    </div>
  )
}
