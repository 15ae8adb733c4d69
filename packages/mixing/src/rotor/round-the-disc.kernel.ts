/** Made by scripts/kernel from round-the-disc.ts and the stages that it calls; change those, and run `npm run kernels`. */
import type { PreparedBlade } from './blade.ts';
import type { PreparedTurningBall } from './turning-ring.ts';

/** What `halfTangentsRound` reads of a rig, in the order in which it does. */
export function halfTangentsRoundFixed(ball: PreparedTurningBall, blade: PreparedBlade, stand: Float64Array, fixed = new Float64Array(19)): Float64Array<ArrayBuffer> {
  fixed[0] = stand[1]!;
  fixed[1] = stand[2]!;
  fixed[2] = ball.driverCos;
  fixed[3] = ball.driverSin;
  fixed[4] = (stand[3]! * stand[3]!);
  fixed[5] = ball.along;
  fixed[6] = ball.across;
  fixed[7] = stand[3]!;
  fixed[8] = ((stand[3]! * stand[3]!) * ball.driverSin);
  fixed[9] = ball.heightMm;
  fixed[10] = ((stand[3]! * stand[3]!) * ball.driverCos);
  fixed[11] = stand[0]!;
  fixed[12] = (ball.heightMm * stand[3]!);
  fixed[13] = blade.hubHeight;
  fixed[14] = blade.station;
  fixed[15] = blade.lead;
  fixed[16] = blade.height;
  fixed[17] = ((blade.lead * blade.lead) + (blade.height * blade.height));
  fixed[18] = (stand[4]! * stand[4]!);
  return fixed;
}

export function halfTangentsRound(fixed: Float64Array, count: number, psiCos: Float64Array, psiSin: Float64Array, halves: Float64Array): void {
  const k0 = fixed[0] as number;
  const k1 = fixed[1] as number;
  const k2 = fixed[2] as number;
  const k3 = fixed[3] as number;
  const k4 = fixed[4] as number;
  const k5 = fixed[5] as number;
  const k6 = fixed[6] as number;
  const k7 = fixed[7] as number;
  const k8 = fixed[8] as number;
  const k9 = fixed[9] as number;
  const k10 = fixed[10] as number;
  const k11 = fixed[11] as number;
  const k12 = fixed[12] as number;
  const k13 = fixed[13] as number;
  const k14 = fixed[14] as number;
  const k15 = fixed[15] as number;
  const k16 = fixed[16] as number;
  const k17 = fixed[17] as number;
  const k18 = fixed[18] as number;
  for (let i = 0; i < count; i += 2) {
    const i_a = i;
    const i_b = i + 1 < count ? i + 1 : i;
    let eye2a_0 = Number.NaN, eye2a_1 = Number.NaN, eye2a_2 = Number.NaN, r19a = Number.NaN, eye2b_0 = Number.NaN, eye2b_1 = Number.NaN, eye2b_2 = Number.NaN, r19b = Number.NaN;
    const c0a = (psiCos[i_a] as number);
    const c0b = (psiCos[i_b] as number);
    const s1a = (psiSin[i_a] as number);
    const s1b = (psiSin[i_b] as number);
    const nx3a = ((k0 * c0a) + (k1 * s1a));
    const nx3b = ((k0 * c0b) + (k1 * s1b));
    const ny4a = ((k1 * c0a) - (k0 * s1a));
    const ny4b = ((k1 * c0b) - (k0 * s1b));
    const nd5a = ((nx3a * k2) + (ny4a * k3));
    const nd5b = ((nx3b * k2) + (ny4b * k3));
    const perM6a = (1 / Math.sqrt((k4 + (nd5a * nd5a))));
    const perM6b = (1 / Math.sqrt((k4 + (nd5b * nd5b))));
    const along7a = (k5 * perM6a);
    const along7b = (k5 * perM6b);
    const across8a = (k6 * perM6a);
    const across8b = (k6 * perM6b);
    eye2a_0 = ((((along7a * k7) * k2) - (across8a * ((ny4a * nd5a) + k8))) + (k9 * nx3a));
    eye2b_0 = ((((along7b * k7) * k2) - (across8b * ((ny4b * nd5b) + k8))) + (k9 * nx3b));
    eye2a_1 = ((((along7a * k7) * k3) + (across8a * (k10 + (nx3a * nd5a)))) + (k9 * ny4a));
    eye2b_1 = ((((along7b * k7) * k3) + (across8b * (k10 + (nx3b * nd5b)))) + (k9 * ny4b));
    eye2a_2 = (((k11 - (along7a * nd5a)) + ((across8a * k7) * ((nx3a * k3) - (ny4a * k2)))) + k12);
    eye2b_2 = (((k11 - (along7b * nd5b)) + ((across8b * k7) * ((nx3b * k3) - (ny4b * k2)))) + k12);
    const x9a = eye2a_1;
    const x9b = eye2b_1;
    const y10a = (eye2a_2 - k13);
    const y10b = (eye2b_2 - k13);
    const n11a = (eye2a_0 - k14);
    const n11b = (eye2b_0 - k14);
    const a12a = ((k15 * x9a) + (k16 * y10a));
    const a12b = ((k15 * x9b) + (k16 * y10b));
    const b13a = ((k15 * y10a) - (k16 * x9a));
    const b13b = ((k15 * y10b) - (k16 * x9b));
    const c14a = (((((k17 + (x9a * x9a)) + (y10a * y10a)) + (n11a * n11a)) - k18) / 2);
    const c14b = (((((k17 + (x9b * x9b)) + (y10b * y10b)) + (n11b * n11b)) - k18) / 2);
    const room15a = (((a12a * a12a) + (b13a * b13a)) - (c14a * c14a));
    const room15b = (((a12b * a12b) + (b13b * b13b)) - (c14b * c14b));
    if (!(room15a >= 0)) {
      r19a = Number.NaN;
    } else {
      const root16a = Math.sqrt(room15a);
      const over17a = ((b13a < 0) ? (b13a - root16a) : (b13a + root16a));
      const r18a = ((c14a - a12a) / ((over17a === 0) ? 5e-324 : over17a));
      r19a = r18a;
    }
    if (!(room15b >= 0)) {
      r19b = Number.NaN;
    } else {
      const root16b = Math.sqrt(room15b);
      const over17b = ((b13b < 0) ? (b13b - root16b) : (b13b + root16b));
      const r18b = ((c14b - a12b) / ((over17b === 0) ? 5e-324 : over17b));
      r19b = r18b;
    }
    const r20a = r19a;
    const r20b = r19b;
    halves[i_a] = r20a;
    halves[i_b] = r20b;
  }
}

