/**
 * How fast each output's pulse moves with one stick: the one-sided slopes on either side of a stick position.
 *
 * Everything in the transmitter is smooth but for corners: the points of a curve, travel at u = 0, the ring of the
 * cyclic limit, an output's limit. A one-sided slope takes each corner on its own side; the two agree everywhere else.
 */
import {
  commands,
  freePulseUs,
  type PreparedOutput,
  type PreparedRate,
  type PreparedTransmitter,
  shapedStick,
} from './outputs.ts';

export type StickName = 'collective' | 'elevator' | 'aileron';
export type Side = 1 | -1;

/** Closer to a corner than this (a ratio of full stick or command), a position counts as on it: rounding, no more. */
const ON_CORNER = 1e-12;

function curveSlope(curve: Float64Array, collective: number, side: Side): number {
  const spans = curve.length - 1;
  const along = ((collective + 1) / 2) * spans;
  const nearest = Math.round(along);
  const onCorner = Math.abs(along - nearest) < ON_CORNER * spans;
  const left = onCorner ? (side > 0 ? nearest : nearest - 1) : Math.floor(along);
  const span = Math.min(Math.max(left, 0), spans - 1);
  return (((curve[span + 1] as number) - (curve[span] as number)) * spans) / 2;
}

function rateSlope(rate: PreparedRate, stick: number): number {
  return rate.linear + 3 * rate.cubic * stick * stick;
}

const u = new Float64Array(3);

/**
 * d pulse_j / d stick of the three outputs, microseconds per unit stick, on one side of a stick position, into `out`.
 * A pulse beyond a limit has slope 0; one just on it has the slope of the side that `side` leads to.
 */
export function pulseSlopes(
  transmitter: PreparedTransmitter,
  mode: number,
  sticks: { collective: number; elevator: number; aileron: number },
  stick: StickName,
  side: Side,
  out: Float64Array,
): void {
  let dc = 0;
  let de = 0;
  let da = 0;
  if (stick === 'collective') {
    const curve = (transmitter.modes[mode] as { curve: Float64Array }).curve;
    dc = curveSlope(curve, sticks.collective, side);
  } else {
    const e = shapedStick(transmitter.elevator, sticks.elevator);
    const a = shapedStick(transmitter.aileron, sticks.aileron);
    if (stick === 'elevator') de = rateSlope(transmitter.elevator, sticks.elevator);
    else da = rateSlope(transmitter.aileron, sticks.aileron);
    const limit = transmitter.cyclicLimitRatio;
    const size = Math.hypot(e, a);
    const outward = size === 0 ? Math.hypot(de, da) : (side * (e * de + a * da)) / size;
    const beyond = size - limit;
    if (beyond > ON_CORNER || (Math.abs(beyond) <= ON_CORNER && outward > 0)) {
      // v = limit (e, a) / size: what is left is the part across the stick's direction
      const along = size === 0 ? 0 : (e * de + a * da) / (size * size);
      const scale = size === 0 ? 0 : limit / size;
      de = scale * (de - along * e);
      da = scale * (da - along * a);
    }
    de *= transmitter.elevatorMixRatio;
    da *= transmitter.aileronMixRatio;
  }
  const forward = de * transmitter.phaseCos + da * transmitter.phaseSin;
  const right = da * transmitter.phaseCos - de * transmitter.phaseSin;
  commands(transmitter, mode, sticks.collective, sticks.elevator, sticks.aileron, u);
  for (let j = 0; j < 3; j++) {
    const output = transmitter.outputs[j] as PreparedOutput;
    const w = transmitter.weights;
    const du = (w[3 * j] as number) * dc + (w[3 * j + 1] as number) * forward + (w[3 * j + 2] as number) * right;
    const uj = u[j] as number;
    const onZero = Math.abs(uj) < ON_CORNER;
    const below = onZero ? side * du < 0 : uj < 0;
    const slope = (below ? output.swingBelowUs : output.swingAboveUs) * du;
    out[j] = heldSlope(output, freePulseUs(output, uj), slope, side);
  }
}

function heldSlope(output: PreparedOutput, freeUs: number, slope: number, side: Side): number {
  const near = ON_CORNER * 1000;
  if (freeUs > output.mostUs + near || freeUs < output.leastUs - near) return 0;
  const goesUp = side * slope > 0;
  if (Math.abs(freeUs - output.mostUs) <= near && goesUp) return 0;
  if (Math.abs(freeUs - output.leastUs) <= near && !goesUp) return 0;
  return slope;
}

const oneSide = new Float64Array(3);

/**
 * The slope of the three outputs by one stick: at an end of the stick's travel one-sided, at a corner the mean of both
 * sides, into `out` (microseconds per unit stick).
 */
export function meanPulseSlopes(
  transmitter: PreparedTransmitter,
  mode: number,
  sticks: { collective: number; elevator: number; aileron: number },
  stick: StickName,
  out: Float64Array,
): void {
  const at = sticks[stick];
  pulseSlopes(transmitter, mode, sticks, stick, at >= 1 ? -1 : 1, out);
  if (at >= 1 || at <= -1) return;
  pulseSlopes(transmitter, mode, sticks, stick, -1, oneSide);
  for (let j = 0; j < 3; j++) out[j] = ((out[j] as number) + (oneSide[j] as number)) / 2;
}
