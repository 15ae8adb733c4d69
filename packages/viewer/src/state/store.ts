/**
 * The page's one store, without React: the session (undone, redone and saved as a whole) and beside it what is not
 * worth a step of undo: a motion that plays, what is shown, and what the page has to say.
 * The machine and its poses are not in it: they are derived (changes.ts, pose.ts).
 */
import { applyChanges, ChangeError, type Change, type Rig } from '@swashtrue/mixing'
import { temporal } from 'zundo'
import { subscribeWithSelector } from 'zustand/middleware'
import { createStore } from 'zustand/vanilla'
import { companions, withChange } from './changes.ts'
import { motionNamed } from './motions.ts'
import { freshSession, MID_STICK, type Session, type Stand, type Sticks } from './session.ts'

export interface Play {
  readonly motion: string
  readonly playing: boolean
  /** 0 to 1 of the motion */
  readonly turn: number
  readonly once: boolean
  readonly sticks: Sticks
}

export interface Fault {
  readonly pointer: string
  readonly got: string
  readonly expected: string
  readonly wayOut: string
}

/** Something the page says until it is dismissed. A refused document lists each of its faults. */
export interface Notice {
  readonly kind: 'refused' | 'said'
  readonly text: string
  readonly faults?: readonly Fault[]
}

export interface View {
  readonly ghost: boolean
  readonly spring: boolean
  readonly speed: number
  readonly workspace: string
  readonly look: string
  /** the part last pointed at in the scene, by its JSON Pointer */
  readonly part: string | undefined
  readonly theme: 'system' | 'light' | 'dark'
  /** a ready-made fault whose cause is not told yet: its id */
  readonly riddle: string | undefined
  /** whether its cause has been told: until then nothing on the page may give it away */
  readonly told: boolean
  /** the first-minute card: which step is shown, or that it was put away */
  readonly tour: number | 'done'
  readonly notice: Notice | undefined
}

export interface PageState {
  readonly session: Session
  readonly play: Play | undefined
  readonly view: View

  open(record: Rig, did: string): void
  resume(session: Session): void
  /** Makes one change to the machine, or several at once (leads swapped). Refused ones say why and change nothing. */
  change(changes: Change | readonly Change[], did: string, gesture?: string): void
  takeBack(path: string): void
  takeAllBack(): void
  /** The machine as it is becomes the record. */
  adopt(): void
  setSticks(sticks: Partial<Sticks>, did: string, gesture?: string): void
  setStand(stand: Partial<Stand>, did: string, gesture?: string): void
  setBench(patch: Partial<Pick<Session, 'readings' | 'bench' | 'sticks' | 'stand' | 'changes'>>, did: string): void
  /** Ends a drag: what comes next is a step of its own. */
  endGesture(): void
  startMotion(id: string, once?: boolean): void
  pauseMotion(playing: boolean): void
  stopMotion(): void
  advance(seconds: number): void
  show(view: Partial<View>): void
}

const FIRST_VIEW: View = {
  ghost: true,
  spring: true,
  speed: 1,
  workspace: 'fly',
  look: 'quarter',
  part: undefined,
  theme: 'system',
  riddle: undefined,
  told: false,
  tour: 0,
  notice: undefined,
}

/** Steps kept. A step is a handful of references into shared objects, so the limit is for the reader, not for memory. */
const STEPS_KEPT = 300

export type PageStore = ReturnType<typeof createPageStore>

export function createPageStore(record: Rig) {
  // A drag is one step: sets that carry the gesture already open replace its outcome and are not recorded again.
  let openGesture: string | undefined
  let withinGesture = false

  return createStore<PageState>()(
    subscribeWithSelector(
      temporal(
        (set, get) => {
          const step = (patch: Partial<Session>, did: string, gesture?: string): void => {
            withinGesture = gesture !== undefined && gesture === openGesture
            openGesture = gesture
            set({ session: { ...get().session, ...patch, did } })
            withinGesture = false
          }
          const refuse = (error: unknown): void => {
            if (!(error instanceof ChangeError)) throw error
            get().show({ notice: { kind: 'said', text: error.message } })
          }
          return {
            session: freshSession(record, 'opened the demo machine'),
            play: undefined,
            view: FIRST_VIEW,

            open: (opened, did) => {
              set({ play: undefined })
              step(freshSession(opened, did), did)
            },
            resume: (session) => {
              openGesture = undefined
              set({ session, play: undefined })
            },
            change: (asked, did, gesture) => {
              const { record: from, changes } = get().session
              const list = (Array.isArray(asked) ? asked : [asked]) as readonly Change[]
              const next = list.reduce<Change[]>((done, one) => withChange(from, done, one), [...changes])
              try {
                applyChanges(from, next)
              } catch (error) {
                refuse(error)
                return
              }
              step({ changes: next }, did, gesture)
            },
            takeBack: (path) => {
              const { changes } = get().session
              const gone = new Set(companions(changes, path))
              step({ changes: changes.filter((change) => !gone.has(change.path)) }, 'took a change back')
            },
            takeAllBack: () => step({ changes: [] }, 'took all changes back'),
            adopt: () => {
              const { record: from, changes } = get().session
              step({ record: applyChanges(from, [...changes]), changes: [] }, 'made the machine the record')
            },
            setSticks: (sticks, did, gesture) => {
              const { play, session } = get()
              if (play) set({ play: undefined })
              step({ sticks: { ...(play?.sticks ?? session.sticks), ...sticks } }, did, gesture)
            },
            setStand: (stand, did, gesture) => step({ stand: { ...get().session.stand, ...stand } }, did, gesture),
            setBench: (patch, did) => {
              if (patch.sticks) set({ play: undefined })
              step(patch, did)
            },
            endGesture: () => {
              openGesture = undefined
            },
            startMotion: (id, once = false) => set({ play: { motion: id, playing: true, turn: 0, once, sticks: MID_STICK } }),
            pauseMotion: (playing) => {
              const { play } = get()
              if (play) set({ play: { ...play, playing } })
            },
            stopMotion: () => set({ play: undefined }),
            advance: (seconds) => {
              const { play, view } = get()
              const motion = play && motionNamed(play.motion)
              if (!play?.playing || !motion) return
              const along = play.turn + (seconds * view.speed) / motion.seconds
              if (play.once && along >= 1) set({ play: undefined })
              else set({ play: { ...play, turn: along % 1, sticks: motion.sticksAt(along % 1) } })
            },
            show: (view) => set({ view: { ...get().view, ...view } }),
          }
        },
        {
          partialize: ({ session }) => ({ session }),
          equality: (past, current) => past.session === current.session,
          limit: STEPS_KEPT,
          handleSet: (record_) => (past, replace, current, delta) => {
            if (!withinGesture) (record_ as (...args: unknown[]) => void)(past, replace, current, delta)
          },
        },
      ),
    ),
  )
}

/** Whether what was changed may be shown: not while it is a riddle. */
export const mayShowChanges = ({ view }: PageState): boolean => view.riddle === undefined || view.told

/** The sticks that act: a motion's while one plays or stands paused, else the hand's. */
export const actingSticks = (state: PageState): Sticks => state.play?.sticks ?? state.session.sticks
