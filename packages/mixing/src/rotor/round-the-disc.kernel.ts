/** Made by scripts/kernel from round-the-disc.ts and the stages that it calls; change those, and run `npm run kernels`. */
import type { PreparedBlade } from './blade.ts';
import type { PreparedTurningBall } from './turning-ring.ts';

/** What `halfTangentsRound` reads of a rig, in the order in which it does. */
export function halfTangentsRoundFixed(ball: PreparedTurningBall, blade: PreparedBlade, stand: Float64Array, fixed = new Float64Array(14)): Float64Array<ArrayBuffer> {
  fixed[0] = stand[1]!;
  fixed[1] = stand[2]!;
  fixed[2] = ball.driverCos;
  fixed[3] = ball.driverSin;
  fixed[4] = stand[3]!;
  fixed[5] = ball.along;
  fixed[6] = ball.across;
  fixed[7] = ball.heightMm;
  fixed[8] = stand[0]!;
  fixed[9] = blade.hubHeight;
  fixed[10] = blade.station;
  fixed[11] = blade.lead;
  fixed[12] = blade.height;
  fixed[13] = stand[4]!;
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
  for (let i = 0; i < count; i += 2) {
    const i_a = i;
    const i_b = i + 1 < count ? i + 1 : i;
    let eye2a_0 = 0, eye2a_1 = 0, eye2a_2 = 0, r20a = 0, eye2b_0 = 0, eye2b_1 = 0, eye2b_2 = 0, r20b = 0;
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
    const perM6a = (1 / Math.sqrt(((k4 * k4) + (nd5a * nd5a))));
    const perM6b = (1 / Math.sqrt(((k4 * k4) + (nd5b * nd5b))));
    const along7a = (k5 * perM6a);
    const along7b = (k5 * perM6b);
    const across8a = (k6 * perM6a);
    const across8b = (k6 * perM6b);
    const nz29a = (k4 * k4);
    const nz29b = (k4 * k4);
    eye2a_0 = ((((along7a * k4) * k2) - (across8a * ((ny4a * nd5a) + (nz29a * k3)))) + (k7 * nx3a));
    eye2b_0 = ((((along7b * k4) * k2) - (across8b * ((ny4b * nd5b) + (nz29b * k3)))) + (k7 * nx3b));
    eye2a_1 = ((((along7a * k4) * k3) + (across8a * ((nz29a * k2) + (nx3a * nd5a)))) + (k7 * ny4a));
    eye2b_1 = ((((along7b * k4) * k3) + (across8b * ((nz29b * k2) + (nx3b * nd5b)))) + (k7 * ny4b));
    eye2a_2 = (((k8 - (along7a * nd5a)) + ((across8a * k4) * ((nx3a * k3) - (ny4a * k2)))) + (k7 * k4));
    eye2b_2 = (((k8 - (along7b * nd5b)) + ((across8b * k4) * ((nx3b * k3) - (ny4b * k2)))) + (k7 * k4));
    const x10a = eye2a_1;
    const x10b = eye2b_1;
    const y11a = (eye2a_2 - k9);
    const y11b = (eye2b_2 - k9);
    const n12a = (eye2a_0 - k10);
    const n12b = (eye2b_0 - k10);
    const a13a = ((k11 * x10a) + (k12 * y11a));
    const a13b = ((k11 * x10b) + (k12 * y11b));
    const b14a = ((k11 * y11a) - (k12 * x10a));
    const b14b = ((k11 * y11b) - (k12 * x10b));
    const c15a = (((((((k11 * k11) + (k12 * k12)) + (x10a * x10a)) + (y11a * y11a)) + (n12a * n12a)) - (k13 * k13)) / 2);
    const c15b = (((((((k11 * k11) + (k12 * k12)) + (x10b * x10b)) + (y11b * y11b)) + (n12b * n12b)) - (k13 * k13)) / 2);
    const room16a = (((a13a * a13a) + (b14a * b14a)) - (c15a * c15a));
    const room16b = (((a13b * a13b) + (b14b * b14b)) - (c15b * c15b));
    if (!(room16a >= 0)) {
      r20a = Number.NaN;
    } else {
      const root17a = Math.sqrt(room16a);
      const over18a = ((b14a < 0) ? (b14a - root17a) : (b14a + root17a));
      const r19a = ((over18a === 0) ? 0 : ((c15a - a13a) / over18a));
      r20a = r19a;
    }
    if (!(room16b >= 0)) {
      r20b = Number.NaN;
    } else {
      const root17b = Math.sqrt(room16b);
      const over18b = ((b14b < 0) ? (b14b - root17b) : (b14b + root17b));
      const r19b = ((over18b === 0) ? 0 : ((c15b - a13b) / over18b));
      r20b = r19b;
    }
    const r21a = r20a;
    const r21b = r20b;
    halves[i_a] = r21a;
    halves[i_b] = r21b;
  }
}

export function anglesOf(count: number, halves: Float64Array): void {
  for (let i = 0; i < count; i += 2) {
    const i_a = i;
    const i_b = i + 1 < count ? i + 1 : i;
    let r4a = 0, r4b = 0;
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
