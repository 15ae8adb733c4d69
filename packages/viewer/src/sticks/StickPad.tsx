/**
 * One stick of a transmitter: two axes under one thumb. Mouse, touch and keyboard; where it springs back, it does so on
 * release of the pointer. The keyboard leaves it where it was put (Home centres it), so that one can look in peace.
 */
import { type KeyboardEvent, type PointerEvent, useRef } from 'react'
import type { StickName } from '../state/session.ts'
import { actingSticks } from '../state/store.ts'
import { useReadout, written } from '../ui/live.tsx'
import { usePage, usePageStore } from '../ui/usePage.ts'

export interface Axis {
  readonly stick: StickName
  /** what plus and minus are called, as one sees them on the machine */
  readonly plus: string
  readonly minus: string
  readonly springs: boolean
}

const STEP = 0.1
const FINE_STEP = 0.02
const held = (value: number): number => Math.max(-1, Math.min(1, Math.round(value * 100) / 100))

export function StickPad(props: { name: string; x: Axis | undefined; y: Axis }) {
  const { name, x, y } = props
  const store = usePageStore()
  const spring = usePage((state) => state.view.spring)
  const pad = useRef<HTMLDivElement>(null)
  const knob = useRef<HTMLDivElement>(null)
  const says = useRef<HTMLParagraphElement>(null)
  const gesture = `stick ${name}`

  const say = (axis: Axis, value: number): string =>
    `${axis.stick} ${written(Math.abs(value) * 100, 0, false)}\u00a0%${value === 0 ? '' : ` ${value > 0 ? axis.plus : axis.minus}`}`

  useReadout(({ state }) => {
    const sticks = actingSticks(state)
    const across = x ? sticks[x.stick] : 0
    const up = sticks[y.stick]
    if (knob.current) knob.current.style.translate = `calc(${across} * var(--throw)) calc(${-up} * var(--throw))`
    const words = x ? `${say(y, up)}, ${say(x, across)}` : say(y, up)
    if (says.current) says.current.textContent = words
    pad.current?.setAttribute('aria-valuenow', String(Math.round(up * 100)))
    pad.current?.setAttribute('aria-valuetext', words)
  })

  const put = (across: number, up: number, did: string): void => {
    const to: Partial<Record<StickName, number>> = { [y.stick]: held(up) }
    if (x) to[x.stick] = held(across)
    store.getState().setSticks(to, did, gesture)
  }

  const drag = (event: PointerEvent<HTMLDivElement>): void => {
    const box = event.currentTarget.getBoundingClientRect()
    const reach = (box.width / 2) * REACH
    put(
      (event.clientX - box.left - box.width / 2) / reach,
      -(event.clientY - box.top - box.height / 2) / reach,
      `moved the ${name} stick`,
    )
  }

  const release = (event: PointerEvent<HTMLDivElement>): void => {
    if (!event.currentTarget.hasPointerCapture(event.pointerId)) return
    event.currentTarget.releasePointerCapture(event.pointerId)
    if (spring) {
      const sticks = actingSticks(store.getState())
      put(x?.springs ? 0 : x ? sticks[x.stick] : 0, y.springs ? 0 : sticks[y.stick], `moved the ${name} stick`)
    }
    store.getState().endGesture()
  }

  const key = (event: KeyboardEvent<HTMLDivElement>): void => {
    const by = event.shiftKey ? FINE_STEP : STEP
    const sticks = actingSticks(store.getState())
    const across = x ? sticks[x.stick] : 0
    const up = sticks[y.stick]
    const moves: Record<string, readonly [number, number]> = {
      ArrowUp: [across, up + by],
      ArrowDown: [across, up - by],
      ArrowLeft: [across - by, up],
      ArrowRight: [across + by, up],
      PageUp: [across, 1],
      PageDown: [across, -1],
      Home: [0, 0],
    }
    const to = moves[event.key]
    if (!to) return
    event.preventDefault()
    put(to[0], to[1], `moved the ${name} stick`)
  }

  return (
    <div className="stick">
      <div
        ref={pad}
        className={x ? 'pad' : 'pad single'}
        role="slider"
        tabIndex={0}
        aria-label={`${name} stick`}
        aria-roledescription={x ? 'stick with two axes' : 'stick'}
        aria-orientation="vertical"
        aria-valuemin={-100}
        aria-valuemax={100}
        aria-valuenow={0}
        aria-describedby="stick-keys"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          event.currentTarget.focus({ preventScroll: true })
          drag(event)
        }}
        onPointerMove={(event) => event.currentTarget.hasPointerCapture(event.pointerId) && drag(event)}
        onPointerUp={release}
        onPointerCancel={release}
        onKeyDown={key}
        onBlur={() => store.getState().endGesture()}
      >
        <span className="pad-word top">{y.plus}</span>
        <span className="pad-word bottom">{y.minus}</span>
        {x && <span className="pad-word left">{x.minus}</span>}
        {x && <span className="pad-word right">{x.plus}</span>}
        <div ref={knob} className="knob" />
      </div>
      <p className="stick-name">{name}</p>
      <p ref={says} className="stick-says" />
    </div>
  )
}

/** How much of the half width is the stick's full throw: the rest is room for the knob. */
const REACH = 0.72
