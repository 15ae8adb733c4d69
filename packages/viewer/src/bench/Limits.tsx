/** What no bench can tell, said and not hidden. */
const LIMITS: readonly string[] = [
  'A spline tooth, an angle, a sub-trim and a servo’s own neutral pulse all turn one horn: no gauge tells them apart. Look at the sub-trim and the servo’s label.',
  'Swapped leads of two side servos that are alike do just what a wrong aileron sign does. Follow the wires.',
  'One step of a link, 0.2 mm, is half a degree of blade or more; a 0.4 mm one a whole degree.',
  'Two degrees at one servo’s neutral drown in the scatter that every machine has. That is no fault.',
  'A leveller on gravity shows the bench’s lean and the swashplate’s tilt as one. Lay it against the mast.',
]

export function Limits() {
  return (
    <details className="bench-more">
      <summary>What a bench cannot tell</summary>
      <ul className="bench-limits">
        {LIMITS.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </details>
  )
}
