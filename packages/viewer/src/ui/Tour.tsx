/**
 * The first minute: the machine has moved by itself; push elevator on a true machine, then on one whose horn stands
 * off, and be told which horn and which way.
 */
import { X } from 'lucide-react'
import { useEffect } from 'react'
import { sideServo } from '../workbench/riddles.ts'
import { RiddleChooser } from '../workbench/Riddles.tsx'
import { usePage, usePageStore } from './usePage.ts'

export function Tour() {
  const store = usePageStore()
  const step = usePage((state) => state.view.tour)
  const playing = usePage((state) => state.play !== undefined)

  // On the very first visit the machine goes once round its sticks by itself, unless less motion was asked for.
  useEffect(() => {
    const { view, play, startMotion } = store.getState()
    if (view.tour === 0 && !play && !matchMedia('(prefers-reduced-motion: reduce)').matches) startMotion('circle', true)
  }, [store])

  const side = usePage((state) => sideServo(state.session.record))
  const horn = `/servos/${side}/horn/offset`
  if (step === 'done') return null
  const go = (to: number | 'done'): void => store.getState().show({ tour: to })
  const push = (to: number): void => {
    store.getState().startMotion('push-elevator', true)
    go(to)
  }
  const misset = (): void => {
    store.getState().change({ path: horn, by: 8 }, `set servo ${side + 1}'s horn 8 degrees high`)
    push(2)
  }
  const putRight = (): void => {
    store.getState().takeBack(horn)
    push(3)
  }
  return (
    <aside className="tour rise" aria-label="First look">
      <button type="button" className="button plain icon tour-close" aria-label="Put this card away" onClick={() => go('done')}>
        <X size={18} aria-hidden />
      </button>
      {step === 0 && (
        <>
          <div className="tour-words">
            <h2>This machine is true</h2>
            <p>Push elevator. The swashplate tips forward, and only forward.</p>
          </div>
          <button type="button" className="button strong" onClick={() => push(1)}>
            Push elevator
          </button>
        </>
      )}
      {step === 1 && (
        <>
          <div className="tour-words">
            <h2>Now set one horn wrong</h2>
            <p>Servo {side + 1}’s horn goes up 8 degrees on its spline. The same push, another answer.</p>
          </div>
          <button type="button" className="button strong" disabled={playing} onClick={misset}>
            Set it wrong and push elevator
          </button>
        </>
      )}
      {step === 2 && (
        <>
          <div className="tour-words">
            <h2>It leans, and the stick is not to blame</h2>
            <p>
              <span className="as-is strong-word">Solid</span> is the machine,{' '}
              <span className="as-recorded strong-word">the ghost</span> is how it was recorded. The sentence names the horn.
            </p>
          </div>
          <div className="row">
            <button type="button" className="button" onClick={() => push(2)}>
              Push elevator
            </button>
            <button type="button" className="button strong" onClick={putRight}>
              Put it right
            </button>
          </div>
        </>
      )}
      {step === 3 && (
        <>
          <div className="tour-words">
            <h2>What is wrong here?</h2>
            <p>Three machines, each with one fault out of sight.</p>
          </div>
          <RiddleChooser />
        </>
      )}
    </aside>
  )
}
