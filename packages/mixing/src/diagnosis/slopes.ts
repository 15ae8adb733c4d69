/**
 * Derivatives of readings by every unknown, at the poses that the bench closes.
 *
 * The ring's closure r_i(pose, values) = 0 gives them almost for nothing: dpose = -(dr/dpose)^-1 dr/dvalue, and a value of
 * one servo moves one residual. What only turns a horn (transmitter, rate, offset, neutral) goes through the residual's
 * one derivative by that horn's angle. A reading costs its three derivatives by the pose. What stands above the ring is
 * read again on the same ring, and the tail by itself. Forward differences of exact numbers: some 1e-5 of a derivative.
 */
import { DEG_PER_RAD, radOf } from '../quantities/angles.ts';
import { makePose, type Pose, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import { prepare, type PreparedRig, type PreparedServo } from '../rig/prepare.ts';
import { hornAngleRad, hornBall, type PreparedHorn } from '../servo/horn.ts';
import { closeLever, leverAngleRad, type PreparedLever } from '../servo/lever.ts';
import { determinant3, type PreparedRing, RING, ringLength, ringNormal, ringResiduals } from '../swashplate/ring.ts';
import { commands, outputPulses, type PreparedTransmitter } from '../transmitter/outputs.ts';
import type { Head, Setting } from './bench.ts';
import type { UnknownValue } from './posterior.ts';
import { headReading, ringReading, servoReading, tailReading } from './probe.ts';
import type { ReadingPlace } from './readings.ts';
import { prepareVariant, STEP, type Variant, variantOf } from './variants.ts';
import type { Slot, WorkMachine } from './work-machine.ts';

type Of<G extends Variant['group']> = Extract<Variant, { group: G }>;

export class SlopesOfSession {
  private readonly n: number;
  private readonly variants: Variant[] = [];
  private live: Variant[] = [];
  private uppers: Of<'upper'>[] = [];
  private wholes: Of<'whole'>[] = [];
  private readonly replaced = new Set<Slot>();
  /** of the setting at hand, per unit of each unknown: pose (z, a, b), horns and levers in degrees */
  private readonly dPose: Float64Array;
  private readonly dHorn: Float64Array;
  private readonly dLever: Float64Array;
  /** of the setting at hand: each servo's residual and lever (degrees) per degree of its horn */
  private readonly residualPerDeg = new Float64Array(3);
  private readonly leverPerDeg = new Float64Array(3);
  private readonly other: Pose;
  private setting: Setting | undefined;
  private readonly residual0 = new Float64Array(3);
  private readonly jacobian = new Float64Array(9);
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

  /** Prepares one changed stage for each unknown (of those that `wanted` marks), for a session's machine. */
  start(prepared: PreparedRig, replaced: ReadonlySet<Slot>, wanted?: Float64Array): void {
    this.live = [];
    this.uppers = [];
    this.wholes = [];
    this.replaced.clear();
    for (const slot of replaced) this.replaced.add(slot);
    for (const variant of this.variants) {
      if (replaced.has(variant.slot) || (wanted && wanted[variant.k] === 0)) continue;
      prepareVariant(variant, prepared, this.work.rig);
      if (variant.group === 'upper') this.uppers.push(variant);
      else if (variant.group === 'whole') this.wholes.push(variant);
      else this.live.push(variant);
    }
  }

  /** Derivatives of horns, levers and (where it is closed) the ring's pose at the setting at hand. True where closed. */
  ofSetting(prepared: PreparedRig, setting: Setting, closed: boolean): boolean {
    const { pose } = this;
    this.setting = setting;
    this.dPose.fill(0);
    this.dHorn.fill(0);
    this.dLever.fill(0);
    if (closed) {
      ringResiduals(prepared.ring, pose.ring, pose.eyes, prepared.ring.linkMm, this.residual0, this.jacobian);
      invert3(this.jacobian, this.inverse);
    }
    this.perDegree(prepared, closed);
    const { collective, elevator, aileron } = setting.place.sticks;
    for (const variant of this.live) {
      const { k, step } = variant;
      switch (variant.group) {
        case 'horn': {
          const i = variant.servo;
          const pulseUs = pose.pulseUs[(prepared.servos[i] as PreparedServo).output] as number;
          this.turnHorn(
            k,
            i,
            ((hornAngleRad(variant.horn as PreparedHorn, pulseUs) - (pose.hornRad[i] as number)) * DEG_PER_RAD) / step,
          );
          break;
        }
        case 'transmitter':
          commands(variant.transmitter as PreparedTransmitter, setting.mode, collective, elevator, aileron, this.u);
          outputPulses(variant.transmitter as PreparedTransmitter, this.u, this.pulseUs, this.saturated);
          for (let i = 0; i < 3; i++) {
            const { horn, output } = prepared.servos[i] as PreparedServo;
            const us = (this.pulseUs[output] as number) - (pose.pulseUs[output] as number);
            if (us !== 0) this.turnHorn(k, i, (us * horn.rateRadPerUs * DEG_PER_RAD) / step);
          }
          break;
        case 'servo': {
          this.eyes.set(pose.eyes);
          this.placeEye(variant.servo, variant.horn as PreparedHorn, variant.lever, pose.hornRad[variant.servo] as number);
          if (variant.lever) this.dLever[3 * k + variant.servo] = this.leverTurned(prepared, variant.servo, variant.lever) / step;
          if (closed) this.movePose(k, variant.servo, this.residualOf(prepared.ring, this.eyes, variant.servo) / step);
          break;
        }
        case 'link':
          if (closed) this.movePose(k, variant.servo, -1);
          break;
        case 'ball':
          if (closed)
            this.movePose(k, variant.servo, this.residualOf(variant.ring as PreparedRing, pose.eyes, variant.servo) / step);
          break;
      }
    }
    return closed;
  }

  private perDegree(prepared: PreparedRig, closed: boolean): void {
    const { pose } = this;
    this.eyes.set(pose.eyes);
    for (let i = 0; i < 3; i++) {
      const { horn, lever } = prepared.servos[i] as PreparedServo;
      this.placeEye(i, horn, lever, (pose.hornRad[i] as number) + radOf(STEP));
      if (lever) this.leverPerDeg[i] = this.leverTurned(prepared, i, lever) / STEP;
    }
    if (!closed) return;
    // each residual sees its own eye alone, so that all three move at once
    for (let i = 0; i < 3; i++) this.residualPerDeg[i] = this.residualOf(prepared.ring, this.eyes, i) / STEP;
  }

  private residualOf(ring: PreparedRing, eyes: Float64Array, i: number): number {
    return ringLength(ring, this.pose.ring, eyes, i) - (ring.linkMm[i] as number) - (this.residual0[i] as number);
  }

  private placeEye(i: number, horn: PreparedHorn, lever: PreparedLever | undefined, angleRad: number): void {
    if (!lever) hornBall(horn, angleRad, this.eyes, 3 * i);
    else {
      hornBall(horn, angleRad, this.ball, 3 * i);
      closeLever(lever, this.ball, 3 * i, this.eyes, this.turn);
    }
  }

  /** Degrees by which the lever just placed stands off from the one of the pose. */
  private leverTurned(prepared: PreparedRig, i: number, lever: PreparedLever): number {
    const base = leverAngleRad(
      (prepared.servos[i] as PreparedServo).lever as PreparedLever,
      this.pose.leverTurn[i] as Float64Array,
    );
    return (leverAngleRad(lever, this.turn) - base) * DEG_PER_RAD;
  }

  private turnHorn(k: number, i: number, degrees: number): void {
    this.dHorn[3 * k + i] = degrees;
    this.dLever[3 * k + i] = degrees * (this.leverPerDeg[i] as number);
    this.movePose(k, i, degrees * (this.residualPerDeg[i] as number));
  }

  private movePose(k: number, i: number, residual: number): void {
    for (let a = 0; a < 3; a++) {
      this.dPose[3 * k + a] = (this.dPose[3 * k + a] as number) - (this.inverse[3 * a + i] as number) * residual;
    }
  }

  ofServos(setting: Setting, jacobian: Float64Array, h: Float64Array, rows: number): void {
    for (const { place, at } of setting.servoProbes) {
      if (at >= rows) continue;
      const from = place.measure === 'horn-angle' ? this.dHorn : this.dLever;
      for (let k = 0; k < this.n; k++) jacobian[at * this.n + k] = from[3 * k + place.of - 1] as number;
      this.eachWhole(setting, (prepared, k, step) => {
        jacobian[at * this.n + k] = (servoReading(prepared, this.other, place.measure, place.of) - (h[at] as number)) / step;
      });
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
      this.eachWhole(setting, (changed, k, step) => {
        jacobian[at * this.n + k] = (ringReading(changed, this.other, place.measure) - (h[at] as number)) / step;
      });
    }
  }

  ofHead(prepared: PreparedRig, head: Head, jacobian: Float64Array, h: Float64Array, rows: number): void {
    const { pose } = this;
    for (const { place, at } of head.probes) {
      if (at >= rows) continue;
      const base = h[at] as number;
      for (let a = 0; a < 3; a++) {
        this.nudge(a);
        this.addPose(jacobian, at, a, (headReading(prepared, pose, head, place.measure, place.of, true) - base) / NUDGE);
        pose.ring.set(this.keep);
      }
      for (const variant of this.uppers) {
        if (!variant.reaches(place)) continue;
        const changed = headReading(variant.prepared as PreparedRig, pose, head, place.measure, place.of, true);
        jacobian[at * this.n + variant.k] = (changed - base) / variant.step;
      }
      this.eachWhole(this.setting as Setting, (changed, k, step) => {
        jacobian[at * this.n + k] = (headReading(changed, this.other, head, place.measure, place.of) - base) / step;
      });
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
    for (let k = 0; k < this.n; k++)
      jacobian[row + k] = (jacobian[row + k] as number) + slope * (this.dPose[3 * k + a] as number);
  }

  /** Unknowns that no stage holds alone are posed from the sticks on. Met where `known` names such a value. */
  private eachWhole(setting: Setting, read: (prepared: PreparedRig, k: number, step: number) => void): void {
    for (const { prepared, k, step } of this.wholes) {
      if (!prepared) continue;
      const { collective, elevator, aileron } = setting.place.sticks;
      setSticks(prepared, this.other, setting.mode, collective, elevator, aileron);
      setHorns(prepared, this.other);
      poseRing(prepared, this.other);
      read(prepared, k, step);
    }
  }
}

/** mm, or tangent of half a tilt */
const NUDGE = 1e-6;

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
