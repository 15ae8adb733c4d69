/**
 * Derivatives of readings by every unknown, at the poses that the bench closes.
 *
 * The ring's closure r_i(pose, values) = 0 gives them almost for nothing: dpose = -(dr/dpose)^-1 dr/dvalue, and a value of
 * one servo moves one residual. So a value costs one look at a residual a setting, not a pose; a reading costs its three
 * derivatives by the pose. What stands above the ring (blades, flybar) is read again on the same ring; the tail is read
 * again by itself. Forward differences of exact prepared numbers, STEP of a value: some 1e-5 of a derivative.
 */
import { DEG_PER_RAD } from '../quantities/angles.ts';
import { prepareFlybarHead } from '../flybar/head.ts';
import { makePose, type Pose, poseHead, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import { prepare, type PreparedRig, type PreparedServo } from '../rig/prepare.ts';
import { hornAngleRad, hornBall, type PreparedHorn, prepareHorn } from '../servo/horn.ts';
import { closeLever, leverAngleRad, type PreparedLever, prepareLever } from '../servo/lever.ts';
import { determinant3, prepareRing, RING, ringNormal, ringResiduals, type PreparedRing } from '../swashplate/ring.ts';
import { prepareTail, type PreparedTail } from '../tail/tail.ts';
import { commands, outputPulses, prepareTransmitter, type PreparedTransmitter } from '../transmitter/outputs.ts';
import type { Head, Setting } from './bench.ts';
import type { UnknownValue } from './posterior.ts';
import { headReading, ringReading, servoReading, tailReading } from './probe.ts';
import type { ReadingPlace } from './readings.ts';
import type { Slot, WorkMachine } from './work-machine.ts';

const STEP = 1e-5;

type Variant = { k: number; slot: Slot; step: number } & (
  | { group: 'servo'; servo: number; horn?: PreparedHorn; lever?: PreparedLever | undefined }
  | { group: 'ring'; ring?: PreparedRing }
  | { group: 'transmitter'; transmitter?: PreparedTransmitter }
  | { group: 'upper'; prepared?: PreparedRig }
  | { group: 'whole'; prepared?: PreparedRig }
  | { group: 'tail'; transmitter?: PreparedTransmitter; tail?: PreparedTail | undefined }
);
type Of<G extends Variant['group']> = Extract<Variant, { group: G }>;

export class SlopesOfSession {
  private readonly n: number;
  private readonly variants: Variant[] = [];
  private live: Variant[] = [];
  private readonly replaced = new Set<Slot>();
  /** of the setting at hand, per unit of each unknown: pose (z, a, b), horns and levers in degrees */
  private readonly dPose: Float64Array;
  private readonly dHorn: Float64Array;
  private readonly dLever: Float64Array;
  private readonly other: Pose;
  private readonly residual0 = new Float64Array(3);
  private readonly residual = new Float64Array(3);
  private readonly jacobian = new Float64Array(9);
  private readonly scratch9 = new Float64Array(9);
  private readonly inverse = new Float64Array(9);
  private readonly eyes = new Float64Array(9);
  private readonly ball = new Float64Array(9);
  private readonly turn = new Float64Array(2);
  private readonly u = new Float64Array(3);
  private readonly pulseUs = new Float64Array(3);
  private readonly saturated = new Uint8Array(3);
  private readonly keep = new Float64Array(RING.SIZE);

  constructor(
    private readonly work: WorkMachine,
    unknowns: readonly UnknownValue[],
    private readonly slots: readonly (Slot | undefined)[],
    private readonly pose: Pose,
  ) {
    this.n = unknowns.length;
    this.dPose = new Float64Array(3 * this.n);
    this.dHorn = new Float64Array(3 * this.n);
    this.dLever = new Float64Array(3 * this.n);
    this.other = makePose(prepare(work.rig));
    unknowns.forEach(({ path }, k) => {
      const slot = slots[k];
      if (slot) this.variants.push(variantOf(path, k, slot));
    });
  }

  /** Prepares one changed stage for each unknown, for a session's machine. */
  start(prepared: PreparedRig, replaced: ReadonlySet<Slot>): void {
    const { rig } = this.work;
    this.live = [];
    this.replaced.clear();
    for (const slot of replaced) this.replaced.add(slot);
    for (const variant of this.variants) {
      const { slot } = variant;
      if (replaced.has(slot)) continue;
      const value = slot.holder[slot.key] as number;
      variant.step = STEP * Math.max(1, Math.abs(value));
      slot.holder[slot.key] = value + variant.step;
      switch (variant.group) {
        case 'servo': {
          const servo = rig.servos[variant.servo] as (typeof rig.servos)[0];
          variant.horn = prepareHorn(servo, rig.swash.guide);
          variant.lever =
            servo.lever && servo.pushrod !== undefined ? prepareLever(servo.lever, servo.pushrod, variant.horn, rig.swash.guide) : undefined;
          break;
        }
        case 'ring':
          variant.ring = prepareRing(rig.servos.map(({ ball }) => ball), rig.servos.map(({ link }) => link), prepared.ring.designedEyes, rig.swash);
          break;
        case 'transmitter':
          variant.transmitter = prepareTransmitter(rig.transmitter, rig.rotor.rotation);
          break;
        case 'upper':
          variant.prepared = upperOf(prepared, slot);
          break;
        case 'whole':
          variant.prepared = prepare(rig);
          break;
        case 'tail':
          variant.transmitter = prepareTransmitter(rig.transmitter, rig.rotor.rotation);
          variant.tail = rig.tail && prepareTail(rig.tail, rig.transmitter.rudder);
          break;
      }
      slot.holder[slot.key] = value;
      this.live.push(variant);
    }
  }

  /** Derivatives of horns, levers and (where it is closed) the ring's pose at the setting at hand. True where closed. */
  ofSetting(prepared: PreparedRig, setting: Setting, closed: boolean): boolean {
    const { pose } = this;
    this.dPose.fill(0);
    this.dHorn.fill(0);
    this.dLever.fill(0);
    if (closed) {
      ringResiduals(prepared.ring, pose.ring, pose.eyes, prepared.ring.linkMm, this.residual0, this.jacobian);
      invert3(this.jacobian, this.inverse);
    }
    const { collective, elevator, aileron } = setting.place.sticks;
    for (const variant of this.live) {
      if (variant.group === 'servo') {
        this.eyes.set(pose.eyes);
        this.moveServo(prepared, variant.servo, variant.k, variant.step, pose.pulseUs, variant.horn as PreparedHorn, variant.lever);
      } else if (variant.group === 'transmitter') {
        const transmitter = variant.transmitter as PreparedTransmitter;
        commands(transmitter, setting.mode, collective, elevator, aileron, this.u);
        outputPulses(transmitter, this.u, this.pulseUs, this.saturated);
        this.eyes.set(pose.eyes);
        let moved = false;
        for (let i = 0; i < 3; i++) {
          const servo = prepared.servos[i] as PreparedServo;
          if (this.pulseUs[servo.output] === pose.pulseUs[servo.output]) continue;
          this.moveServo(prepared, i, variant.k, variant.step, this.pulseUs, servo.horn, servo.lever);
          moved = true;
        }
        if (!moved) continue;
      } else if (variant.group !== 'ring') continue;
      if (!closed) continue;
      const ring = variant.group === 'ring' ? (variant.ring as PreparedRing) : prepared.ring;
      const eyes = variant.group === 'ring' ? pose.eyes : this.eyes;
      ringResiduals(ring, pose.ring, eyes, ring.linkMm, this.residual, this.scratch9);
      for (let a = 0; a < 3; a++) {
        let s = 0;
        for (let i = 0; i < 3; i++) s -= (this.inverse[3 * a + i] as number) * ((this.residual[i] as number) - (this.residual0[i] as number));
        this.dPose[3 * variant.k + a] = s / variant.step;
      }
    }
    return closed;
  }

  /** Moves servo i's eye in `eyes` and notes by how much its horn and lever turned. */
  private moveServo(
    prepared: PreparedRig,
    i: number,
    k: number,
    step: number,
    pulseUs: Float64Array,
    horn: PreparedHorn,
    lever: PreparedLever | undefined,
  ): void {
    const angleRad = hornAngleRad(horn, pulseUs[(prepared.servos[i] as PreparedServo).output] as number);
    this.dHorn[3 * k + i] = ((angleRad - (this.pose.hornRad[i] as number)) * DEG_PER_RAD) / step;
    if (!lever) {
      hornBall(horn, angleRad, this.eyes, 3 * i);
      return;
    }
    hornBall(horn, angleRad, this.ball, 3 * i);
    if (!closeLever(lever, this.ball, 3 * i, this.eyes, this.turn)) return;
    const base = leverAngleRad((prepared.servos[i] as PreparedServo).lever as PreparedLever, this.pose.leverTurn[i] as Float64Array);
    this.dLever[3 * k + i] = ((leverAngleRad(lever, this.turn) - base) * DEG_PER_RAD) / step;
  }

  ofServos(setting: Setting, jacobian: Float64Array, h: Float64Array, rows: number): void {
    for (const { place, at } of setting.servoProbes) {
      if (at >= rows) continue;
      const from = place.measure === 'horn-angle' ? this.dHorn : this.dLever;
      for (let k = 0; k < this.n; k++) jacobian[at * this.n + k] = from[3 * k + place.of - 1] as number;
      for (const variant of this.whole(setting)) {
        const changed = servoReading(variant.prepared as PreparedRig, this.other, place.measure, place.of);
        jacobian[at * this.n + variant.k] = (changed - (h[at] as number)) / variant.step;
      }
    }
  }

  ofRing(prepared: PreparedRig, setting: Setting, jacobian: Float64Array, h: Float64Array, rows: number): void {
    for (const { place, at } of setting.ringProbes) {
      if (at >= rows) continue;
      for (let a = 0; a < 3; a++) {
        this.nudge(a);
        this.addPose(jacobian, at, a, (ringReading(prepared, this.pose, place.measure) - (h[at] as number)) / NUDGE);
        this.pose.ring.set(this.keep);
      }
      for (const variant of this.whole(setting)) {
        const changed = ringReading(variant.prepared as PreparedRig, this.other, place.measure);
        jacobian[at * this.n + variant.k] = (changed - (h[at] as number)) / variant.step;
      }
    }
    this.setting = setting;
  }
  private setting: Setting | undefined;

  ofHead(prepared: PreparedRig, head: Head, jacobian: Float64Array, h: Float64Array, rows: number): void {
    const { pose } = this;
    for (let a = 0; a < 3; a++) {
      this.nudge(a);
      poseHead(prepared, pose, head.psiCos, head.psiSin, head.teeterRad, true);
      for (const { place, at } of head.probes) {
        if (at < rows) this.addPose(jacobian, at, a, (headReading(prepared, pose, place.measure, place.of) - (h[at] as number)) / NUDGE);
      }
      pose.ring.set(this.keep);
    }
    for (const variant of this.live) {
      if (variant.group !== 'upper') continue;
      const changed = variant.prepared as PreparedRig;
      poseHead(changed, pose, head.psiCos, head.psiSin, head.teeterRad, true);
      this.differences(variant, changed, pose, head, jacobian, h, rows);
    }
    for (const variant of this.whole(this.setting as Setting)) {
      const changed = variant.prepared as PreparedRig;
      poseHead(changed, this.other, head.psiCos, head.psiSin, head.teeterRad);
      this.differences(variant, changed, this.other, head, jacobian, h, rows);
    }
  }

  private differences(variant: Of<'upper' | 'whole'>, changed: PreparedRig, pose: Pose, head: Head, jacobian: Float64Array, h: Float64Array, rows: number): void {
    for (const { place, at } of head.probes) {
      if (at >= rows) continue;
      jacobian[at * this.n + variant.k] = (headReading(changed, pose, place.measure, place.of) - (h[at] as number)) / variant.step;
    }
  }

  ofTail(place: ReadingPlace, value: number, jacobian: Float64Array, at: number): void {
    for (const variant of this.live) {
      if (variant.group !== 'tail' || !variant.tail || !variant.transmitter) continue;
      const changed = tailReading(variant.transmitter, variant.tail, place.measure, place.sticks.rudder, place.yawRate);
      jacobian[at * this.n + variant.k] = (changed - value) / variant.step;
    }
  }

  /** A setting that was looked at reads its own value. */
  ofSeen(slot: Slot, jacobian: Float64Array, at: number): void {
    const k = this.slots.indexOf(slot);
    if (k >= 0 && !this.replaced.has(slot)) jacobian[at * this.n + k] = 1;
  }

  /** Moves one of the ring's three (z mm, tangents of half its tilts) by NUDGE; `keep` holds the pose to go back to. */
  private nudge(a: number): void {
    const { ring } = this.pose;
    this.keep.set(ring);
    ring[a] = (ring[a] as number) + NUDGE;
    if (a > 0) ringNormal(ring[RING.A] as number, ring[RING.B] as number, ring, RING.NX);
  }

  private addPose(jacobian: Float64Array, at: number, a: number, slope: number): void {
    const row = at * this.n;
    for (let k = 0; k < this.n; k++) jacobian[row + k] = (jacobian[row + k] as number) + slope * (this.dPose[3 * k + a] as number);
  }

  /** Unknowns that no stage holds alone: each is posed from the sticks on. Met where `known` names such a value. */
  private *whole(setting: Setting): Generator<Of<'whole'>> {
    for (const variant of this.live) {
      if (variant.group !== 'whole') continue;
      const prepared = variant.prepared as PreparedRig;
      const { collective, elevator, aileron } = setting.place.sticks;
      setSticks(prepared, this.other, setting.mode, collective, elevator, aileron);
      setHorns(prepared, this.other);
      poseRing(prepared, this.other);
      yield variant;
    }
  }
}

/** mm, or tangent of half a tilt */
const NUDGE = 1e-6;

function variantOf(path: string, k: number, slot: Slot): Variant {
  const base = { k, slot, step: STEP };
  const servo = /^\/servos\/([0-2])\//.exec(path);
  if (servo) {
    if (/\/(link|ball\/\w+)$/.test(path)) return { ...base, group: 'ring' };
    return { ...base, group: 'servo', servo: Number(servo[1]) };
  }
  if (path.startsWith('/tail/') || path.startsWith('/transmitter/rudder/') || path.startsWith('/transmitter/rates/rudder/')) {
    return { ...base, group: 'tail' };
  }
  if (path.startsWith('/transmitter/')) return { ...base, group: 'transmitter' };
  if (path.startsWith('/rotor/') || path.startsWith('/flybar/')) return { ...base, group: 'upper' };
  return { ...base, group: 'whole' };
}

/** The rotor and flybar prepared again; a length alone is put in place. */
function upperOf(prepared: PreparedRig, slot: Slot): PreparedRig {
  const { rig } = prepared;
  if (slot.path.startsWith('/rotor/links/')) return { ...prepared, bladeLinkMm: Float64Array.from(rig.rotor.links) };
  const { flybar } = prepared;
  if (flybar && rig.flybar && slot.path.startsWith('/flybar/')) {
    const { washout, mixing } = rig.flybar;
    if (/^\/flybar\/washout\/(links|rods)\//.test(slot.path)) {
      return {
        ...prepared,
        flybar: { ...flybar, washout: { ...flybar.washout, linkMm: Float64Array.from(washout.links), rodMm: Float64Array.from(washout.rods) } },
      };
    }
    if (slot.path.startsWith('/flybar/mixing/rods/')) {
      return { ...prepared, flybar: { ...flybar, mixing: { ...flybar.mixing, rodMm: Float64Array.from(mixing.rods) } } };
    }
    return { ...prepared, flybar: prepareFlybarHead(rig.flybar, rig.rotor.driver, rig.swash.height) };
  }
  return prepare(rig);
}

function invert3(m: Float64Array, out: Float64Array): void {
  const a = m[0] as number;
  const b = m[1] as number;
  const c = m[2] as number;
  const d = m[3] as number;
  const e = m[4] as number;
  const f = m[5] as number;
  const g = m[6] as number;
  const h = m[7] as number;
  const i = m[8] as number;
  const inverse = 1 / determinant3(m);
  out[0] = (e * i - f * h) * inverse;
  out[1] = (c * h - b * i) * inverse;
  out[2] = (b * f - c * e) * inverse;
  out[3] = (f * g - d * i) * inverse;
  out[4] = (a * i - c * g) * inverse;
  out[5] = (c * d - a * f) * inverse;
  out[6] = (d * h - e * g) * inverse;
  out[7] = (b * g - a * h) * inverse;
  out[8] = (a * e - b * d) * inverse;
}
