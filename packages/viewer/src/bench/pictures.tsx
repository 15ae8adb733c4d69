/**
 * Where the gauge sits, which way the blade points, where the stick is: small drawings, one line each, that read at arm's
 * length. Seen from above with the nose up, as a person stands behind the machine.
 */
import type { Measure, Pointing, Sticks } from '@swashtrue/mixing/bench'
import type { ReactNode } from 'react'

const ANGLE: Readonly<Record<Pointing, number>> = { nose: 0, right: 90, tail: 180, left: 270 }

/** The machine from above, a blade with its gauge pointing one of four ways. */
export function BladePicture({ pointing, flipped }: { pointing: Pointing; flipped: boolean }) {
  return (
    <svg viewBox="0 0 140 140" className="bench-picture" role="img" aria-label={`From above, nose up: the blade with the gauge points to the ${pointing}`}>
      <path className="body" d="M70 26c9 0 14 12 14 26 0 16-5 24-8 30v34h-12V82c-3-6-8-14-8-30 0-14 5-26 14-26z" />
      <path className="body" d="M58 112h24v5H58z" />
      <text x="70" y="15" className="mark">nose</text>
      <text x="70" y="135" className="mark">tail</text>
      <g transform={`rotate(${ANGLE[pointing]} 70 58)`}>
        <path className="blade" d="M66 58V6h8v52z" />
        <rect className="gauge" x={flipped ? 54 : 59} y="18" width="27" height="12" rx="2.5" />
        <circle className="gauge-eye" cx={flipped ? 60 : 80} cy="24" r="3" />
      </g>
      <circle className="hub" cx="70" cy="58" r="7" />
    </svg>
  )
}

/** Both sticks, as a hand sees them: which is moved, and to where. */
export function SticksPicture({ sticks }: { sticks: Sticks }) {
  return (
    <svg viewBox="0 0 150 82" className="bench-picture sticks" role="img" aria-label="Where the sticks are">
      <Stick x={38} turn={sticks.rudder} up={sticks.collective} under="collective" />
      <Stick x={112} turn={sticks.aileron} up={sticks.elevator} under="cyclic" />
    </svg>
  )
}

function Stick({ x, turn, up, under }: { x: number; turn: number; up: number; under: string }) {
  const moved = turn !== 0 || up !== 0
  return (
    <g>
      <rect className="well" x={x - 30} y="4" width="60" height="60" rx="12" />
      <path className="cross" d={`M${x - 24} 34h48M${x} 10v48`} />
      <circle className={moved ? 'knob moved' : 'knob'} cx={x + 21 * turn} cy={34 - 21 * up} r="9" />
      <text x={x} y="79" className="mark">{under}</text>
    </g>
  )
}

/** Where the instrument goes that is not on a blade. */
export function SpotPicture({ measure }: { measure: Measure }) {
  return (
    <svg viewBox="0 0 140 140" className="bench-picture" role="img" aria-label={SPOTS[measure]?.[0] ?? measure}>
      {SPOTS[measure]?.[1]}
    </svg>
  )
}

const horn = (
  <>
    <rect className="body" x="20" y="62" width="46" height="62" rx="5" />
    <path className="dashed" d="M52 76h78" />
    <path className="blade" d="M52 82a7 7 0 0 1 0-13l54-12a6 6 0 0 1 3 12z" />
    <circle className="gauge-eye" cx="108" cy="63" r="5" />
    <path className="arrow" d="M122 76a60 60 0 0 0-3-16m-4 5 4-6 5 5" />
  </>
)
const ring = (tilt: ReactNode) => (
  <>
    <path className="body" d="M66 14h8v112h-8z" />
    <ellipse className="blade" cx="70" cy="84" rx="52" ry="13" />
    <rect className="gauge" x="28" y="62" width="84" height="11" rx="3" />
    <ellipse className="gauge-eye" cx="70" cy="67.500" rx="7" ry="3.500" />
    {tilt}
  </>
)
const arm = (
  <>
    <path className="body" d="M62 20h16v104H62z" />
    <path className="dashed" d="M10 72h120" />
    <path className="blade" d="M34 66l70-6 2 12-70 6z" />
    <circle className="hub" cx="70" cy="69" r="6" />
    <circle className="gauge-eye" cx="36" cy="72" r="5" />
    <circle className="gauge-eye" cx="104" cy="66" r="5" />
  </>
)
const caliper = (
  <>
    <path className="body" d="M60 10h10v120H60z" />
    <rect className="blade" x="46" y="66" width="38" height="16" rx="4" />
    <path className="gauge" d="M96 20h26v8h-18v88h18v8H96z" />
    <path className="arrow" d="M112 40v60m-4-5 4 6 4-6m-8-50 4-6 4 6" />
  </>
)
const tail = (
  <>
    <path className="body" d="M6 64h84v12H6z" />
    <rect className="body" x="86" y="52" width="22" height="36" rx="5" />
    <path className="blade" d="M108 66h22v8h-22z" />
    <rect className="blade" x="112" y="58" width="10" height="24" rx="3" />
    <path className="arrow" d="M104 44h28m-5-4 6 4-6 4" />
  </>
)

const SPOTS: Partial<Record<Measure, [string, ReactNode]>> = {
  'horn-angle': ['The servo from the side: the horn against level', horn],
  'lever-angle': ['The lever against level', arm],
  'fore-aft-tilt': ['The leveller on the swashplate, front to back', ring(<text x="70" y="118" className="mark">nose to the left</text>)],
  'side-tilt': ['The leveller on the swashplate, side to side', ring(<text x="70" y="118" className="mark">seen from behind</text>)],
  'swash-height': ['The caliper at the swashplate', caliper],
  'washout-height': ['The caliper at the washout base', caliper],
  'washout-arm': ['The washout arm against level', arm],
  'mixing-arm': ['The mixing arm against level', arm],
  'tail-horn-angle': ['The tail servo: the horn against square', horn],
  slider: ['The tail slider along its shaft', tail],
  'tail-pitch': ['The gauge on the tail blade', tail],
}
