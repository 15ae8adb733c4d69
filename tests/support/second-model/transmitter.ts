/** Sticks to pulses, second derivation: the commanded tilt is a complex number, forward + i left, turned by multiplication. */
import type { Case } from '../../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from '../machines.ts';
import { DEG } from './vectors.ts';

export interface Pulse {
  pulse: number;
  saturated: boolean;
}

interface OutputLike {
  neutral?: number;
  span?: number;
  travel?: [number, number];
  subtrim?: number;
  reverse?: boolean;
  limits?: [number, number];
}

/** Which straight or smooth piece of the transmitter's law a stick position lies on, so that differences never cross a corner. */
export interface Signature {
  pulses: Pulse[];
  piece: string;
}

export function pulses(document: MachineDocument, kase: Case): Signature {
  const { mix, outputs, flightModes, rates } = document.transmitter;
  const modes = flightModes ?? [{ name: '', pitchCurve: [-100, 100] }];
  const mode = kase.mode === undefined ? modes[0] : modes.find(({ name }) => name === kase.mode);
  if (!mode) throw new RangeError(`mode: got ${kase.mode}, expected one of the document's`);
  const piece: string[] = [];

  const stick = kase.collective ?? 0;
  const spans = mode.pitchCurve.length - 1;
  // The straight line whose own stretch holds the stick; a stick on a knot belongs to either, with one value.
  const k = Math.min(spans - 1, Math.max(0, Math.floor(((stick + 1) / 2) * spans)));
  const along = ((stick + 1) / 2) * spans - k;
  const curve = ((mode.pitchCurve[k] ?? Number.NaN) * (1 - along) + (mode.pitchCurve[k + 1] ?? Number.NaN) * along) / 100;
  piece.push(`curve ${k}`);

  const rated = (value: number, rate?: { rate?: number; expo?: number }) => {
    const e = (rate?.expo ?? 0) / 100;
    return ((rate?.rate ?? 100) / 100) * ((1 - e) * value + e * value ** 3);
  };
  let elevator = rated(kase.elevator ?? 0, rates?.elevator);
  let aileron = rated(kase.aileron ?? 0, rates?.aileron);
  const size = Math.sqrt(elevator ** 2 + aileron ** 2);
  const limit = mix.cyclicLimit === undefined ? Number.POSITIVE_INFINITY : mix.cyclicLimit / 100;
  if (size > limit) {
    elevator *= limit / size;
    aileron *= limit / size;
  }
  piece.push(`ring ${size > limit}`);

  const forward = (mix.elevator / 100) * elevator;
  const left = -(mix.aileron / 100) * aileron;
  const turn = (document.rotor.rotation === 'counterclockwise' ? 1 : -1) * (mix.phase ?? 0) * DEG;
  const turnedForward = forward * Math.cos(turn) - left * Math.sin(turn);
  const turnedRight = -(forward * Math.sin(turn) + left * Math.cos(turn));

  const made = outputs.map((output, j) => {
    const b = (mix.azimuths?.[j] ?? Number.NaN) * DEG;
    const [wc, we, wa] = mix.weights?.[j] ?? [1, -Math.cos(b), Math.sin(b)];
    const u = wc * (mix.collective / 100) * curve + we * turnedForward + wa * turnedRight;
    const result = toPulse(output, u);
    piece.push(`${u < 0} ${result.side}`);
    return result;
  });
  return { pulses: made.map(({ pulse, saturated }) => ({ pulse, saturated })), piece: piece.join(' ') };
}

export function rudderPulse(document: MachineDocument, kase: Case): Pulse {
  const rate = document.transmitter.rates?.rudder;
  const e = (rate?.expo ?? 0) / 100;
  const x = kase.rudder ?? 0;
  const y = ((rate?.rate ?? 100) / 100) * ((1 - e) * x + e * x ** 3);
  const output: OutputLike = document.transmitter.rudder ?? {};
  const plain = toPulse(output, y);
  const gyro = document.tail?.gyro;
  if (!gyro) return plain;
  const gain = gyro.scale === 'centred' ? 2 * (gyro.gain - 50) : gyro.gain;
  const helped = plain.pulse + ((gyro.reverse ? -1 : 1) * Math.abs(gain) * gyro.rate * (kase.yawRate ?? 0)) / 100;
  const neutral = output.neutral ?? 1520;
  const reach = ((output.span ?? 400) * gyro.limit) / 100;
  const held = Math.min(neutral + reach, Math.max(neutral - reach, helped));
  return { pulse: held, saturated: plain.saturated || held !== helped };
}

function toPulse(output: OutputLike, u: number): Pulse & { side: string } {
  const [below, above] = output.travel ?? [100, 100];
  const direction = output.reverse ? -1 : 1;
  const wanted =
    (output.neutral ?? 1520) + (direction * (output.span ?? 400) * (u < 0 ? below : above) * u) / 100 + (output.subtrim ?? 0);
  const [least, most] = output.limits ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  if (wanted < least) return { pulse: least, saturated: true, side: 'under' };
  if (wanted > most) return { pulse: most, saturated: true, side: 'over' };
  return { pulse: wanted, saturated: false, side: 'free' };
}
