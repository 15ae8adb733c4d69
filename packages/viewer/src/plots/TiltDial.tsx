/**
 * Tilt asked for against tilt got, seen from above with the nose up: a bubble that leans the way the swashplate does.
 * Dashed: what the sticks ask for (asked-tilt.ts). Solid: what the swashplate does.
 */
import { useRef } from 'react'
import { askedTilt } from '../state/asked-tilt.ts'
import { useReadout, written } from '../ui/live.tsx'

const FULL_DEG = 15
const RIM = 84

/** Degrees to the dial's units; beyond the rim the mark stays on it. */
function place(forwardDeg: number, rightDeg: number): [number, number] {
  const size = Math.hypot(forwardDeg, rightDeg)
  const scale = size > FULL_DEG ? FULL_DEG / size : 1
  return [(rightDeg * scale * RIM) / FULL_DEG, (-forwardDeg * scale * RIM) / FULL_DEG]
}

const lean = (forward: number, right: number): string =>
  `${written(Math.abs(forward), 1, false)}° ${forward < 0 ? 'back' : 'forward'}, ${written(Math.abs(right), 1, false)}° ${right < 0 ? 'left' : 'right'}`

export function TiltDial({ words = true }: { words?: boolean }) {
  const asked = useRef<SVGGElement>(null)
  const got = useRef<SVGGElement>(null)
  const stalk = useRef<SVGLineElement>(null)
  const askedStalk = useRef<SVGLineElement>(null)
  const askedSays = useRef<HTMLElement>(null)
  const gotSays = useRef<HTMLElement>(null)
  const picture = useRef<SVGSVGElement>(null)

  useReadout(({ state, machine, record }) => {
    const want = askedTilt(state, record)
    const have = machine.swash
    draw(asked.current, askedStalk.current, want)
    draw(got.current, stalk.current, have)
    const wanted = want ? lean(want.foreAft, want.side) : 'as recorded, it cannot be reached'
    const had = have ? lean(have.foreAft, have.side) : 'cannot be reached'
    if (askedSays.current) askedSays.current.textContent = wanted
    if (gotSays.current) gotSays.current.textContent = had
    picture.current?.setAttribute('aria-label', `Swashplate tilt. Asked: ${wanted}. Got: ${had}.`)
  })

  return (
    <figure className="dial">
      <svg ref={picture} viewBox="-100 -100 200 200" role="img" aria-label="Swashplate tilt">
        <circle className="dial-face" r="98" />
        {[5, 10, 15].map((deg) => (
          <circle key={deg} className="dial-ring" r={(deg / FULL_DEG) * RIM} />
        ))}
        <path className="dial-ring" d="M-84 0H84M0-84V84" />
        <text className="dial-word" y="-73">
          nose
        </text>
        <text className="dial-word" y="81">
          tail
        </text>
        <text className="dial-word small-word" x="33" y="-3">
          5°
        </text>
        <text className="dial-word small-word" x="61" y="-3">
          10°
        </text>
        <line ref={askedStalk} className="dial-stalk asked" />
        <line ref={stalk} className="dial-stalk got" />
        <g ref={asked}>
          <circle className="dial-asked" r="11" />
        </g>
        <g ref={got}>
          <circle className="dial-got" r="6.5" />
        </g>
      </svg>
      {words && (
        <figcaption>
          <span>
            <span className="key asked" aria-hidden /> asked <b ref={askedSays} className="as-recorded" />
          </span>
          <span>
            <span className="key got" aria-hidden /> got <b ref={gotSays} className="as-is" />
          </span>
        </figcaption>
      )}
    </figure>
  )
}

function draw(mark: SVGGElement | null, stalk: SVGLineElement | null, tilt: { foreAft: number; side: number } | undefined): void {
  if (!mark || !stalk) return
  const shown = tilt ? 'visible' : 'hidden'
  mark.setAttribute('visibility', shown)
  stalk.setAttribute('visibility', shown)
  if (!tilt) return
  const [x, y] = place(tilt.foreAft, tilt.side)
  mark.setAttribute('transform', `translate(${x} ${y})`)
  stalk.setAttribute('x2', String(x))
  stalk.setAttribute('y2', String(y))
}
