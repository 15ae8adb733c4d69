/**
 * Quantities of a machine and targets in; out, how near each target is: 1 at the edge of what is near enough, less inside.
 */
import type { Targets } from './targets-document.ts';
import type { Layout } from './target-quantities.ts';

/** The targets of the head, in the order in which they are counted. */
export const TARGET_NAMES = ['level', 'zero', 'match', 'ends', 'cyclic', 'cross'] as const;
export type TargetName = (typeof TARGET_NAMES)[number];

export class Judge {
  private readonly inverse: number[];
  private readonly ratios = new Float64Array(TARGET_NAMES.length);

  constructor(
    readonly layout: Layout,
    readonly targets: Targets,
  ) {
    // A target of no width would divide by zero: it is met within rounding only.
    this.inverse = TARGET_NAMES.map((name) => 1 / Math.max(targets.within[name], 1e-9));
  }

  /** What each quantity should be. */
  aims(): Float64Array {
    const { layout, targets } = this;
    const aims = new Float64Array(layout.size);
    aims.fill(targets.collective[0], layout.low, layout.low + layout.blades);
    aims.fill(targets.collective[1], layout.high, layout.high + layout.blades);
    aims.fill(targets.cyclic, layout.cyclic, layout.cyclic + 2);
    return aims;
  }

  /** How far each quantity may be off, for fitting: in the quantity's own unit. */
  widths(): Float64Array {
    const { layout, targets } = this;
    const { within } = targets;
    const widths = new Float64Array(layout.size);
    widths.fill(within.level, layout.tilt, layout.tilt + 2);
    // Two blades alike share what is between them, so that each may be off by half of it.
    widths.fill(Math.min(within.zero, within.match), layout.zero, layout.zero + layout.blades);
    widths.fill(within.ends, layout.low, layout.low + 2 * layout.blades);
    widths.fill(within.cyclic, layout.cyclic, layout.cyclic + 2);
    widths.fill(within.cross, layout.cross, layout.cross + 2);
    return widths.map((width) => Math.max(width, 1e-9));
  }

  /** Each target's distance over what is near enough, from `errors` (quantities less aims) at `at`; NaN out of reach. */
  ratiosOf(errors: Float64Array, at: number): Float64Array {
    const { layout, ratios, inverse } = this;
    const { blades } = layout;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < blades; k++) {
      const zero = errors[at + layout.zero + k] as number;
      if (zero < least) least = zero;
      if (zero > most) most = zero;
    }
    let ends = 0;
    for (let k = layout.low; k < layout.cyclic; k++) ends = Math.max(ends, Math.abs(errors[at + k] as number));
    const x = errors[at] as number;
    const y = errors[at + 1] as number;
    ratios[0] = Math.sqrt(x * x + y * y) * (inverse[0] as number);
    ratios[1] = Math.max(most, -least) * (inverse[1] as number);
    ratios[2] = (most - least) * (inverse[2] as number);
    ratios[3] = ends * (inverse[3] as number);
    ratios[4] = larger(errors, at + layout.cyclic) * (inverse[4] as number);
    ratios[5] = larger(errors, at + layout.cross) * (inverse[5] as number);
    return ratios;
  }

  /**
   * The largest of the ratios, 1 or less where every target is met, with `moved` (one number a quantity) added to the
   * errors; NaN out of reach. The same as of `ratiosOf`, in one pass: a climb asks it some hundred thousand times.
   */
  worst(errors: Float64Array, at: number, moved: Float64Array): number {
    const { low, cyclic, cross } = this.layout;
    const inverse = this.inverse;
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let k = 2; k < low; k++) {
      const zero = (errors[at + k] as number) + (moved[k] as number);
      if (zero < least) least = zero;
      if (zero > most) most = zero;
    }
    let ends = 0;
    for (let k = low; k < cyclic; k++) {
      const end = Math.abs((errors[at + k] as number) + (moved[k] as number));
      if (!(end <= ends)) ends = end;
    }
    const x = (errors[at] as number) + (moved[0] as number);
    const y = (errors[at + 1] as number) + (moved[1] as number);
    const elevator = Math.abs((errors[at + cyclic] as number) + (moved[cyclic] as number));
    const aileron = Math.abs((errors[at + cyclic + 1] as number) + (moved[cyclic + 1] as number));
    const crossElevator = Math.abs((errors[at + cross] as number) + (moved[cross] as number));
    const crossAileron = Math.abs((errors[at + cross + 1] as number) + (moved[cross + 1] as number));
    const level = Math.sqrt(x * x + y * y) * (inverse[0] as number);
    const zero = Math.max(most, -least) * (inverse[1] as number);
    const match = (most - least) * (inverse[2] as number);
    const endsRatio = ends * (inverse[3] as number);
    const cyclicRatio = Math.max(elevator, aileron) * (inverse[4] as number);
    const crossRatio = Math.max(crossElevator, crossAileron) * (inverse[5] as number);
    this.near =
      (nearness(level) + nearness(zero) + nearness(match) + nearness(endsRatio) + nearness(cyclicRatio) + nearness(crossRatio)) /
      6;
    // Math.max, unlike comparisons, passes a NaN on.
    return Math.max(level, zero, match, endsRatio, cyclicRatio, crossRatio);
  }

  /** Of the last `worst`: how near the targets are in the mean, 1 where each is well inside, 0 where all are far off. */
  near = 0;

  /** `moved` of nothing. */
  still(): Float64Array {
    return new Float64Array(this.layout.size);
  }
}

/** 1 to half of what is near enough, 0 from half as much again; NaN counts as far off. */
function nearness(ratio: number): number {
  return ratio < 1.5 ? Math.min(1, 1.5 - ratio) : 0;
}

function larger(errors: Float64Array, at: number): number {
  return Math.max(Math.abs(errors[at] as number), Math.abs(errors[at + 1] as number));
}
