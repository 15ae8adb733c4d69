/** What is not as recorded, each with a way to put it right. */
import { X } from 'lucide-react'
import { useActions, usePage } from '../ui/usePage.ts'
import { changedBy, changedPart } from './words.ts'

export function ChangeList() {
  const actions = useActions()
  const record = usePage((state) => state.session.record)
  const changes = usePage((state) => state.session.changes)
  if (changes.length === 0) {
    return (
      <p className="nothing-changed">
        The machine is as recorded. Set something wrong below, then move a stick: the machine shows it at once.
      </p>
    )
  }
  return (
    <section aria-label="Changes" className="change-list">
      <div className="list-head">
        <h2>Not as recorded</h2>
        <button type="button" className="button plain" onClick={() => actions.takeAllBack()}>
          Put all right
        </button>
      </div>
      <ul>
        {changes.map((change) => (
          <li key={change.path}>
            <span>
              {changedPart(record, change)} <strong className="as-is">{changedBy(record, change)}</strong>
            </span>
            <button
              type="button"
              className="button plain icon"
              aria-label={`Put right: ${changedPart(record, change)}`}
              onClick={() => actions.takeBack(change.path)}
            >
              <X size={18} aria-hidden />
            </button>
          </li>
        ))}
      </ul>
      <button type="button" className="button" onClick={() => actions.adopt()}>
        Make this the record
      </button>
    </section>
  )
}
