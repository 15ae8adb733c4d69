/** Answers to the look card as a careful person would give them of a machine, by the library's own prediction. */
import { applyChanges, type Change, examples, predict, prepare, readRig, type Rig, valueAt } from '@swashtrue/mixing'
import { diagnose, type Diagnosis, readReadings } from '@swashtrue/mixing/bench'
import { documentOf, FRESH_BENCH, type WrittenItem } from '../../packages/viewer/src/bench/model.ts'
import {
  hornItems,
  type HornWay,
  partsItems,
  type Question,
  questionsFor,
  seenItems,
  type Tip,
  tipItems,
  withAnswer,
} from '../../packages/viewer/src/bench/questions.ts'

export function demoRig(name: string): Rig {
  const read = readRig(examples.find((one) => one.name === name)?.document)
  if (!read.ok) throw new Error(`${name} does not read`)
  return read.rig
}

const wayOf = (by: number, least: number, plus: string, minus: string): string =>
  Math.abs(by) < least ? 'none' : by > 0 ? plus : minus

/** An eye picks the nearest of eight directions, or none below a degree. */
function tipOf(foreAftDeg: number, sideDeg: number): Tip {
  if (Math.hypot(foreAftDeg, sideDeg) < 1) return 'none'
  const eighth = Math.round((Math.atan2(sideDeg, foreAftDeg) * 4) / Math.PI)
  const names: Tip[] = ['forward', 'forward right', 'right', 'aft right', 'aft', 'aft left', 'left', 'forward left']
  return names[(eighth + 8) % 8] as Tip
}

/** The items that answer a question of this machine. */
export function answerOf(question: Question, machine: Rig): WrittenItem[] {
  const prepared = prepare(machine)
  const before = predict(prepared, {})
  const after = predict(prepared, question.sticks ?? {})
  switch (question.kind) {
    case 'parts':
      return partsItems(question, new Map(), [])
    case 'leads':
      return seenItems(new Map(question.servos.map(({ path }) => [path, valueAt(machine, path)])))
    case 'settings':
      return seenItems(new Map(question.rows.map(({ path }) => [path, valueAt(machine, path)])))
    case 'horns':
      return hornItems(
        new Map(
          question.servos.map(({ of }) => {
            const by = (after.servos[of - 1]?.horn as number) - (before.servos[of - 1]?.horn as number)
            return [of, wayOf(by, 1, 'up', 'down') as HornWay]
          }),
        ),
      )
    case 'tip':
      return tipItems(
        question,
        tipOf(
          (after.swash?.foreAft as number) - (before.swash?.foreAft as number),
          (after.swash?.side as number) - (before.swash?.side as number),
        ),
      )
    case 'choice': {
      const yawRate = question.id === 'gyro' ? 90 : 0
      const answered = predict(prepared, { ...question.sticks, yawRate })
      const id = wayOf((answered.tail?.pitch as number) - (before.tail?.pitch as number), 1, 'right', 'left')
      return [...(question.answers.find((one) => one.id === id)?.items ?? [])]
    }
  }
}

/** Notes of the whole look card, or of some of its questions. */
export function lookAt(record: Rig, changes: readonly Change[], asked?: readonly string[]): unknown[] {
  const machine = applyChanges(record, changes)
  return questionsFor(record)
    .filter(({ id }) => asked === undefined || asked.includes(id))
    .reduce<unknown[]>((items, question) => withAnswer(items, question.id, answerOf(question, machine), 'given'), [])
}

export function diagnosisOfNotes(record: Rig, items: readonly unknown[]): Diagnosis {
  const read = readReadings(documentOf(items, FRESH_BENCH), record)
  if (!read.ok) throw new Error(`the notes do not read: ${JSON.stringify(read.faults)}`)
  return diagnose(record, read.readings)
}