export function anglesOf(count: number, halves: Float64Array): void {
  for (let i = 0; i < count; i += 2) {
    const i_a = i;
    const i_b = i + 1 < count ? i + 1 : i;
    let r4a = Number.NaN, r4b = Number.NaN;
    const x0a = (halves[i_a] as number);
    const x0b = (halves[i_b] as number);
    if (!((x0a <= 0.2679491924311227) && (x0a >= (-0.2679491924311227)))) {
      const r1a = Math.atan(x0a);
      r4a = r1a;
    } else {
      const u2a = (x0a * x0a);
      const r3a = (x0a + ((x0a * u2a) * ((-0.33333333333331017) + (u2a * (0.19999999998947782 + (u2a * ((-0.1428571412228717) + (u2a * (0.11111098812050957 + (u2a * ((-0.09090395407529735) + (u2a * (0.07679734824842738 + (u2a * ((-0.06486120863343471) + (u2a * 0.044485799374797824))))))))))))))));
      r4a = r3a;
    }
    if (!((x0b <= 0.2679491924311227) && (x0b >= (-0.2679491924311227)))) {
      const r1b = Math.atan(x0b);
      r4b = r1b;
    } else {
      const u2b = (x0b * x0b);
      const r3b = (x0b + ((x0b * u2b) * ((-0.33333333333331017) + (u2b * (0.19999999998947782 + (u2b * ((-0.1428571412228717) + (u2b * (0.11111098812050957 + (u2b * ((-0.09090395407529735) + (u2b * (0.07679734824842738 + (u2b * ((-0.06486120863343471) + (u2b * 0.044485799374797824))))))))))))))));
      r4b = r3b;
    }
    halves[i_a] = (2 * r4a);
    halves[i_b] = (2 * r4b);
  }
}
