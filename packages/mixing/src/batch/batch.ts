/**
 * Many poses of one rig at a time, over typed arrays: the stages' answers, several times as fast as one by one.
 *
 * A block of poses goes through each pass before the next begins (passes.ts). A pose that does not surely close there is
 * posed by itself, the long way, so that what is reached, and which pose it is, never depends on the batch it was in; no
 * pose starts from another, so that their order does not matter either.
 */
import { cosDeg, radOf, sinDeg } from '../quantities/angles.ts';
import { CaseError, checkCase } from '../rig/case.ts';
import { makePose, type Miss, type Pose, poseHead, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { RING, ringNormal } from '../swashplate/ring.ts';
import { WORK } from './passes.ts';
import {
  eyesToRing,
  eyesToRingFixed,
  hornsToLever,
  hornsToLeverFixed,
  ringToBlade,
  ringToBladeFixed,
  sticksToHorns,
  sticksToHornsFixed,
} from './passes.kernel.ts';
import { ringStartOf } from './ring-start.ts';

/** Poses in a block: its working places (16 kB) stay in the fastest memory. */
const BLOCK = 128;

export interface BatchCases {
  /** collective, elevator, aileron of each pose in turn, -1 to +1 */
  sticks: Float64Array;
  /** flight mode by name; the document's first where left out */
  mode?: string;
  /** degrees: blade 1's psi, one for all poses (0 where left out) or one each */
  azimuth?: number | Float64Array;
  /** degrees: a flybar held, 0 where left out */
  teeter?: number;
}

/** Answers by column, one place a pose. A pose that cannot be reached has NaN in what lies after the part that fails. */
export interface BatchPoses {
  heightMm: Float64Array;
  /** x and y of the ring's unit normal in the machine frame; see `foreAftRad` and `sideRad` */
  normalX: Float64Array;
  normalY: Float64Array;
  /** a column a blade */
  pitchRad: Float64Array[];
  /** 0 where the pose is reached, else 1 + the place in `paths` of the length that misses */
  missing: Uint8Array;
  /** mm by which it misses, 0 where the pose is reached */
  shortMm: Float64Array;
  /** lengths that miss, by their JSON Pointers, in the order in which they were met */
  paths: string[];
}

/** Columns for `count` poses. */
export function makeBatchPoses(prepared: PreparedRig, count: number): BatchPoses {
  const column = () => new Float64Array(count);
  return {
    heightMm: column(),
    normalX: column(),
    normalY: column(),
    pitchRad: prepared.rig.rotor.links.map(column),
    missing: new Uint8Array(count),
    shortMm: column(),
    paths: [],
  };
}

/** Fore-aft tilt in radians, positive forward, of a ring whose unit normal has these x and y. */
export function foreAftRad(normalX: number, normalY: number): number {
  return Math.atan2(normalX, Math.sqrt(1 - normalX * normalX - normalY * normalY));
}

/** Side tilt in radians, positive right. */
export function sideRad(normalX: number, normalY: number): number {
  return Math.atan2(-normalY, Math.sqrt(1 - normalX * normalX - normalY * normalY));
}

/**
 * Poses cases `from` up to `to` (all where left out) into the same places of `poses`.
 * @throws CaseError with the place where a stick is beyond -1 to +1 or the mode is not in the document
 */
export function poseBatch(
  prepared: PreparedRig,
  cases: BatchCases,
  poses: BatchPoses,
  from = 0,
  to = cases.sticks.length / 3,
): void {
  const batch = new Batch(prepared, cases, poses);
  poses.missing.fill(0, from, to);
  poses.shortMm.fill(0, from, to);
  for (let first = from; first < to; first += BLOCK) batch.block(first, Math.min(BLOCK, to - first));
}

const work = new Float64Array(WORK.SIZE * BLOCK);
const psi = new Float64Array(2 * BLOCK);

class Batch {
  readonly #prepared: PreparedRig;
  readonly #cases: BatchCases;
  readonly #poses: BatchPoses;
  readonly #mode: number;
  readonly #curve: Float64Array;
  readonly #teeterRad: number;
  readonly #pose: Pose;
  /** what each pass reads of the rig */
  readonly #horns: Float64Array;
  readonly #levers: { servo: number; fixed: Float64Array }[];
  readonly #ring: Float64Array;
  readonly #blades: Float64Array[];

  constructor(prepared: PreparedRig, cases: BatchCases, poses: BatchPoses) {
    this.#prepared = prepared;
    this.#cases = cases;
    this.#poses = poses;
    this.#mode = checkCase(prepared.transmitter, cases.mode === undefined ? {} : { mode: cases.mode });
    this.#curve = (prepared.transmitter.modes[this.#mode] as { curve: Float64Array }).curve;
    this.#teeterRad = radOf(cases.teeter ?? 0);
    this.#pose = makePose(prepared);
    this.#horns = sticksToHornsFixed(prepared);
    this.#levers = prepared.servos.flatMap(({ lever }, servo) => (lever ? [{ servo, fixed: hornsToLeverFixed(lever) }] : []));
    this.#ring = eyesToRingFixed(prepared.ring, ringStartOf(prepared, this.#mode), prepared.rotation);
    this.#blades = prepared.bladeBalls.map((ball, k) =>
      ringToBladeFixed(ball, prepared.blade, prepared.bladeLinkMm[k] as number),
    );
  }

  block(first: number, count: number): void {
    const { sticks } = this.#cases;
    const { heightMm, normalX, normalY, pitchRad } = this.#poses;
    checkSticks(sticks, first, count);
    sticksToHorns(this.#horns, this.#curve, count, sticks, first, work);
    for (const { servo, fixed } of this.#levers) hornsToLever(fixed, servo, count, work);
    eyesToRing(this.#ring, count, first, work, heightMm, normalX, normalY);
    if (this.#prepared.flybar) {
      for (let n = 0; n < count; n++) this.#flybarHead(first + n, WORK.SIZE * n);
      return;
    }
    const perPose = this.#setPsi(first, count);
    for (let k = 0; k < this.#blades.length; k++) {
      if (k > 0) this.#nextBlade(perPose === 0 ? 1 : count);
      ringToBlade(this.#blades[k] as Float64Array, psi, perPose, count, first, work, pitchRad[k] as Float64Array);
    }
    // What is not reached is NaN from the ring on: so is its blades' sum, and the block's.
    if (pitchRad.every((column) => isWhole(column, first, count))) return;
    for (let n = 0; n < count; n++) {
      if (!pitchRad.every((column) => isWhole(column, first + n, 1))) this.#poseAlone(first + n);
    }
  }

  /** Cosine and sine of blade 1's azimuth into `psi`: one pair (gives 0) or a pair a pose (gives 2). */
  #setPsi(first: number, count: number): 0 | 2 {
    const { azimuth = 0 } = this.#cases;
    const each = typeof azimuth !== 'number';
    for (let n = 0; n < (each ? count : 1); n++) {
      const azimuthDeg = each ? (azimuth[first + n] as number) : azimuth;
      psi[2 * n] = cosDeg(azimuthDeg);
      psi[2 * n + 1] = sinDeg(azimuthDeg);
    }
    return each ? 2 : 0;
  }

  /** Turns the azimuths in `psi` on from one blade to the next. */
  #nextBlade(pairs: number): void {
    const c = this.#prepared.bladeCos[1] as number;
    const s = this.#prepared.bladeSin[1] as number;
    for (let n = 0; n < pairs; n++) {
      const cos = psi[2 * n] as number;
      const sin = psi[2 * n + 1] as number;
      psi[2 * n] = cos * c - sin * s;
      psi[2 * n + 1] = sin * c + cos * s;
    }
  }

  #flybarHead(place: number, o: number): void {
    const { ring } = this.#pose;
    if (!isWhole(this.#poses.heightMm, place, 1)) {
      this.#poseAlone(place);
      return;
    }
    for (let k = 0; k < 3; k++) ring[RING.Z + k] = work[o + WORK.RING + k] as number;
    ringNormal(ring[RING.A] as number, ring[RING.B] as number, ring, RING.NX);
    this.#head(place);
  }

  #head(place: number): void {
    const { azimuth = 0 } = this.#cases;
    const azimuthDeg = typeof azimuth === 'number' ? azimuth : (azimuth[place] as number);
    const reached = poseHead(this.#prepared, this.#pose, cosDeg(azimuthDeg), sinDeg(azimuthDeg), this.#teeterRad);
    const columns = this.#poses.pitchRad;
    for (let k = 0; k < columns.length; k++) {
      (columns[k] as Float64Array)[place] = reached ? (this.#pose.pitchRad[k] as number) : Number.NaN;
    }
    if (!reached) this.#missed(place, this.#pose.miss as Miss);
  }

  /** The long way: stage by stage, walked from the designed pose where that is needed. */
  #poseAlone(place: number): void {
    const prepared = this.#prepared;
    const pose = this.#pose;
    const { sticks } = this.#cases;
    const { heightMm, normalX, normalY, pitchRad } = this.#poses;
    setSticks(
      prepared,
      pose,
      this.#mode,
      sticks[3 * place] as number,
      sticks[3 * place + 1] as number,
      sticks[3 * place + 2] as number,
    );
    setHorns(prepared, pose);
    if (!poseRing(prepared, pose)) {
      for (const column of [heightMm, normalX, normalY, ...pitchRad]) column[place] = Number.NaN;
      this.#missed(place, pose.miss as Miss);
      return;
    }
    const { guideCos, guideSin } = prepared.ring;
    const nx = pose.ring[RING.NX] as number;
    const ny = pose.ring[RING.NY] as number;
    heightMm[place] = pose.ring[RING.Z] as number;
    normalX[place] = nx * guideCos - ny * guideSin;
    normalY[place] = nx * guideSin + ny * guideCos;
    this.#head(place);
  }

  #missed(place: number, miss: Miss): void {
    const { paths } = this.#poses;
    if (!paths.includes(miss.path)) paths.push(miss.path);
    this.#poses.missing[place] = 1 + paths.indexOf(miss.path);
    this.#poses.shortMm[place] = Math.abs(miss.missMm);
  }
}

/** Whether a column's places are all numbers. Two sums, since an addition waits for the one before it. */
function isWhole(column: Float64Array, first: number, count: number): boolean {
  let even = 0;
  let odd = 0;
  const last = first + count - 1;
  for (let n = first; n < last; n += 2) {
    even += column[n] as number;
    odd += column[n + 1] as number;
  }
  const sum = even + odd + (column[last] as number);
  return sum === sum;
}

const STICKS = ['collective', 'elevator', 'aileron'] as const;

function checkSticks(sticks: Float64Array, first: number, count: number): void {
  for (let k = 3 * first; k < 3 * (first + count); k++) {
    const value = sticks[k] as number;
    if (Math.abs(value) <= 1) continue;
    const where = `/${Math.floor(k / 3)}/${STICKS[k % 3]}`;
    throw new CaseError(
      where,
      String(value),
      'a stick position from -1 to +1',
      'full stick is 1; change ranges in the transmitter',
    );
  }
}
