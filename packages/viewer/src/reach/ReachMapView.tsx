/** One map of the cyclic stick at one collective: the drawing, the limit's ring, and where the stick stands now. */
import { type PointerEvent, useEffect, useRef, useState } from 'react'
import type { ReachMap } from '../state/reach.ts'
import { actingSticks } from '../state/store.ts'
import { useReadout } from '../ui/live.tsx'
import { usePage } from '../ui/usePage.ts'
import { drawMap, type Inks } from './draw.ts'
import type { limitRing } from './limit-ring.ts'
import { placeIn } from './words.ts'

export function ReachMapView(props: {
  level: string
  /** place of the collective among the maps */
  place: number
  map: ReachMap | undefined
  ring: ReturnType<typeof limitRing>
  describedBy: string
  /** a place of the map is pointed at, or none any more */
  at(n: number | undefined): void
  put(n: number): void
}) {
  const { level, place, map, ring } = props
  const canvas = useRef<HTMLCanvasElement>(null)
  const stick = useRef<SVGCircleElement>(null)
  const redraw = useRedraw()

  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn anew where its colours or its size have changed
  useEffect(() => {
    if (!canvas.current || !map) return
    const each = map.side * map.side
    drawMap(
      canvas.current,
      map.codes.subarray(place * each, (place + 1) * each),
      map.side,
      inksOf(canvas.current),
      Math.min(3, Math.max(1, window.devicePixelRatio)),
    )
  }, [map, place, redraw])
  useReadout(({ state }) => {
    const { elevator, aileron } = actingSticks(state)
    stick.current?.setAttribute('transform', `translate(${aileron} ${-elevator})`)
  })

  const pointed = (event: PointerEvent): number | undefined => {
    const box = event.currentTarget.getBoundingClientRect()
    if (!map || box.width === 0) return undefined
    const held = (part: number): number => Math.max(-1, Math.min(1, 2 * part - 1))
    return placeIn(map, place, -held((event.clientY - box.top) / box.height), held((event.clientX - box.left) / box.width))
  }
  return (
    <figure>
      {/* What a tap does, the sticks themselves do by keyboard. */}
      <div
        className="reach-map"
        role="img"
        aria-label={`The cyclic stick at ${level} collective`}
        aria-describedby={props.describedBy}
        onPointerMove={(event) => props.at(pointed(event))}
        onPointerLeave={() => props.at(undefined)}
        onPointerUp={(event) => {
          const n = pointed(event)
          props.at(n)
          if (n !== undefined) props.put(n)
        }}
      >
        <canvas ref={canvas} />
        <svg viewBox="-1 -1 2 2" aria-hidden>
          <path className="reach-axis" d="M-1 0H1M0-1V1" />
          {ring && <path className="reach-ring under" d={pathOf(ring)} />}
          {ring && <path className="reach-ring" d={pathOf(ring)} />}
          <circle ref={stick} className="reach-stick" r="0.075" />
        </svg>
      </div>
      <figcaption>{level} collective</figcaption>
    </figure>
  )
}

function pathOf(ring: NonNullable<ReturnType<typeof limitRing>>): string {
  let path = ''
  let down = false
  for (const point of ring) {
    if (point) path += `${down ? 'L' : 'M'}${point[1].toFixed(4)} ${(-point[0]).toFixed(4)}`
    down = point !== undefined
  }
  return path
}

/** A number that changes when the page's colours do, or its width. */
function useRedraw(): string {
  const theme = usePage((state) => state.view.theme)
  const [seen, setSeen] = useState(0)
  useEffect(() => {
    const again = (): void => setSeen((n) => n + 1)
    const dark = matchMedia('(prefers-color-scheme: dark)')
    dark.addEventListener('change', again)
    addEventListener('resize', again)
    return () => {
      dark.removeEventListener('change', again)
      removeEventListener('resize', again)
    }
  }, [])
  return `${theme} ${seen}`
}

function inksOf(element: Element): Inks {
  const style = getComputedStyle(element)
  const ink = (name: string): [number, number, number] => {
    const hex = style.getPropertyValue(name).trim().slice(1)
    return [0, 2, 4].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as [number, number, number]
  }
  return {
    free: ink('--reach-free'),
    cut: ink('--reach-cut'),
    hatch: ink('--reach-hatch'),
    missed: ink('--reach-missed'),
    dot: ink('--reach-dot'),
  }
}

/** The patterns by name, drawn by what draws the maps. */
export function Legend({ ring }: { ring: boolean }) {
  return (
    <ul className="reach-legend">
      <Swatch code={0} says="free" />
      <Swatch code={1} says="output 1 cut off" />
      <Swatch code={2} says="output 2" />
      <Swatch code={4} says="output 3" />
      <Swatch code={8} says="out of reach" />
      {ring && (
        <li>
          <svg viewBox="0 0 20 20" width="20" height="20" aria-hidden>
            <circle className="reach-ring" cx="10" cy="10" r="7" />
          </svg>
          cyclic limit
        </li>
      )}
    </ul>
  )
}

function Swatch({ code, says }: { code: number; says: string }) {
  const canvas = useRef<HTMLCanvasElement>(null)
  const redraw = useRedraw()
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn anew where its colours have changed
  useEffect(() => {
    if (canvas.current)
      drawMap(canvas.current, Uint8Array.of(code), 1, inksOf(canvas.current), Math.max(1, window.devicePixelRatio))
  }, [code, redraw])
  return (
    <li>
      <canvas ref={canvas} aria-hidden />
      {says}
    </li>
  )
}
