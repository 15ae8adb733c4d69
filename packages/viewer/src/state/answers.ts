/**
 * What the worker answers about the machine at mid-stick: coupling and words. Derived, so not saved and not undone.
 * While it works the last answer stands; of several machines asked about meanwhile, only the newest is asked next.
 */
import { wrap } from 'comlink'
import { createStore } from 'zustand/vanilla'
import type { Answers, AnswersApi, Asked } from '../worker/answers.ts'
import { machineIn } from './pose.ts'
import type { PageState, PageStore } from './store.ts'

export type AnswerStore = ReturnType<typeof startAnswers>

export function startAnswers(store: PageStore, worker: Worker) {
  const answers = createStore<{ latest: Answers | undefined; trouble: string | undefined }>(() => ({
    latest: undefined,
    trouble: undefined,
  }))
  const remote = wrap<AnswersApi>(worker)
  let busy = false
  let waiting = false

  const ask = async (): Promise<void> => {
    if (busy) {
      waiting = true
      return
    }
    busy = true
    try {
      answers.setState({ latest: await remote.answer(askedOf(store.getState())), trouble: undefined })
    } catch (error) {
      answers.setState({ trouble: error instanceof Error ? error.message : String(error) })
    }
    busy = false
    if (waiting) {
      waiting = false
      void ask()
    }
  }
  store.subscribe((state, before) => {
    const { record, changes, stand } = state.session
    const last = before.session
    if (record !== last.record || changes !== last.changes || stand.mode !== last.stand.mode) void ask()
  })
  void ask()
  return answers
}

const askedOf = (state: PageState): Asked => ({
  record: state.session.record,
  machine: machineIn(state),
  changes: state.session.changes,
  mode: state.session.stand.mode,
})
