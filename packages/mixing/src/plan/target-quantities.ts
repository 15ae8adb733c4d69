/**
 * A machine in, the numbers that targets speak of out, fast: some ten poses, six azimuths each.
 *
 *   tilt (2)      ring at mid-stick, degrees fore-aft and side (tangents of the normal)
 *   zero (N)      theta0 of each blade at mid-stick           low, high (N each)   the same at collective -1 and +1
 *   cyclic (2)    half the difference of the two ends: longitudinal under elevator, lateral under aileron, degrees
 *   cross (2)     blade 1 at mid-stick: lateral per longitudinal under elevator, longitudinal per lateral under aileron, percent
 *
 * theta0 and the first harmonic from six equally spaced samples fold in harmonics 5 and up only: within 0.0004 degree of
 * the definition's 72 samples, and 2e-5 percent of cross-axis coupling, over the random machines of the tests (four would be
 * 0.03 degree off on flybar heads).
 */
import { cosDeg, DEG_PER_RAD, sinDeg } from '../quantities/angles.ts';
import { headReading } from '../diagnosis/probe.ts';
import { makePose, type Pose, poseRing, ringNormalInF, setHorns, setSticks } from '../rig/pose.ts';
import type { PreparedRig } from '../rig/prepare.ts';

const AZIMUTHS = 6;
const COS = Float64Array.from({ length: AZIMUTHS }, (_, i) => cosDeg((360 / AZIMUTHS) * i));
const SIN = Float64Array.from({ length: AZIMUTHS }, (_, i) => sinDeg((360 / AZIMUTHS) * i));
/** Sticks this far from the middle, both ways, give the slope there: corners of both sides in equal parts. */
const NUDGE = 0.005;

/** Where each quantity stands in the list, for a head of `blades` blades. */
export interface Layout {
  blades: number;
  tilt: 0;
  zero: number;
  low: number;
  high: number;
  cyclic: number;
  cross: number;
  size: number;
}

export function layoutOf(blades: number): Layout {
  const zero = 2;
  const cyclic = zero + 3 * blades;
  return { blades, tilt: 0, zero, low: zero + blades, high: zero + 2 * blades, cyclic, cross: cyclic + 2, size: cyclic + 4 };
}

export class TargetQuantities {
  readonly layout: Layout;
  private readonly pose: Pose;
  private readonly mean: Float64Array;
  private readonly head = { psiCos: 1, psiSin: 0, teeterRad: 0 };
  private longitudinal = 0;
  private lateral = 0;

  /** Machines of the same make-up as `prepared`; `mode` is a place in the flight modes. */
  constructor(
    prepared: PreparedRig,
    private readonly mode: number,
  ) {
    this.layout = layoutOf(prepared.rig.rotor.blades);
    this.pose = makePose(prepared);
    this.mean = new Float64Array(this.layout.blades);
  }

  /** Writes the quantities from `at` on, NaN for those whose poses cannot be reached. */
  evaluate(prepared: PreparedRig, out: Float64Array, at = 0): void {
    const { blades, zero, low, high, cyclic, cross, size } = this.layout;
    out.fill(Number.NaN, at, at + size);
    if (!this.look(prepared, 0, 0, 0, blades)) return;
    const [nx, ny, nz] = ringNormalInF(prepared, this.pose);
    out[at] = (nx / nz) * DEG_PER_RAD;
    out[at + 1] = (-ny / nz) * DEG_PER_RAD;
    for (let k = 0; k < blades; k++) out[at + zero + k] = this.mean[k] as number;
    if (this.slope(prepared, 1, 0, NUDGE)) out[at + cross] = (100 * this.lateral) / this.longitudinal;
    if (this.slope(prepared, 0, 1, NUDGE)) out[at + cross + 1] = (100 * this.longitudinal) / this.lateral;
    if (this.slope(prepared, 1, 0, 1)) out[at + cyclic] = this.longitudinal;
    if (this.slope(prepared, 0, 1, 1)) out[at + cyclic + 1] = this.lateral;
    for (const [end, from] of [
      [-1, low],
      [1, high],
    ] as const) {
      if (this.look(prepared, end, 0, 0, blades)) for (let k = 0; k < blades; k++) out[at + from + k] = this.mean[k] as number;
    }
  }

  /** Half the difference of blade 1's harmonics between the two sides of a cyclic stick. */
  private slope(prepared: PreparedRig, elevator: number, aileron: number, reach: number): boolean {
    if (!this.look(prepared, 0, -reach * elevator, -reach * aileron, 1)) return false;
    const longitudinal = this.longitudinal;
    const lateral = this.lateral;
    if (!this.look(prepared, 0, reach * elevator, reach * aileron, 1)) return false;
    this.longitudinal = (this.longitudinal - longitudinal) / 2;
    this.lateral = (this.lateral - lateral) / 2;
    return true;
  }

  /**
   * theta0 of the first `blades` blades and blade 1's first harmonic at a stick position, degrees. Of a held flybar head
   * only what moves the blades is closed: a washout that cannot close is told by the corners.
   */
  private look(prepared: PreparedRig, collective: number, elevator: number, aileron: number, blades: number): boolean {
    const { pose, mean, head } = this;
    setSticks(prepared, pose, this.mode, collective, elevator, aileron);
    setHorns(prepared, pose);
    // Only the two sides of a cyclic stick are near one another.
    if (!poseRing(prepared, pose, blades === 1)) return false;
    let cosine = 0;
    let sine = 0;
    for (let k = 0; k < blades; k++) {
      let sum = 0;
      for (let i = 0; i < AZIMUTHS; i++) {
        // blade 1's azimuth; blade k's are as equally spaced
        head.psiCos = COS[i] as number;
        head.psiSin = SIN[i] as number;
        const pitchDeg = headReading(prepared, pose, head, 'blade-pitch', k + 1);
        sum += pitchDeg;
        if (k > 0) continue;
        cosine += (COS[i] as number) * pitchDeg;
        sine += (SIN[i] as number) * pitchDeg;
      }
      if (sum !== sum) return false;
      mean[k] = sum / AZIMUTHS;
    }
    this.longitudinal = (-2 * sine) / AZIMUTHS;
    this.lateral = (-2 * prepared.rotation * cosine) / AZIMUTHS;
    return true;
  }
}
