/**
 * How finely the scene is drawn, as a ratio of drawn pixels to CSS pixels: at rest always in full; while it moves coarser, but
 * only if frames turn out slow. Knows no clock and no renderer of its own.
 */

/** Longer than this between two frames and the stutter is worse to look at than coarse edges: below 16 frames a second. */
const SLOW_MS = 60
/** So much shorter and there is room for the next finer step: a step costs about twice the pixels. */
const QUICK_MS = 18
/** Frames of a movement before its pace is judged: the first ones also compile shaders. */
const JUDGED = 5
/** Weight of the newest interval in the running mean. */
const NEWEST = 0.3
/** Each step has half the pixels of the one before; below one to a CSS pixel thin links come and go. */
const STEP = Math.SQRT2
const COARSEST = 0.99

export class Resolution {
  readonly #steps: number[] = []
  #step = 0
  #lastMs = Number.NaN
  #meanMs = Number.NaN
  #frames = 0

  /** `full`: what a movement is drawn at where frames come quickly; `atRest`: what a still scene is drawn at. */
  constructor(
    full: number,
    readonly atRest: number,
  ) {
    for (let ratio = full; ratio >= COARSEST; ratio /= STEP) this.#steps.push(ratio)
  }

  /** A frame of a movement is drawn at `nowMs`. Gives the ratio that the movement is drawn at. */
  frame(nowMs: number): number {
    const sinceMs = nowMs - this.#lastMs
    this.#lastMs = nowMs
    if (sinceMs > 0) {
      this.#frames++
      this.#meanMs = this.#meanMs > 0 ? this.#meanMs + NEWEST * (sinceMs - this.#meanMs) : sinceMs
      if (this.#frames >= JUDGED && this.#meanMs > SLOW_MS && this.#step < this.#steps.length - 1) this.#take(this.#step + 1)
    }
    return this.#steps[this.#step] as number
  }

  /**
   * The movement has ended: what comes next is drawn in full. The next movement begins where this one had come to, one step
   * finer if this one ran with room to spare, so that a slow start (a page that loads) is not held against it for good.
   */
  rest(): number {
    if (this.#frames >= JUDGED && this.#meanMs < QUICK_MS && this.#step > 0) this.#step--
    this.#lastMs = Number.NaN
    this.#meanMs = Number.NaN
    this.#frames = 0
    return this.atRest
  }

  #take(step: number): void {
    this.#step = step
    this.#meanMs = Number.NaN
    this.#frames = 0
  }
}
