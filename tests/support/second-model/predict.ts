/** The second model's answer to a case, in the shape of the library's. */
import type { Case, Unreachable } from '../../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from '../machines.ts';
import { type FlybarPose, closeWashout, continueWashout, directBlade, flybarBlade } from './head.ts';
import { linear } from './solve.ts';
import { type RingPath, closeSwash, normalOf, worstOf } from './swash.ts';
import { type TailAnswer, closeTail } from './tail.ts';
import { pulses } from './transmitter.ts';
import { DEG } from './vectors.ts';

export interface Harmonics {
  collective: number;
  longitudinal: number;
  lateral: number;
  residual: number;
}

export interface SecondAnswer {
  outputs: { pulse: number; saturated: boolean }[];
  servos: { pulse: number; horn: number; lever?: number }[];
  swash?: { height: number; foreAft: number; side: number };
  blades?: { pitch: number }[];
  harmonics?: Harmonics | { unreachable: Unreachable };
  flybar?: { washout: number; washoutArms: [number, number]; mixingArms: [number, number]; paddle: number; teeter: number };
  tail?: TailAnswer;
  unreachable?: Unreachable;
  /** the ring passed the upright on its way from level: no swashplate does, and its tilts then mean nothing */
  turnedOver?: true;
}

const SAMPLES = 72;

export function secondPredict(document: MachineDocument, kase: Case): SecondAnswer {
  const { pulses: outputs } = pulses(document, kase);
  const swash = closeSwash(
    document,
    outputs.map(({ pulse }) => pulse),
  );
  const tail = closeTail(document, kase);
  const answer: SecondAnswer = {
    outputs,
    servos: swash.servos.map((pose, i) => ({
      pulse: outputs[(document.servos[i]?.output ?? 0) - 1]?.pulse ?? Number.NaN,
      ...pose,
    })),
    ...(tail ? { tail } : {}),
  };
  const end = swash.path?.[swash.path.length - 1];
  if (!swash.path || !end) {
    const { turnedOver, ...unreachable } = swash.missing ?? { path: '', short: Number.NaN };
    return { ...answer, unreachable, ...(turnedOver ? { turnedOver } : {}) };
  }
  const n = normalOf(end);
  answer.swash = {
    height: end.centre[2],
    foreAft: Math.atan2(n[0], n[2]) / DEG,
    side: Math.atan2(-n[1], n[2]) / DEG,
  };
  if (swash.path.some((pose) => normalOf(pose)[2] <= 0)) return { ...answer, turnedOver: true };
  return document.flybar ? flybarAnswer(document, kase, swash.path, answer) : directAnswer(document, kase, end, answer);
}

function directAnswer(document: MachineDocument, kase: Case, ring: RingPath, answer: SecondAnswer): SecondAnswer {
  const blades = Array.from({ length: document.rotor.blades }, (_, k) => directBlade(document, ring, kase.azimuth ?? 0, k));
  const unreachable = worstOf(blades.map((blade) => ('missing' in blade ? blade.missing : undefined)));
  if (unreachable) return { ...answer, unreachable };
  return {
    ...answer,
    blades: blades.flatMap((blade) => ('pitch' in blade ? [blade] : [])),
    harmonics: roundDisc(document, (psi) => directBlade(document, ring, psi, 0)),
  };
}

