/**
 * Where the gauge sits, which way the blade points, where the stick is: small drawings that read at arm's length. From
 * above with the nose up, as a person stands behind the machine. Orange is what a hand places or moves.
 */
import type { Measure, Pointing, Sticks } from '@swashtrue/mixing/bench'
import type { ReactNode } from 'react'

const ANGLE: Readonly<Record<Pointing, number>> = { nose: 0, right: 90, tail: 180, left: 270 }
const HUB = { x: 80, y: 74 }
const at = (deg: number, radius: number): string => {
  const rad = (deg * Math.PI) / 180
  return `${(HUB.x + radius * Math.sin(rad)).toFixed(1)} ${(HUB.y - radius * Math.cos(rad)).toFixed(1)}`
}

export interface BladeShown {
  pointing: Pointing
  flipped: boolean
  /** the blade (or paddle) under the gauge, from 1 */
  of: number
  /** how many stand round the mast */
  blades: number
  clockwise: boolean
  paddle: boolean
}

/** The machine from above: every blade, the one under the gauge dark and numbered, its leading edge drawn. */
export function BladePicture({ pointing, flipped, of, blades, clockwise, paddle }: BladeShown) {
  const here = ANGLE[pointing]
  const ahead = clockwise ? 1 : -1
  const others = Array.from({ length: blades - 1 }, (_, k) => here + ((k + 1) * 360) / blades)
  const word = paddle ? 'paddle' : 'blade'
  const edge = ahead * 5.5
  return (
    <svg
      viewBox="0 0 160 160"
      className="bench-picture"
      role="img"
      aria-label={`From above, nose up: ${word} ${of} with the gauge points to the ${pointing}; the rotor turns ${clockwise ? 'clockwise' : 'counter-clockwise'}`}
    >
      <path className="body" d="M80 28c13 0 19 15 19 33 0 18-7 27-11 34v48H72V95c-4-7-11-16-11-34 0-18 6-33 19-33z" />
      <path className="body" d="M64 136h32v6H64z" />
      <text x="80" y="13" className="mark">
        nose
      </text>
      <text x="80" y="157" className="mark">
        tail
      </text>
      {others.map((deg) => (
        <path key={deg} className="blade-other" d={`M${at(deg, 8)} L${at(deg, 56)}`} />
      ))}
      <g transform={`rotate(${here} ${HUB.x} ${HUB.y})`}>
        <path
          className="blade"
          d={paddle ? `M76 ${HUB.y}V34h-6V18h20v16h-6v${HUB.y - 34}z` : `M74 ${HUB.y}V16h12v${HUB.y - 16}z`}
        />
        <path className="leading" d={`M${HUB.x + edge} ${HUB.y - 8}V${paddle ? 34 : 17}`} />
        <rect className="gauge" x={flipped ? 62 : 66} y={paddle ? 20 : 30} width="32" height="13" rx="3" />
        <circle className="gauge-eye" cx={flipped ? 68 : 92} cy={paddle ? 26.5 : 36.5} r="3.5" />
      </g>
      <circle className="hub" cx={HUB.x} cy={HUB.y} r="10" />
      <text x={HUB.x} y={HUB.y + 4.5} className="hub-mark">
        {of}
      </text>
      <path
        className="turning"
        d={`M${at(here + ahead * 20, 62)} A62 62 0 0 ${clockwise ? 1 : 0} ${at(here + ahead * 56, 62)}`}
      />
      <path className="turning-head" d={arrowHead(here + ahead * 56, ahead)} />
    </svg>
  )
}

function arrowHead(deg: number, ahead: number): string {
  return `M${at(deg + ahead * 8, 62)} L${at(deg - ahead * 1, 56)} L${at(deg - ahead * 1, 68)}Z`
}

/** The blade cut across, the gauge on it: which way is plus. */
export function SectionPicture({ flipped }: { flipped: boolean }) {
  return (
    <svg
      viewBox="0 0 150 70"
      className="bench-picture section"
      role="img"
      aria-label={`The gauge sits square on the blade${flipped ? ', turned end for end' : ''}; leading edge up is plus`}
    >
      <path className="dashed" d="M12 44h112" />
      <g transform="rotate(-14 68 44)">
        <path className="blade" d="M24 44c8-9 26-11 44-8l44 8-44 6c-18 2-36 2-44-6z" />
        <path className="gauge" d="M38 24h64v5H96v9h-6v-9H50v9h-6v-9h-6z" />
        <circle className="gauge-eye" cx={flipped ? 90 : 46} cy="20" r="7" />
      </g>
      <path className="arrow" d="M16 44a54 54 0 0 1 4-20m-6 4 6-5 4 7" />
      <text x="14" y="16" className="mark plus">
        +
      </text>
      <text x="52" y="66" className="mark">
        leading edge
      </text>
    </svg>
  )
}

/** Both sticks, as a hand sees them: which is moved, and to where. */
export function SticksPicture({ sticks }: { sticks: Sticks }) {
  return (
    <svg viewBox="0 0 150 84" className="bench-picture sticks" role="img" aria-label="Where the sticks are">
      <Stick x={38} turn={sticks.rudder} up={sticks.collective} under={sticks.rudder === 0 ? 'collective' : 'rudder'} />
      <Stick
        x={112}
        turn={sticks.aileron}
        up={sticks.elevator}
        under={sticks.elevator !== 0 ? 'elevator' : sticks.aileron !== 0 ? 'aileron' : 'cyclic'}
      />
    </svg>
  )
}

