/**
 * The bench: a machine's values in, everything that is read off it out, in the order of the readings.
 *
 *   h = shown readings at the machine's values (m),   J = dh / dvalues (m x n)
 *
 * The places of all readings are sorted once into sessions (between two `adjusted` items), settings (a stick position)
 * and heads (where blade 1 stands and how the flybar is held), so that each pose is closed once for all that is read
 * off it. The machine that is read is the working copy as found; changes made on the bench are made to it and undone.
 */
import { cosDeg, radOf, sinDeg } from '../quantities/angles.ts';
import { makePose, type Pose, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import { prepare, type PreparedRig } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import type { PreparedTail } from '../tail/tail.ts';
import type { UnknownValue } from './posterior.ts';
import { type HeadPlace, headReading, reachOf, ringReading, servoReading, tailPastMm, tailReading } from './probe.ts';
import { type ReadingPlace, type ReadingsDocument, sameSticks } from './readings.ts';
import type { Row } from './rows.ts';
import { SlopesOfSession } from './slopes.ts';
import { type Slot, singleValues, WorkMachine } from './work-machine.ts';

/** A place to read, and where its number goes. */
export interface Probe {
  place: ReadingPlace;
  at: number;
}

export interface Head extends HeadPlace {
  azimuth: number;
  probes: Probe[];
}

export interface Setting {
  mode: number;
  place: ReadingPlace;
  /** horns, levers, and the ring itself */
  servoProbes: Probe[];
  ringProbes: Probe[];
  heads: Head[];
}

/** What was done to the machine before a session. */
export type Made = { slot: Slot; by: number } | { slot: Slot; to: unknown };

export interface Session {
  made: Made[];
  settings: Setting[];
  tailProbes: Probe[];
  /** settings that were looked at and are rows: the slot, and where it goes */
  seen: { slot: Slot; at: number }[];
  /** settings that were looked at and are exact: the slot, and where its value goes in `looked` */
  exact: { slot: Slot; at: number }[];
}

/** Something to read beside the rows: a place, or (-1: as the machine stands) at which item. */
export interface Extra {
  item: number;
  place: ReadingPlace;
}

export class Bench {
  readonly work: WorkMachine;
  readonly sessions: Session[] = [];
  readonly pose: Pose;
  /** what stands, after `evaluate`, at the exact settings that were looked at */
  readonly looked: unknown[] = [];
  /** by how much a tail that was read would go beyond a stop, mm, after `evaluate` */
  readonly pastMm: Float64Array;
  private readonly sessionOfItem: Int32Array;
  private readonly slopes: SlopesOfSession;
  /** of each unknown; none for a zero or a lean */
  readonly slots: readonly (Slot | undefined)[];
  private readonly zeroAt: number;

  constructor(
    readonly record: Rig,
    document: ReadingsDocument,
    readonly unknowns: readonly UnknownValue[],
    readonly rows: readonly Row[],
    extra: readonly Extra[] = [],
    exact: readonly { item: number; path: string }[] = [],
  ) {
    this.work = new WorkMachine(record);
    this.pose = makePose(prepare(record));
    this.slots = unknowns.map((unknown) => (unknown.document === 'rig' ? this.work.slot(unknown.path) : undefined));
    const leanAt = unknowns.findIndex(({ path }) => path === '/lean/foreAft');
    this.zeroAt = leanAt;
    this.pastMm = new Float64Array(rows.length + extra.length);
    this.sessionOfItem = new Int32Array(document.readings.length);
    this.sessions.push({ made: [], settings: [], tailProbes: [], seen: [], exact: [] });
    let changedLast = false;
    document.readings.forEach((item, i) => {
      // Changes with nothing between them make one session.
      if (item.kind === 'adjusted') this.startSession(item, changedLast);
      changedLast = item.kind === 'adjusted';
      this.sessionOfItem[i] = this.sessions.length - 1;
    });
    rows.forEach(({ item, what }, at) => {
      if ('seen' in what) this.sessionAt(item).seen.push({ slot: this.work.slot(what.seen), at });
      else this.add(item, what, at);
    });
    extra.forEach(({ item, place }, i) => this.add(item, place, rows.length + i));
    exact.forEach(({ item, path }, at) => this.sessionAt(item).exact.push({ slot: this.work.slot(path), at }));
    this.slopes = new SlopesOfSession(this.work, unknowns, this.slots, this.pose);
  }

  /** Number of values that `evaluate` writes: rows, then extra places. */
  get size(): number {
    return this.rows.length + this.extraCount;
  }
  private extraCount = 0;

  private sessionAt(item: number): Session {
    // Extra places that belong to no item are read at the end, on the machine as it stands.
    const place = item < 0 ? this.sessions.length - 1 : (this.sessionOfItem[item] as number);
    return this.sessions[place] as Session;
  }

  private startSession(item: { path: string; by?: number; to?: unknown }, joins: boolean): void {
    const made: Made[] =
      item.by !== undefined
        ? [{ slot: this.work.slot(item.path), by: item.by }]
        : singleValues({ path: item.path, value: item.to }).map(({ path, value }) => ({ slot: this.work.slot(path), to: value }));
    if (joins) this.sessions.at(-1)?.made.push(...made);
    else this.sessions.push({ made, settings: [], tailProbes: [], seen: [], exact: [] });
  }

  private add(item: number, place: ReadingPlace, at: number): void {
    if (at >= this.rows.length) this.extraCount++;
    const session = this.sessionAt(item);
    const reach = reachOf(place.measure);
    if (reach === 'none') return;
    const probe = { place, at };
    if (reach === 'tail') {
      session.tailProbes.push(probe);
      return;
    }
    let setting = session.settings.find((s) => sameSticks(s.place.sticks, place.sticks) && s.place.mode === place.mode);
    if (!setting) {
      const modes = this.record.transmitter.flightModes;
      const mode = place.mode === undefined ? 0 : modes.findIndex(({ name }) => name === place.mode);
      setting = { mode: Math.max(0, mode), place, servoProbes: [], ringProbes: [], heads: [] };
      session.settings.push(setting);
    }
    if (reach === 'servo') setting.servoProbes.push(probe);
    else if (reach === 'ring') setting.ringProbes.push(probe);
    else {
      let head = setting.heads.find((h) => h.azimuth === place.azimuth && h.teeterRad === radOf(place.teeter));
      if (!head) {
        head = {
          psiCos: cosDeg(place.azimuth),
          psiSin: sinDeg(place.azimuth),
          azimuth: place.azimuth,
          teeterRad: radOf(place.teeter),
          probes: [],
        };
        setting.heads.push(head);
      }
      head.probes.push(probe);
    }
  }

  /**
   * Reads the working copy as found, with `deviation` of the zeros and the lean. Writes h (rows, then extra places), and
   * where `jacobian` is given the derivatives of the rows by all unknowns (by those alone for which `wanted` is not 0).
   * NaN where the machine cannot reach.
   */
  evaluate(deviation: Float64Array, h: Float64Array, jacobian?: Float64Array, wanted?: Float64Array): void {
    const undo: { slot: Slot; value: unknown }[] = [];
    const replaced = new Set<Slot>();
    h.fill(Number.NaN);
    jacobian?.fill(0);
    for (const session of this.sessions) {
      for (const made of session.made) {
        const { slot } = made;
        const was = slot.holder[slot.key];
        undo.push({ slot, value: was });
        if ('by' in made) this.work.write(slot, (was as number) + made.by);
        else {
          this.work.write(slot, made.to);
          replaced.add(slot);
        }
      }
      this.readSession(session, h, jacobian, replaced, wanted);
    }
    for (let i = undo.length - 1; i >= 0; i--) {
      const { slot, value } = undo[i] as { slot: Slot; value: unknown };
      this.work.write(slot, value);
    }
    this.addInstruments(deviation, h, jacobian);
  }

  private readSession(
    session: Session,
    h: Float64Array,
    jacobian: Float64Array | undefined,
    replaced: ReadonlySet<Slot>,
    wanted: Float64Array | undefined,
  ): void {
    const prepared = this.work.prepare();
    const pose = this.pose;
    if (jacobian) this.slopes.start(prepared, replaced, wanted);
    for (const setting of session.settings) this.readSetting(prepared, pose, setting, h, jacobian);
    const { transmitter, tail } = prepared;
    if (tail) {
      for (const { place, at } of session.tailProbes) {
        h[at] = tailReading(transmitter, tail as PreparedTail, place.measure, place.sticks.rudder, place.yawRate);
        this.pastMm[at] = tailPastMm();
        if (jacobian && at < this.rows.length) this.slopes.ofTail(place, h[at] as number, jacobian, at);
      }
    }
    for (const { slot, at } of session.seen) {
      h[at] = slot.holder[slot.key] as number;
      if (jacobian) this.slopes.ofSeen(slot, jacobian, at);
    }
    for (const { slot, at } of session.exact) this.looked[at] = slot.holder[slot.key];
  }

  private readSetting(
    prepared: PreparedRig,
    pose: Pose,
    setting: Setting,
    h: Float64Array,
    jacobian: Float64Array | undefined,
  ): void {
    const { collective, elevator, aileron } = setting.place.sticks;
    setSticks(prepared, pose, setting.mode, collective, elevator, aileron);
    setHorns(prepared, pose);
    const closed = poseRing(prepared, pose);
    for (const { place, at } of setting.servoProbes) h[at] = servoReading(prepared, pose, place.measure, place.of);
    if (closed) for (const { place, at } of setting.ringProbes) h[at] = ringReading(prepared, pose, place.measure);
    const slopes = jacobian && this.slopes.ofSetting(prepared, setting, closed);
    if (jacobian) this.slopes.ofServos(setting, jacobian, h, this.rows.length);
    if (jacobian && slopes) this.slopes.ofRing(prepared, setting, jacobian, h, this.rows.length);
    if (!closed) return;
    for (const head of setting.heads) {
      for (const { place, at } of head.probes) h[at] = headReading(prepared, pose, head, place.measure, place.of);
      if (jacobian && slopes) this.slopes.ofHead(prepared, head, jacobian, h, this.rows.length);
    }
  }

  private addInstruments(deviation: Float64Array, h: Float64Array, jacobian: Float64Array | undefined): void {
    const n = this.unknowns.length;
    const foreAft = deviation[this.zeroAt] as number;
    const side = deviation[this.zeroAt + 1] as number;
    this.rows.forEach((row, i) => {
      const zero = row.zero < 0 ? 0 : (deviation[row.zero] as number);
      h[i] = zero + row.way * ((h[i] as number) + row.leanForeAft * foreAft + row.leanSide * side);
      if (!jacobian) return;
      if (row.way < 0) for (let k = 0; k < n; k++) jacobian[i * n + k] = -(jacobian[i * n + k] as number);
      if (row.zero >= 0) jacobian[i * n + row.zero] = 1;
      jacobian[i * n + this.zeroAt] = row.way * row.leanForeAft;
      jacobian[i * n + this.zeroAt + 1] = row.way * row.leanSide;
    });
  }
}
