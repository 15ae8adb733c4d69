/**
 * Sticks in, output pulses out.
 *
 *   C = curve(collective)/100;  E, A = rates(elevator), rates(aileron): y = rate/100 ((1 - e) x + e x^3)
 *   hypot(E, A) > limit: both scaled down to it
 *   forward, right = turn by phase of (elevator/100 E, aileron/100 A)
 *   u_j = weight_j . [collective/100 C, forward, right]
 *   pulse_j = neutral + (reverse ? -1 : +1) span travel(u_j) u_j + subtrim, held within limits
 *
 * Takes: sticks -1 to +1. Gives: pulses in microseconds and whether a limit cut one off.
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import { rotationSign } from '../quantities/frames.ts';
import type { Mix, Output, PitchCurveMode, StickRate, Transmitter } from '../rig/rig.ts';

export interface PreparedOutput {
  neutralUs: number;
  /** signed by `reverse`, microseconds for u = -1 and u = +1 at their travels */
  swingBelowUs: number;
  swingAboveUs: number;
  /** mean of the two, and half of what they differ by */
  swingUs: number;
  swingBendUs: number;
  subtrimUs: number;
  leastUs: number;
  mostUs: number;
}

export interface PreparedRate {
  linear: number;
  cubic: number;
}

export interface PreparedTransmitter {
  modes: { name: string; curve: Float64Array }[];
  elevator: PreparedRate;
  aileron: PreparedRate;
  rudder: PreparedRate;
  /** as a ratio of full stick; Infinity where there is none */
  cyclicLimitRatio: number;
  elevatorMixRatio: number;
  aileronMixRatio: number;
  phaseCos: number;
  /** signed by the direction of rotation */
  phaseSin: number;
  /** 3 x 3, rows the outputs; the collective mix value is in the first column */
  weights: Float64Array;
  outputs: PreparedOutput[];
  rudderOutput: PreparedOutput;
}

/** Unit weights of the outputs, meant for balls at azimuths b: collective 1, elevator -cos b, aileron +sin b. */
export function unitWeights(mix: Mix): number[][] {
  if (mix.weights) return mix.weights.map((row) => [...row]);
  if (!mix.azimuths) throw new TypeError('a mix needs azimuths or weights: got neither, though the document was read');
  return mix.azimuths.map((azimuthDeg) => [1, -cosDeg(azimuthDeg), sinDeg(azimuthDeg)]);
}

export function prepareTransmitter(transmitter: Transmitter, rotation: 'clockwise' | 'counterclockwise'): PreparedTransmitter {
  const mix = transmitter.mix;
  const weights = new Float64Array(9);
  const units = unitWeights(mix);
  for (let j = 0; j < 3; j++) {
    const row = units[j] as number[];
    weights[3 * j] = (row[0] as number) * (mix.collective / 100);
    weights[3 * j + 1] = row[1] as number;
    weights[3 * j + 2] = row[2] as number;
  }
  return {
    modes: transmitter.flightModes.map(prepareMode),
    elevator: prepareRate(transmitter.rates.elevator),
    aileron: prepareRate(transmitter.rates.aileron),
    rudder: prepareRate(transmitter.rates.rudder),
    cyclicLimitRatio: mix.cyclicLimit === undefined ? Number.POSITIVE_INFINITY : mix.cyclicLimit / 100,
    elevatorMixRatio: mix.elevator / 100,
    aileronMixRatio: mix.aileron / 100,
    phaseCos: cosDeg(mix.phase),
    phaseSin: rotationSign(rotation) * sinDeg(mix.phase),
    weights,
    outputs: transmitter.outputs.map(prepareOutput),
    rudderOutput: prepareOutput(transmitter.rudder),
  };
}

function prepareMode({ name, pitchCurve }: PitchCurveMode): { name: string; curve: Float64Array } {
  const curve = new Float64Array(pitchCurve.length);
  for (let i = 0; i < curve.length; i++) curve[i] = (pitchCurve[i] as number) / 100;
  return { name, curve };
}

function prepareRate({ rate, expo }: StickRate): PreparedRate {
  return { linear: (rate / 100) * (1 - expo / 100), cubic: (rate / 100) * (expo / 100) };
}

