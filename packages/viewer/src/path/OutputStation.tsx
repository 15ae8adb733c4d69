/** The output pulses as bars between their limits; one that a limit cut off says so. */
import { useRef } from 'react'
import { machineIn } from '../state/pose.ts'
import { LiveQuantity, useReadout } from '../ui/live.tsx'
import { usePage } from '../ui/usePage.ts'

const FULL_US = 700

export function OutputStation({ tail }: { tail: boolean }) {
  return (
    <div className="outputs">
      {[0, 1, 2].map((j) => (
        <Output key={j} j={j} name={`${j + 1}`} />
      ))}
      {tail && <Output j={3} name="rudder" />}
    </div>
  )
}

function Output({ j, name }: { j: number; name: string }) {
  const bar = useRef<HTMLSpanElement>(null)
  const cut = useRef<HTMLSpanElement>(null)
  const limits = usePage((state) =>
    j < 3 ? machineIn(state).transmitter.outputs[j as 0].limits : machineIn(state).transmitter.rudder.limits,
  )
  useReadout(({ machine }) => {
    const output = j < 3 ? machine.outputs[j] : machine.tail
    if (!output) return
    const off = placeOf(output.pulse)
    if (bar.current) {
      bar.current.style.left = `${50 + Math.min(0, off) * 100}%`
      bar.current.style.width = `${Math.max(1, Math.abs(off) * 100)}%`
    }
    if (cut.current) cut.current.hidden = !output.saturated
  })
  return (
    <div className="output">
      <span className="output-name">{name}</span>
      <span className="output-track" aria-hidden>
        <span ref={bar} className="output-bar" />
        {limits?.map((pulseUs) => (
          <span key={pulseUs} className="output-limit" style={{ left: `${50 + placeOf(pulseUs) * 100}%` }} />
        ))}
      </span>
      <LiveQuantity read={({ machine }) => (j < 3 ? machine.outputs[j]?.pulse : machine.tail?.pulse)} unit="µs" digits={0} />
      <span ref={cut} className="cut" hidden>
        cut off
      </span>
    </div>
  )
}

/** Where a pulse lies on the track, -0.5 to 0.5. */
const placeOf = (pulseUs: number): number => Math.max(-0.5, Math.min(0.5, (pulseUs - MIDDLE_US) / FULL_US / 2))

/** The picture's own middle: bars are for comparing, the number says the pulse. */
const MIDDLE_US = 1520
