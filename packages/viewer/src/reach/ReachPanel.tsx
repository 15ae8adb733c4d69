/** Reach: where on the sticks this machine can go, as three maps of the cyclic stick, in a sentence, and place by place. */
import { useId, useMemo, useState } from 'react'
import { machineIn, preparedOf } from '../state/pose.ts'
import { COLLECTIVES, COARSE, FINE, stickAt } from '../state/reach.ts'
import { usePage, usePageStore } from '../ui/usePage.ts'
import { limitRing, limitsCorners } from './limit-ring.ts'
import { Legend, ReachMapView } from './ReachMapView.tsx'
import { type ReachUse, useReach } from './useReach.ts'
import { LEVELS, placeSays, reachSays, type Shares } from './words.ts'
import './reach.css'

/** More sentences than this are not read; the maps show the rest. */
const SAID = 3

export function ReachPanel() {
  const store = usePageStore()
  const use = useReach()
  const { map, stale } = use
  const machine = usePage(machineIn)
  const ring = useMemo(() => limitRing(preparedOf(machine)), [machine])
  const words = useMemo(() => {
    if (!map) return undefined
    return reachSays(map, limitsCorners(limitRing(preparedOf(map.machine))))
  }, [map])
  const [place, setPlace] = useState<number>()
  const summary = useId()

  const put = (n: number): void => {
    if (!map) return
    const { side } = map
    const inMap = n % (side * side)
    const collective = COLLECTIVES[Math.floor(n / (side * side)) as 0]
    const sticks = { collective, elevator: stickAt(Math.floor(inMap / side), side), aileron: stickAt(inMap % side, side) }
    store.getState().setSticks(sticks, 'put the sticks where the map was tapped')
  }
  return (
    <section className="reach" aria-labelledby="reach-name" aria-busy={use.working !== undefined}>
      <h2 id="reach-name">Reach</h2>
      <div id={summary} className={stale ? 'reach-says stale' : 'reach-says'}>
        {words ? (
          <>
            {words.says.slice(0, SAID).map((one, k) => (
              <p key={one} className={k === 0 ? 'first' : ''}>
                {one}
              </p>
            ))}
            {words.says.length > SAID && <p>And {words.says.length - SAID} more of the kind, in the maps.</p>}
          </>
        ) : (
          <p className="first">Where on the sticks can this machine go?</p>
        )}
      </div>
      <div className={stale ? 'reach-maps stale' : 'reach-maps'}>
        {LEVELS.map((level, k) => (
          <ReachMapView key={level} level={level} place={k} map={map} ring={ring} at={setPlace} put={put} describedBy={summary} />
        ))}
      </div>
      <p className="reach-place">
        {map && place !== undefined
          ? placeSays(map, place)
          : 'Up is forward elevator, right is right aileron. Tap a map to put the sticks there.'}
      </p>
      <Legend ring={ring !== undefined} />
      {words && <Parts shares={words.shares} />}
      <Work {...use} />
    </section>
  )
}

/** Shares to the percent, but none that is there is called none, nor all that is not. */
function percent(share: number): string {
  if (share > 0 && share < 0.01) return 'under 1\u00a0%'
  if (share < 1 && share > 0.99) return 'over 99\u00a0%'
  return `${Math.round(100 * share)}\u00a0%`
}

function Parts({ shares: { free, cut, missed } }: { shares: Shares }) {
  return (
    <p className="small quiet">
      Of the three maps {percent(free)} is free, {percent(cut)} cut off, {percent(missed)} out of reach, with the rotor at any of
      twelve places.
    </p>
  )
}

function Work({ map, working, stale, put, trouble, finer, again, cancel }: ReachUse) {
  const [word, button] = working
    ? [`Working at 3 × ${working.side} × ${working.side} places`, undefined]
    : trouble !== undefined
      ? [`The work stopped: ${trouble}.`, again]
      : stale
        ? [put ? 'Cancelled. The maps are not of the machine as it is.' : 'The machine has changed.', put ? again : undefined]
        : put
          ? [`Cancelled. The maps stand at ${map?.side} × ${map?.side} places.`, finer]
          : [
              `${map?.side} × ${map?.side} places a map, in ${((map?.tookMs ?? 0) / 1000).toFixed(1)} s`,
              map?.side === FINE ? undefined : finer,
            ]
  return (
    <div className="reach-work">
      <p className="small quiet" role="status">
        {word}
      </p>
      {working ? (
        <button type="button" className="button" onClick={cancel}>
          Cancel
        </button>
      ) : (
        button && (
          <button type="button" className="button" onClick={button}>
            {button === finer ? 'Finer' : 'Work it out'}
          </button>
        )
      )}
      <progress
        max={1}
        value={working?.done ?? 0}
        className={working && (working.side > COARSE || working.done > 0) ? '' : 'still'}
        aria-label="Reach, worked out so far"
      />
    </div>
  )
}