export function prepareOutput(output: Output): PreparedOutput {
  const sign = output.reverse ? -1 : 1;
  const swingBelowUs = sign * output.span * (output.travel[0] / 100);
  const swingAboveUs = sign * output.span * (output.travel[1] / 100);
  return {
    neutralUs: output.neutral,
    swingBelowUs,
    swingAboveUs,
    swingUs: (swingAboveUs + swingBelowUs) / 2,
    swingBendUs: (swingAboveUs - swingBelowUs) / 2,
    subtrimUs: output.subtrim,
    leastUs: output.limits ? output.limits[0] : Number.NEGATIVE_INFINITY,
    mostUs: output.limits ? output.limits[1] : Number.POSITIVE_INFINITY,
  };
}

/** A stick after its rate and expo, as a ratio; positive expo softens the centre. */
export function shapedStick(rate: PreparedRate, stick: number): number {
  return rate.linear * stick + rate.cubic * stick * stick * stick;
}

/** The pitch curve at a collective stick position, as a ratio: straight lines between equally spaced points. */
export function curveAt(curve: Float64Array, collective: number): number {
  const spans = curve.length - 1;
  const along = ((collective + 1) / 2) * spans;
  const left = along >= spans ? spans - 1 : along <= 0 ? 0 : Math.floor(along);
  const low = curve[left] as number;
  return low + (along - left) * ((curve[left + 1] as number) - low);
}

/**
 * Commands u of the three outputs, as ratios, into `u` (3).
 * `collective`, `elevator`, `aileron` are sticks, -1 to +1; `mode` is a place in `modes`.
 */
export function commands(
  transmitter: PreparedTransmitter,
  mode: number,
  collective: number,
  elevator: number,
  aileron: number,
  u: Float64Array,
): void {
  const c = curveAt((transmitter.modes[mode] as { curve: Float64Array }).curve, collective);
  mixCommands(transmitter, c, elevator, aileron, u);
}

/** The same with collective past its curve already, a ratio. */
export function mixCommands(
  transmitter: PreparedTransmitter,
  c: number,
  elevator: number,
  aileron: number,
  u: Float64Array,
): void {
  let e = shapedStick(transmitter.elevator, elevator);
  let a = shapedStick(transmitter.aileron, aileron);
  const limit = transmitter.cyclicLimitRatio;
  const squared = e * e + a * a;
  if (squared > limit * limit) {
    const scale = limit / Math.sqrt(squared);
    e *= scale;
    a *= scale;
  }
  e *= transmitter.elevatorMixRatio;
  a *= transmitter.aileronMixRatio;
  const forward = e * transmitter.phaseCos + a * transmitter.phaseSin;
  const right = a * transmitter.phaseCos - e * transmitter.phaseSin;
  const w = transmitter.weights;
  u[0] = (w[0] as number) * c + (w[1] as number) * forward + (w[2] as number) * right;
  u[1] = (w[3] as number) * c + (w[4] as number) * forward + (w[5] as number) * right;
  u[2] = (w[6] as number) * c + (w[7] as number) * forward + (w[8] as number) * right;
}

/**
 * The pulse of one output in microseconds before its limits. Its two travels as mean and bend, swing u + bend |u|, ask
 * nothing of u's sign, which over many poses no processor can guess.
 */
export function freePulseUs(output: PreparedOutput, u: number): number {
  return output.neutralUs + (output.swingUs * u + output.swingBendUs * Math.abs(u)) + output.subtrimUs;
}

/** A pulse in microseconds held within its output's limits. */
export function heldPulseUs(output: PreparedOutput, pulseUs: number): number {
  return pulseUs < output.leastUs ? output.leastUs : pulseUs > output.mostUs ? output.mostUs : pulseUs;
}

/** Commands to pulses in microseconds, with a 1 in `saturated` where a limit cut one off. */
export function outputPulses(
  transmitter: PreparedTransmitter,
  u: Float64Array,
  pulseUs: Float64Array,
  saturated: Uint8Array,
): void {
  for (let j = 0; j < 3; j++) {
    const output = transmitter.outputs[j] as PreparedOutput;
    const free = freePulseUs(output, u[j] as number);
    const held = heldPulseUs(output, free);
    pulseUs[j] = held;
    saturated[j] = held === free ? 0 : 1;
  }
}