function flybarAnswer(document: MachineDocument, kase: Case, path: RingPath[], answer: SecondAnswer): SecondAnswer {
  const psi = kase.azimuth ?? 0;
  const wave = kase.settled ? settle(document, path) : [kase.teeter ?? 0, 0, 0];
  if (!wave) return { ...answer, unreachable: { path: 'settling', short: Number.NaN } };
  const teeterAt = (at: number) => (wave[0] ?? 0) + (wave[1] ?? 0) * Math.sin(at * DEG) - (wave[2] ?? 0) * Math.cos(at * DEG);
  const teeter = teeterAt(psi);
  const pose = closeWashout(document, path, psi, teeter);
  if ('missing' in pose) return { ...answer, unreachable: pose.missing };
  const [first, second] = [flybarBlade(document, path, psi, 0, teeter), flybarBlade(document, path, psi, 1, teeter)];
  const missing = [first, second].flatMap((blade) => ('missing' in blade ? [blade.missing] : []));
  // Arms come before blades: a blade whose arm is in place is not looked at while the other arm cannot close.
  const arms = missing.filter(({ path: which }) => which.startsWith('/flybar'));
  const unreachable = worstOf(arms.length > 0 ? arms : missing);
  if (unreachable || 'missing' in first || 'missing' in second) return { ...answer, ...(unreachable ? { unreachable } : {}) };
  return {
    ...answer,
    flybar: { ...pose, mixingArms: [first.mixingArm, second.mixingArm], teeter },
    blades: [{ pitch: first.pitch }, { pitch: second.pitch }],
    harmonics: roundDisc(document, (at) => {
      const own = flybarBlade(document, path, at, 0, teeterAt(at));
      const other = flybarBlade(document, path, at, 1, teeterAt(at));
      // One arm that cannot close fails the head at that azimuth; blade 2's link is no part of blade 1's revolution.
      const arms = [own, other].flatMap((blade) =>
        'missing' in blade && blade.missing.path.startsWith('/flybar') ? [blade.missing] : [],
      );
      const missing = worstOf(arms);
      return missing ? { missing } : own;
    }),
  };
}

/**
 * The wave [0, dc, ds] whose teeter makes paddle pitch have that very first harmonic: Newton on two unknowns with
 * differences.
 */
function settle(document: MachineDocument, path: RingPath[]): number[] | undefined {
  const end = path[path.length - 1];
  if (!end) return undefined;
  const response = (dc: number, ds: number): [number, number] | undefined => {
    const paddles: number[] = [];
    let pose: FlybarPose | undefined;
    for (let i = 0; i < SAMPLES; i++) {
      const psi = (360 * i) / SAMPLES;
      const teeter = dc * Math.sin(psi * DEG) - ds * Math.cos(psi * DEG);
      if (pose) pose = continueWashout(document, end, psi, teeter, pose);
      else {
        const start = closeWashout(document, path, psi, teeter);
        pose = 'missing' in start ? undefined : start;
      }
      if (!pose) return undefined;
      paddles.push(pose.paddle);
    }
    const { c, s } = firstHarmonic(paddles);
    return [c, s];
  };
  let [dc, ds] = [0, 0];
  for (let i = 0; i < 12; i++) {
    const at = response(dc, ds);
    const h = 0.01;
    const byC = response(dc + h, ds);
    const byS = response(dc, ds + h);
    if (!at || !byC || !byS) return undefined;
    const miss = [at[0] - dc, at[1] - ds];
    if (Math.max(...miss.map(Math.abs)) < 1e-11) return [0, dc, ds];
    const step = linear(
      [
        [(byC[0] - at[0]) / h - 1, (byS[0] - at[0]) / h],
        [(byC[1] - at[1]) / h, (byS[1] - at[1]) / h - 1],
      ],
      miss,
    );
    if (!step) return undefined;
    dc -= step[0] ?? Number.NaN;
    ds -= step[1] ?? Number.NaN;
  }
  return undefined;
}

function firstHarmonic(values: number[]): { mean: number; c: number; s: number } {
  const sum = (weight: (psi: number) => number) =>
    values.reduce((total, value, i) => total + value * weight((2 * Math.PI * i) / values.length), 0);
  return { mean: sum(() => 1) / values.length, c: (2 * sum(Math.cos)) / values.length, s: (2 * sum(Math.sin)) / values.length };
}

type Blade = { pitch: number } | { missing: Unreachable };

function roundDisc(document: MachineDocument, blade: (psi: number) => Blade): Harmonics | { unreachable: Unreachable } {
  const round = Array.from({ length: SAMPLES }, (_, i) => blade((360 * i) / SAMPLES));
  const unreachable = worstOf(round.map((at) => ('missing' in at ? at.missing : undefined)));
  if (unreachable) return { unreachable };
  const values = round.map((at) => ('pitch' in at ? at.pitch : Number.NaN));
  const { mean, c, s } = firstHarmonic(values);
  const left = values.map((value, i) => {
    const psi = (2 * Math.PI * i) / SAMPLES;
    return value - mean - c * Math.cos(psi) - s * Math.sin(psi);
  });
  return {
    collective: mean,
    longitudinal: -s,
    lateral: document.rotor.rotation === 'counterclockwise' ? -c : c,
    residual: Math.sqrt(left.reduce((total, value) => total + value ** 2, 0) / SAMPLES),
  };
}
