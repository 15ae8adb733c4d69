/** The page: scene, sentence, hands, workspaces and signal path, laid out for a desk or for a phone. */
import { type DragEvent, lazy, Suspense, useEffect, useState } from 'react'
import { TiltDial } from '../plots/TiltDial.tsx'
import { openText } from '../state/documents.ts'
import { Header, redo, undo } from './Header.tsx'
import { Notices } from './Notices.tsx'
import { SceneTools } from './SceneTools.tsx'
import { Tour } from './Tour.tsx'
import { usePage, usePageStore } from './usePage.ts'
import { useWide } from './useWide.ts'
import { Verdict } from './Verdict.tsx'
import { WORKSPACES, type Workspace } from './workspaces.tsx'
import './page.css'
import './cards.css'

// Three and its renderer come apart from the rest, so that words and sticks are there at once.
const SceneView = lazy(async () => ({ default: (await import('../scene/SceneView.tsx')).SceneView }))

const inPlace = (place: Workspace['place']): readonly Workspace[] => WORKSPACES.filter((one) => one.place === place)

export function Page() {
  const store = usePageStore()
  const wide = useWide()
  const theme = usePage((state) => state.view.theme)
  const [over, setOver] = useState(false)

  useEffect(() => {
    if (theme === 'system') delete document.documentElement.dataset['theme']
    else document.documentElement.dataset['theme'] = theme
  }, [theme])
  useUndoKeys()

  const drop = async (event: DragEvent): Promise<void> => {
    event.preventDefault()
    setOver(false)
    const file = event.dataTransfer.files[0]
    if (file) await openText(store, await file.text(), file.name)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a place to drop a file on; the same is done by the Open button
    <div
      className={over ? 'page dragging' : 'page'}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={(event) => event.relatedTarget === null && setOver(false)}
      onDrop={drop}
    >
      <Header />
      <main className="scene" aria-label="The machine">
        {wide && <Verdict />}
        <div className="stage">
          <Suspense fallback={<p className="no-3d">The machine is being set up.</p>}>
            <SceneView />
          </Suspense>
          <div className="dial-corner">
            <TiltDial words={false} />
            <p>
              tilt <span className="as-recorded strong-word">asked</span>, <span className="as-is strong-word">got</span>
            </p>
          </div>
          <SceneTools />
        </div>
        <Notices />
        {wide && <Tour />}
      </main>
      {wide ? <Desk /> : <Phone />}
      {over && <p className="drop-word">Let go to open this document</p>}
    </div>
  )
}

function Desk() {
  return (
    <>
      {inPlace('left').map(({ id, name, Panel }) => (
        <section key={id} className="hands" aria-label={name}>
          <Panel />
        </section>
      ))}
      <div className="work">
        <Tabs spaces={inPlace('right')} />
      </div>
      {inPlace('bottom').map(({ id, name, Panel }) => (
        <section key={id} className="path" aria-label={name}>
          <Panel />
        </section>
      ))}
    </>
  )
}

function Tabs({ spaces }: { spaces: readonly Workspace[] }) {
  const store = usePageStore()
  const wanted = usePage((state) => state.view.workspace)
  const open = spaces.find(({ id }) => id === wanted) ?? spaces[0]
  if (!open) return null
  return (
    <>
      <TabList className="" spaces={spaces} open={open} choose={(id) => store.getState().show({ workspace: id })} icons={false} />
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a tab panel that scrolls takes the focus, so that it scrolls by keyboard */}
      <div role="tabpanel" id="workspace" aria-labelledby={`tab-${open.id}`} tabIndex={0}>
        <open.Panel />
      </div>
    </>
  )
}

function Phone() {
  const store = usePageStore()
  const wanted = usePage((state) => state.view.workspace)
  const open = WORKSPACES.find(({ id }) => id === wanted) ?? (WORKSPACES[0] as Workspace)
  return (
    <>
      <Verdict />
      <div className="work sheet">
        <div
          role="tabpanel"
          id="workspace"
          aria-labelledby={`tab-${open.id}`}
          // biome-ignore lint/a11y/noNoninteractiveTabindex: a tab panel that scrolls takes the focus, so that it scrolls by keyboard
          tabIndex={0}
          className={open.place === 'left' ? 'hands-sheet' : ''}
        >
          <Tour />
          <open.Panel />
        </div>
      </div>
      <TabList
        className="tabbar"
        spaces={WORKSPACES}
        open={open}
        choose={(id) => store.getState().show({ workspace: id })}
        icons
      />
    </>
  )
}

function TabList(props: {
  className: string
  spaces: readonly Workspace[]
  open: Workspace
  choose(id: string): void
  icons: boolean
}) {
  const { spaces, open, choose, icons } = props
  const step = (by: number): void => {
    const at = spaces.findIndex(({ id }) => id === open.id)
    const next = spaces[(at + by + spaces.length) % spaces.length]
    if (!next) return
    choose(next.id)
    document.getElementById(`tab-${next.id}`)?.focus()
  }
  return (
    <div
      className={props.className}
      role="tablist"
      aria-label="Workspaces"
      onKeyDown={(event) => {
        if (event.key === 'ArrowRight') step(1)
        if (event.key === 'ArrowLeft') step(-1)
      }}
    >
      {spaces.map(({ id, name, icon }) => (
        <button
          key={id}
          type="button"
          role="tab"
          id={`tab-${id}`}
          aria-selected={id === open.id}
          aria-controls="workspace"
          tabIndex={id === open.id ? 0 : -1}
          onClick={() => choose(id)}
        >
          {icons && icon}
          {name}
        </button>
      ))}
    </div>
  )
}

/** Undo and redo by the usual keys, but not while a number is being typed. */
function useUndoKeys(): void {
  const store = usePageStore()
  useEffect(() => {
    const key = (event: KeyboardEvent): void => {
      const typing = event.target instanceof HTMLInputElement && event.target.type !== 'range' && event.target.type !== 'checkbox'
      if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'z') {
        if (typing || !(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== 'y') return
        event.preventDefault()
        redo(store)
        return
      }
      event.preventDefault()
      if (event.shiftKey) redo(store)
      else undo(store)
    }
    addEventListener('keydown', key)
    return () => removeEventListener('keydown', key)
  }, [store])
}
