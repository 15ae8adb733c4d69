/**
 * The signal path, sticks to blades, as a strip: each station shows the numbers that it acts on, and the transmitter's
 * stations open to be changed where they act.
 */
import { ChevronRight } from 'lucide-react'
import { useState } from 'react'
import { mayShowChanges } from '../state/store.ts'
import { usePage } from '../ui/usePage.ts'
import { useStations } from './stations.tsx'
import './path.css'

const NONE: readonly { path: string }[] = []

export function SignalPath() {
  const [open, setOpen] = useState<string>()
  const stations = useStations()
  const changes = usePage((state) => (mayShowChanges(state) ? state.session.changes : NONE))
  const opened = stations.find(({ id }) => id === open)
  return (
    <>
      {opened?.edit && (
        <section className="station-editor rise" aria-label={`${opened.name}: settings`}>
          <div className="list-head">
            <h2>{opened.name}</h2>
            <button type="button" className="button plain" onClick={() => setOpen(undefined)}>
              Close
            </button>
          </div>
          <div className="station-fields">{opened.edit}</div>
        </section>
      )}
      <ol className="stations" aria-label="Signal path, sticks to blades">
        {stations.map(({ id, name, show, edit, under }) => {
          const off = changes.some(({ path }) => under.some((one) => path.startsWith(one)))
          return (
            <li key={id} className={off ? 'station off-record' : 'station'}>
              {edit ? (
                <button
                  type="button"
                  className="station-head"
                  aria-expanded={open === id}
                  onClick={() => setOpen(open === id ? undefined : id)}
                >
                  {name}
                  {off && <span className="visually-hidden"> (not as recorded)</span>}
                  <ChevronRight size={16} aria-hidden />
                </button>
              ) : (
                <h3 className="station-head">{name}</h3>
              )}
              <div className="station-body">{show}</div>
            </li>
          )
        })}
      </ol>
    </>
  )
}
