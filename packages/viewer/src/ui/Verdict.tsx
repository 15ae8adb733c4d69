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
  const [short, setShort] = useState('')

  useReadout(({ machine: now }) => {
    const missing = now.unreachable
    setShort(missing ? `${unreachableSays(machine, missing)}. The last pose that closes is shown dimmed.` : '')
  })

  const headline = trouble ?? (telling ? explanation?.headline : 'Something on this machine is not as recorded. What?')
  return (
    <div className="verdict" role="status" aria-live="polite">
      <p>{short || headline || 'Working it out.'}</p>
      {!short && telling && explanation?.more.slice(0, 2).map((one) => (
        <p key={one} className="more">
          {one}
        </p>
      ))}
    </div>
  )
}
