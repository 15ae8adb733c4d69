/** Name, document, undo and redo, and how the page looks. */
import { examples } from '@swashtrue/mixing'
import { Download, FolderOpen, Redo2, SunMoon, Undo2 } from 'lucide-react'
import { useRef } from 'react'
import { useStore } from 'zustand'
import { documentText, fileName, openText } from '../state/documents.ts'
import { machineIn } from '../state/pose.ts'
import { usePage, usePageStore } from './usePage.ts'

const THEMES = { system: 'light', light: 'dark', dark: 'system' } as const

export function Header() {
  const store = usePageStore()
  const name = usePage((state) => state.session.record.name)
  const did = usePage((state) => state.session.did)
  const theme = usePage((state) => state.view.theme)
  const steps = useStore(store.temporal, (temporal) => temporal.pastStates.length)
  const undone = useStore(store.temporal, (temporal) => temporal.futureStates.length)
  const picker = useRef<HTMLInputElement>(null)

  const save = (): void => {
    const rig = machineIn(store.getState())
    const address = URL.createObjectURL(new Blob([documentText(rig)], { type: 'application/json' }))
    const link = document.createElement('a')
    link.href = address
    link.download = fileName(rig)
    link.click()
    URL.revokeObjectURL(address)
  }

  return (
    <header>
      <h1 className="wordmark">
        <Mark />
        Swashtrue
      </h1>
      <p className="machine-name">{name}</p>
      <div className="push" />
      <button
        type="button"
        className="button plain icon"
        disabled={steps === 0}
        aria-label={steps === 0 ? 'Undo' : `Undo: ${did}`}
        title={steps === 0 ? 'Nothing to undo' : `Undo: ${did}`}
        onClick={() => undo(store)}
      >
        <Undo2 size={20} aria-hidden />
      </button>
      <button
        type="button"
        className="button plain icon"
        disabled={undone === 0}
        aria-label="Redo"
        title="Redo"
        onClick={() => redo(store)}
      >
        <Redo2 size={20} aria-hidden />
      </button>
      <button type="button" className="button plain" popoverTarget="machines" aria-haspopup="true">
        <FolderOpen size={20} aria-hidden /> <span className="wide-only">Open</span>
        <span className="visually-hidden narrow-only">Open</span>
      </button>
      <div id="machines" popover="auto" className="menu">
        <button
          type="button"
          className="button plain"
          popoverTarget="machines"
          popoverTargetAction="hide"
          onClick={() => picker.current?.click()}
        >
          A document of yours
          <small>or drag one onto the page</small>
        </button>
        {examples.map((example) => (
          <button
            key={example.name}
            type="button"
            className="button plain"
            popoverTarget="machines"
            popoverTargetAction="hide"
            onClick={() => void openText(store, JSON.stringify(example.document), example.name)}
          >
            {example.name.replaceAll('-', ' ')}
            <small>{example.about}</small>
          </button>
        ))}
      </div>
      <input
        ref={picker}
        type="file"
        accept=".json,application/json"
        hidden
        aria-label="Rig document to open"
        onChange={async (event) => {
          const file = event.target.files?.[0]
          event.target.value = ''
          if (file) await openText(store, await file.text(), file.name)
        }}
      />
      <button type="button" className="button plain" onClick={save}>
        <Download size={20} aria-hidden /> <span className="wide-only">Save</span>
        <span className="visually-hidden narrow-only">Save</span>
      </button>
      <button
        type="button"
        className="button plain icon"
        aria-label={`Colours: ${theme}. Change to ${THEMES[theme]}`}
        title={`Colours: ${theme}`}
        onClick={() => store.getState().show({ theme: THEMES[theme] })}
      >
        <SunMoon size={20} aria-hidden />
      </button>
    </header>
  )
}

type Store = ReturnType<typeof usePageStore>

/** A step back also stops a motion and ends a riddle: what is undone is what the hand did. */
export function undo(store: Store): void {
  store.getState().stopMotion()
  store.getState().show({ riddle: undefined })
  store.temporal.getState().undo()
}

export function redo(store: Store): void {
  store.getState().stopMotion()
  store.temporal.getState().redo()
}

function Mark() {
  return (
    <svg width="34" height="28" viewBox="0 0 34 28" aria-hidden>
      <ellipse cx="17" cy="15.5" rx="15" ry="5" fill="none" stroke="var(--as-recorded)" strokeWidth="2.2" />
      <ellipse
        cx="17"
        cy="15.5"
        rx="15"
        ry="5"
        fill="none"
        stroke="var(--as-is)"
        strokeWidth="2.8"
        transform="rotate(14 17 15.5)"
      />
      <path d="M17 2v24" stroke="var(--ink)" strokeWidth="3" strokeLinecap="round" />
    </svg>
  )
}