function Stick({ x, turn, up, under }: { x: number; turn: number; up: number; under: string }) {
  const moved = turn !== 0 || up !== 0
  const [cx, cy] = [x + 21 * turn, 34 - 21 * up]
  return (
    <g>
      <rect className="well" x={x - 30} y="4" width="60" height="60" rx="12" />
      <path className="cross" d={`M${x - 24} 34h48M${x} 10v48`} />
      {moved && <path className="arrow" d={`M${x} 34L${cx} ${cy}`} />}
      <circle className={moved ? 'knob moved' : 'knob'} cx={cx} cy={cy} r="9" />
      <text x={x} y="79" className={moved ? 'mark moved' : 'mark'}>
        {under}
      </text>
    </g>
  )
}

/** Where the instrument goes that is not on a blade; the arrow points to plus. */
export function SpotPicture({ measure }: { measure: Measure }) {
  return (
    <svg viewBox="0 0 160 140" className="bench-picture" role="img" aria-label={SPOTS[measure]?.[0] ?? measure}>
      {SPOTS[measure]?.[1]}
    </svg>
  )
}

/** An arrow head at the end of an arc or line, turned by degrees. */
const head = (x: number, y: number, deg: number) => (
  <path className="turning-head" d="M0 -7L6 5H-6Z" transform={`translate(${x} ${y}) rotate(${deg})`} />
)
const plus = (x: number, y: number) => (
  <text x={x} y={y} className="mark plus">
    +
  </text>
)

const horn = (
  <>
    <rect className="body" x="26" y="64" width="50" height="64" rx="5" />
    <path className="body" d="M18 78h66v10H18z" />
    <path className="dashed" d="M52 68h96" />
    <path className="blade" d="M50 76a9 9 0 0 1-2-17l70-21a7 7 0 0 1 4 13z" />
    <circle className="hub" cx="52" cy="68" r="5" />
    <circle className="gauge-eye" cx="120" cy="45" r="6" />
    <path className="turning" d="M140 68a88 88 0 0 0-6-30" />
    {head(132, 33, -20)}
    {plus(148, 40)}
    <text x="112" y="86" className="mark">
      level
    </text>
  </>
)
const ring = (left: string, right: string, seen: string) => (
  <>
    <path className="body" d="M75 10h10v104H75z" />
    <path className="dashed" d="M10 78h140" />
    <g transform="rotate(9 80 78)">
      <ellipse className="blade" cx="80" cy="80" rx="56" ry="12" />
      <rect className="gauge" x="34" y="52" width="92" height="13" rx="3" />
      <ellipse className="gauge-eye" cx="80" cy="58.500" rx="9" ry="4" />
    </g>
    <path className="turning" d="M148 60a80 80 0 0 1 1 26" />
    {head(147, 92, 190)}
    {plus(140, 52)}
    <text x="14" y="106" className="mark start">
      {left}
    </text>
    <text x="146" y="112" className="mark end">
      {right}
    </text>
    <text x="80" y="134" className="mark">
      {seen}
    </text>
  </>
)
const arm = (
  <>
    <path className="body" d="M70 14h18v112H70z" />
    <path className="dashed" d="M10 72h140" />
    <path className="blade" d="M36 76l88-24 3 12-88 24z" />
    <circle className="hub" cx="80" cy="70" r="6" />
    <circle className="gauge-eye" cx="40" cy="82" r="6" />
    <circle className="gauge-eye" cx="122" cy="59" r="6" />
    <path className="turning" d="M146 70a66 66 0 0 0-4-22" />
    {head(140, 43, -18)}
    {plus(152, 44)}
  </>
)
const caliper = (
  <>
    <path className="body" d="M68 8h12v126H68z" />
    <rect className="blade" x="46" y="66" width="56" height="18" rx="5" />
    <path className="gauge" d="M112 14h24v9h-14v96h14v9h-24z" />
    <path className="turning" d="M148 96V52" />
    {head(148, 46, 0)}
    {plus(148, 34)}
  </>
)
const tail = (
  <>
    <path className="body" d="M6 62h78v16H6z" />
    <rect className="body" x="78" y="48" width="28" height="44" rx="6" />
    <path className="blade" d="M106 65h38v10h-38z" />
    <rect className="gauge" x="114" y="56" width="13" height="28" rx="3" />
    <path className="turning" d="M106 104h32" />
    {head(142, 104, 90)}
    {plus(124, 124)}
    <text x="38" y="56" className="mark">
      boom
    </text>
  </>
)

const SPOTS: Partial<Record<Measure, [string, ReactNode]>> = {
  'horn-angle': ['The servo from the side: the horn against level', horn],
  'lever-angle': ['The lever against level', arm],
  'fore-aft-tilt': [
    'The leveller on the swashplate, front to back, seen from the right',
    ring('tail', 'nose', 'seen from the right'),
  ],
  'side-tilt': ['The leveller on the swashplate, side to side, seen from behind', ring('left', 'right', 'seen from behind')],
  'swash-height': ['The caliper at the swashplate', caliper],
  'washout-height': ['The caliper at the washout base', caliper],
  'washout-arm': ['The washout arm against level', arm],
  'mixing-arm': ['The mixing arm against level', arm],
  'tail-horn-angle': ['The tail servo: the horn against square', horn],
  slider: ['The tail slider along its shaft, from above', tail],
  'tail-pitch': ['The gauge on the tail blade', <SectionPicture key="tail" flipped={false} />],
}
