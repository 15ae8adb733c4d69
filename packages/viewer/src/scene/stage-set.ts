/**
 * What stands in the scene: the machine as it is and, translucent, the machine as recorded. A function of the store's
 * state: `update` reads it, rebuilds a drawing only where a document's shapes changed, and writes the poses.
 */
import type { Figure, Rig } from '@swashtrue/mixing'
import { Group } from 'three'
import { figureOfMachine, figureOfRecord, machineIn } from '../state/pose.ts'
import { mayShowChanges, type PageState } from '../state/store.ts'
import { dim, ghostLook, type Look, machineLook } from './look.ts'
import { MachineDrawing, shapeKey } from './machine.ts'

interface Standing {
  drawing: MachineDrawing
  key: string
  rig: Rig
  changes: readonly unknown[]
  posed: Figure | undefined
}

const isWhole = (figure: Figure): boolean => figure.unreachable === undefined && figure.blades !== undefined

export class StageSet {
  readonly group = new Group()
  /** how many figures were written: what a test watches to see that a still page stays still */
  poses = 0
  #machineLook: Look
  #ghostLook: Look
  #dark: boolean
  #machine: Standing | undefined
  #ghost: Standing | undefined
  #dimmed = false

  constructor(dark: boolean) {
    this.#dark = dark
    this.#machineLook = machineLook(dark)
    this.#ghostLook = ghostLook(dark)
  }

  get machine(): MachineDrawing | undefined {
    return this.#machine?.drawing
  }
  get ghost(): MachineDrawing | undefined {
    return this.#ghost?.drawing
  }

  setDark(dark: boolean): void {
    if (dark === this.#dark) return
    this.#dark = dark
    this.#machineLook = machineLook(dark)
    this.#ghostLook = ghostLook(dark)
    this.#dimmed = false
    this.#machine = this.#remove(this.#machine)
    this.#ghost = this.#remove(this.#ghost)
  }

  /** Gives true where the machine's shapes were built anew, so that the camera can be fitted to them. */
  update(state: PageState): boolean {
    const { record } = state.session
    const changes = mayShowChanges(state) ? state.session.changes : NONE
    const rig = machineIn(state)
    const before = this.#machine
    this.#machine = this.#stand(before, rig, changes, this.#machineLook)
    const figure = figureOfMachine(state)
    const whole = isWhole(figure)
    if (whole !== !this.#dimmed) {
      this.#dimmed = !whole
      dim(this.#machineLook, this.#dimmed)
    }
    // A machine that has never closed has no last good pose: then the record's stands in for it, dimmed.
    if (whole) this.#pose(this.#machine, figure)
    else if (!this.#machine.posed) {
      const recorded = figureOfRecord(state)
      if (isWhole(recorded)) this.#machine.drawing.pose(recorded)
    }

    const ghostly = state.view.ghost && changes.length > 0
    if (ghostly) {
      this.#ghost = this.#stand(this.#ghost, record, NONE, this.#ghostLook)
      const recorded = figureOfRecord(state)
      if (isWhole(recorded)) this.#pose(this.#ghost, recorded)
    }
    if (this.#ghost) this.#ghost.drawing.group.visible = ghostly
    return before?.drawing !== this.#machine.drawing
  }

  #pose(standing: Standing, figure: Figure): void {
    if (standing.posed === figure) return
    standing.drawing.pose(figure)
    standing.posed = figure
    this.poses++
  }

  #stand(standing: Standing | undefined, rig: Rig, changes: readonly { path: string }[], look: Look): Standing {
    if (standing && standing.rig === rig && standing.changes === changes) return standing
    const paths = changes.map((change) => change.path)
    const key = shapeKey(rig, paths)
    if (standing?.key === key) {
      standing.rig = rig
      standing.changes = changes
      return standing
    }
    this.#remove(standing)
    const drawing = new MachineDrawing(rig, look, paths, this.#dark)
    this.group.add(drawing.group)
    // A new shape may not close where the sticks stand; it then shows its last good pose, which it takes over.
    const last = standing?.posed
    if (last && sameParts(last, rig)) drawing.pose(last)
    return { drawing, key, rig, changes, posed: last && sameParts(last, rig) ? last : undefined }
  }

  #remove(standing: Standing | undefined): undefined {
    if (!standing) return undefined
    this.group.remove(standing.drawing.group)
    standing.drawing.dispose()
    return undefined
  }
}

const NONE: readonly { path: string }[] = []

const sameParts = (figure: Figure, rig: Rig): boolean =>
  figure.blades?.length === rig.rotor.blades &&
  (figure.flybar !== undefined) === (rig.flybar !== undefined) &&
  figure.servos.every((servo, i) => (servo.lever !== undefined) === (rig.servos[i as 0].lever !== undefined))
