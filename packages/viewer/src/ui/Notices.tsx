/** What the page has to say until it is dismissed: above all why a document was refused, fault by fault. */
import { X } from 'lucide-react'
import { useActions, usePage } from './usePage.ts'

export function Notices() {
  const actions = useActions()
  const notice = usePage((state) => state.view.notice)
  if (!notice) return null
  return (
    <div className="notice rise" role="alert">
      <div className="notice-head">
        <p>{notice.text}</p>
        <button
          type="button"
          className="button plain icon"
          aria-label="Dismiss"
          onClick={() => actions.show({ notice: undefined })}
        >
          <X size={18} aria-hidden />
        </button>
      </div>
      {notice.faults && (
        <ol>
          {notice.faults.map((fault) => (
            <li key={`${fault.pointer}${fault.got}`}>
              <code>{fault.pointer === '' ? 'the whole document' : fault.pointer}</code>
              <span>
                got {fault.got}, expected {fault.expected}
              </span>
              <span className="quiet">{fault.wayOut}</span>
            </li>
          ))}
        </ol>
      )}
    </div>
  )
}
