/** "What is wrong here?": the fault is made out of sight; move the sticks, guess, and be told which part and which way. */
import { Play } from 'lucide-react'
import { useState } from 'react'
import { usePage, usePageStore } from '../ui/usePage.ts'
import { useAnswers } from '../ui/useAnswers.ts'
import { GUESSES, RIDDLES } from './riddles.ts'

export function RiddleChooser() {
  const store = usePageStore()
  return (
    <div className="riddle-choices">
      {RIDDLES.map(({ id, name }) => (
        <button key={id} type="button" className="button" onClick={() => poseRiddle(store, id)}>
          {name}
        </button>
      ))}
    </div>
  )
}

type Store = ReturnType<typeof usePageStore>

export function poseRiddle(store: Store, id: string): void {
  const riddle = RIDDLES.find((one) => one.id === id)
  if (!riddle) return
  const { session, show, startMotion } = store.getState()
  store.getState().takeAllBack()
  store.getState().change(riddle.changes(session.record), `posed a riddle: ${riddle.name}`)
  show({ riddle: id, told: false, workspace: 'mis-set', tour: 'done' })
  startMotion(riddle.motion)
}

export function RiddleCard({ id }: { id: string }) {
  const store = usePageStore()
  const [guess, setGuess] = useState<string>()
  const explanation = useAnswers((state) => state.latest?.explanation)
  const playing = usePage((state) => state.play?.playing ?? false)
  const riddle = RIDDLES.find((one) => one.id === id)
  const tell = (guessed: string | undefined): void => {
    setGuess(guessed)
    store.getState().show({ told: true })
  }
  const told = usePage((state) => state.view.told)
  if (!riddle) return null
  const leave = (putRight: boolean): void => {
    store.getState().show({ riddle: undefined, told: false })
    store.getState().stopMotion()
    if (putRight) store.getState().takeAllBack()
  }
  return (
    <section aria-label="What is wrong here?" className="rise">
      <h2>What is wrong here?</h2>
      <p className="riddle-ask">{riddle.ask}</p>
      <button
        type="button"
        className="button"
        aria-pressed={playing}
        onClick={() => (playing ? store.getState().stopMotion() : store.getState().startMotion(riddle.motion))}
      >
        {!playing && <Play size={18} aria-hidden />} {playing ? 'Stop the motion' : 'Play the motion'}
      </button>
      <div className="riddle-choices" role="group" aria-label="Your guess">
        {GUESSES.map(({ id: one, says }) => (
          <button
            key={one}
            type="button"
            className={`button ${told && one === id ? 'right' : told && one === guess ? 'wrong' : ''}`}
            aria-pressed={guess === one}
            onClick={() => tell(one)}
          >
            {says}
            {told && one === id ? ' (so it is)' : told && one === guess ? ' (not this time)' : ''}
          </button>
        ))}
      </div>
      {told && explanation && (
        <div className="riddle-answer rise" role="status">
          <p>{explanation.headline}</p>
        </div>
      )}
      <div className="row">
        <button type="button" className="button strong" onClick={() => leave(true)}>
          Put it right
        </button>
        {told ? (
          <button type="button" className="button" onClick={() => leave(false)}>
            Keep it and look closer
          </button>
        ) : (
          <button type="button" className="button" onClick={() => tell(undefined)}>
            Tell me
          </button>
        )}
      </div>
    </section>
  )
}
