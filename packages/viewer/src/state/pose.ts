/**
 * Poses, derived from the store and never kept in it. A machine is prepared once and posed many times; the last
 * answer of each kind is kept, because a frame's views all ask the same question.
 */
import { type Case, type Figure, figure, type PreparedRig, predict, type Prediction, prepare, type Rig } from '@swashtrue/mixing'
import { machineOf } from './changes.ts'
import { caseOf, type Stand, type Sticks } from './session.ts'
import { actingSticks, type PageState } from './store.ts'

const prepared = new WeakMap<Rig, PreparedRig>()

export function preparedOf(rig: Rig): PreparedRig {
  let known = prepared.get(rig)
  if (!known) {
    known = prepare(rig)
    prepared.set(rig, known)
  }
  return known
}

/** Keeps the last answer for a rig and a standing of the controls, compared by identity: both are immutable. */
function lastOf<T>(ask: (rig: PreparedRig, kase: Case) => T): (rig: Rig, sticks: Sticks, stand: Stand) => T {
  let last: { rig: Rig; sticks: Sticks; stand: Stand; answer: T } | undefined
  return (rig, sticks, stand) => {
    if (last?.rig !== rig || last.sticks !== sticks || last.stand !== stand) {
      last = { rig, sticks, stand, answer: ask(preparedOf(rig), caseOf(rig, sticks, stand)) }
    }
    return last.answer
  }
}

const machineFigure = lastOf<Figure>(figure)
const recordFigure = lastOf<Figure>(figure)
const machinePrediction = lastOf<Prediction>(predict)
const recordPrediction = lastOf<Prediction>(predict)
const centredPrediction = lastOf<Prediction>((rig, kase) => predict(rig, { ...kase, elevator: 0, aileron: 0 }))

export const machineIn = ({ session }: PageState): Rig => machineOf(session.record, session.changes)

export const figureOfMachine = (state: PageState): Figure =>
  machineFigure(machineIn(state), actingSticks(state), state.session.stand)

export const figureOfRecord = (state: PageState): Figure =>
  recordFigure(state.session.record, actingSticks(state), state.session.stand)

export const predictionOfMachine = (state: PageState): Prediction =>
  machinePrediction(machineIn(state), actingSticks(state), state.session.stand)

export const predictionOfRecord = (state: PageState): Prediction =>
  recordPrediction(state.session.record, actingSticks(state), state.session.stand)

/** The machine as recorded with the cyclic stick centred, all else as it stands. */
export const predictionOfRecordCentred = (state: PageState): Prediction =>
  centredPrediction(state.session.record, actingSticks(state), state.session.stand)
