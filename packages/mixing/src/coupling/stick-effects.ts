/**
 * What each stick does from mid-stick, as far as words need it: the lean that stands before any stick moves, and what
 * a full stick adds to it. Vectors are [forward, right] in degrees: of the swashplate's tilt, and of the disc that the
 * blades' first harmonic commands (longitudinal, lateral).
 */
import { predict, type Prediction } from '../rig/predict.ts';
import { prepare } from '../rig/prepare.ts';
import type { Case, Rig, Unreachable } from '../rig/rig.ts';

export type Tilt = readonly [forward: number, right: number];

export interface StickEffect {
  /** degrees of the swashplate added by the stick */
  ring: Tilt;
  /** degrees of blade pitch's first harmonic added by the stick; absent where a sample round the disc cannot close */
  disc?: Tilt;
  /** degrees of mean blade pitch added */
  pitch: number;
  /** mm of swashplate height added */
  heightMm: number;
}

export interface StickEffects {
  /** degrees the horns stand at */
  horns: number[];
  standing: Tilt;
  /** degrees: blade 1's mean pitch at mid-stick */
  zero: number;
  /** degrees: mean pitch of every blade at mid-stick */
  blades: number[];
  /** of the stick positions tried, 1, 1/2 and 1/4: the largest that all three sticks reach, and that effects are for */
  stick: number;
  elevator: StickEffect;
  aileron: StickEffect;
  collective: StickEffect;
}

/** Parts of full stick to try: a machine that binds at full stick can still be described at less. */
const STICKS = [1, 0.5, 0.25] as const;

/** The effects of the three sticks, or what cannot be reached even at mid-stick or a quarter of it. */
export function stickEffects(rig: Rig, mode?: string): StickEffects | Unreachable {
  const prepared = prepare(rig);
  const ask = (kase: Case): Prediction => predict(prepared, mode === undefined ? kase : { ...kase, mode });
  const mid = ask({});
  if (!isPosed(mid)) return mid.unreachable as Unreachable;
  let missing: Unreachable | undefined;
  for (const stick of STICKS) {
    const moved = [ask({ elevator: stick }), ask({ aileron: stick }), ask({ collective: stick })] as const;
    missing = moved.find((one) => !isPosed(one))?.unreachable;
    if (missing) continue;
    const [elevator, aileron, collective] = moved.map((one) => effect(mid, one)) as [StickEffect, StickEffect, StickEffect];
    return {
      horns: mid.servos.map(({ horn }) => horn),
      standing: [mid.swash?.foreAft ?? 0, mid.swash?.side ?? 0],
      zero: meanPitch(mid),
      blades: bladeMeans(ask),
      stick,
      elevator,
      aileron,
      collective,
    };
  }
  return missing as Unreachable;
}

const isPosed = (prediction: Prediction): boolean => prediction.swash !== undefined && prediction.blades !== undefined;

function effect(mid: Prediction, moved: Prediction): StickEffect {
  const { foreAft = 0, side = 0, height = 0 } = mid.swash ?? {};
  const to = moved.swash ?? { foreAft: 0, side: 0, height: 0 };
  const one: StickEffect = {
    ring: [to.foreAft - foreAft, to.side - side],
    pitch: meanPitch(moved) - meanPitch(mid),
    heightMm: to.height - height,
  };
  const before = mid.harmonics;
  const after = moved.harmonics;
  if (before && after && 'longitudinal' in before && 'longitudinal' in after) {
    one.disc = [after.longitudinal - before.longitudinal, after.lateral - before.lateral];
  }
  return one;
}

/** Blade 1's mean pitch round the disc; where the disc does not close everywhere, its pitch where it stands. */
function meanPitch(prediction: Prediction): number {
  const { harmonics } = prediction;
  return harmonics && 'collective' in harmonics ? harmonics.collective : (prediction.blades?.[0]?.pitch ?? 0);
}

/**
 * Each blade's mean pitch at mid-stick, from four azimuths: the first and third harmonics cancel, which is what a
 * mechanic's comparison of blade with blade needs.
 */
function bladeMeans(ask: (kase: Case) => Prediction): number[] {
  const sums: number[] = [];
  for (const azimuth of [0, 90, 180, 270]) {
    ask({ azimuth }).blades?.forEach(({ pitch }, k) => {
      sums[k] = (sums[k] ?? 0) + pitch / 4;
    });
  }
  return sums;
}
