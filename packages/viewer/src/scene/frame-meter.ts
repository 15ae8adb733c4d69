/** Script time of the page's own work in a frame, in milliseconds, over the last frames. Allocates nothing. */
const KEPT = 600

class FrameMeter {
  readonly #spent = new Float64Array(KEPT)
  #frames = 0
  #begun = 0

  begin(): void {
    this.#begun = performance.now()
  }
  end(): void {
    this.#spent[this.#frames++ % KEPT] = performance.now() - this.#begun
  }
  clear(): void {
    this.#frames = 0
  }
  get frames(): number {
    return this.#frames
  }
  /** The share `part` (0 to 1) of the kept frames took at most this long. */
  quantileMs(part: number): number {
    const kept = [...this.#spent.subarray(0, Math.min(this.#frames, KEPT))].sort((a, b) => a - b)
    return kept[Math.min(kept.length - 1, Math.floor(part * kept.length))] ?? Number.NaN
  }
}

export const frameMeter = new FrameMeter()
