/** Made by scripts/kernel from passes.ts and the stages that it calls; change those, and run `npm run kernels`. */
import type { PreparedRig } from '../rig/prepare.ts';
import type { PreparedBlade } from '../rotor/blade.ts';
import type { PreparedTurningBall } from '../rotor/turning-ring.ts';
import type { PreparedLever } from '../servo/lever.ts';
import type { PreparedRing } from '../swashplate/ring.ts';
import type { RingStart } from '../swashplate/start.ts';

/** What `sticksToHorns` reads of a rig, in the order in which it does. */
export function sticksToHornsFixed(rig: PreparedRig, fixed = new Float64Array(66)): Float64Array<ArrayBuffer> {
  fixed[0] = rig.transmitter.elevator.linear;
  fixed[1] = rig.transmitter.elevator.cubic;
  fixed[2] = rig.transmitter.aileron.linear;
  fixed[3] = rig.transmitter.aileron.cubic;
  fixed[4] = rig.transmitter.cyclicLimitRatio;
  fixed[5] = rig.transmitter.elevatorMixRatio;
  fixed[6] = rig.transmitter.aileronMixRatio;
  fixed[7] = rig.transmitter.phaseCos;
  fixed[8] = rig.transmitter.phaseSin;
  fixed[9] = rig.transmitter.weights[0]!;
  fixed[10] = rig.transmitter.weights[1]!;
  fixed[11] = rig.transmitter.weights[2]!;
  fixed[12] = rig.transmitter.weights[3]!;
  fixed[13] = rig.transmitter.weights[4]!;
  fixed[14] = rig.transmitter.weights[5]!;
  fixed[15] = rig.transmitter.weights[6]!;
  fixed[16] = rig.transmitter.weights[7]!;
  fixed[17] = rig.transmitter.weights[8]!;
  fixed[18] = rig.servos[0]!.output;
  fixed[19] = rig.transmitter.outputs[rig.servos[0]!.output]!.swingUs;
  fixed[20] = rig.transmitter.outputs[rig.servos[0]!.output]!.swingBendUs;
  fixed[21] = rig.transmitter.outputs[rig.servos[0]!.output]!.neutralUs;
  fixed[22] = rig.transmitter.outputs[rig.servos[0]!.output]!.subtrimUs;
  fixed[23] = rig.transmitter.outputs[rig.servos[0]!.output]!.leastUs;
  fixed[24] = rig.transmitter.outputs[rig.servos[0]!.output]!.mostUs;
  fixed[25] = rig.servos[0]!.horn.neutralUs;
  fixed[26] = rig.servos[0]!.horn.rateRadPerUs;
  fixed[27] = rig.servos[0]!.horn.standingRad;
  fixed[28] = rig.servos[0]!.horn.lengthMm;
  fixed[29] = rig.servos[0]!.horn.directionX;
  fixed[30] = rig.servos[0]!.horn.shaftX;
  fixed[31] = rig.servos[0]!.horn.directionY;
  fixed[32] = rig.servos[0]!.horn.shaftY;
  fixed[33] = rig.servos[0]!.horn.shaftZ;
  fixed[34] = rig.servos[1]!.output;
  fixed[35] = rig.transmitter.outputs[rig.servos[1]!.output]!.swingUs;
  fixed[36] = rig.transmitter.outputs[rig.servos[1]!.output]!.swingBendUs;
  fixed[37] = rig.transmitter.outputs[rig.servos[1]!.output]!.neutralUs;
  fixed[38] = rig.transmitter.outputs[rig.servos[1]!.output]!.subtrimUs;
  fixed[39] = rig.transmitter.outputs[rig.servos[1]!.output]!.leastUs;
  fixed[40] = rig.transmitter.outputs[rig.servos[1]!.output]!.mostUs;
  fixed[41] = rig.servos[1]!.horn.neutralUs;
  fixed[42] = rig.servos[1]!.horn.rateRadPerUs;
  fixed[43] = rig.servos[1]!.horn.standingRad;
  fixed[44] = rig.servos[1]!.horn.lengthMm;
  fixed[45] = rig.servos[1]!.horn.directionX;
  fixed[46] = rig.servos[1]!.horn.shaftX;
  fixed[47] = rig.servos[1]!.horn.directionY;
  fixed[48] = rig.servos[1]!.horn.shaftY;
  fixed[49] = rig.servos[1]!.horn.shaftZ;
  fixed[50] = rig.servos[2]!.output;
  fixed[51] = rig.transmitter.outputs[rig.servos[2]!.output]!.swingUs;
  fixed[52] = rig.transmitter.outputs[rig.servos[2]!.output]!.swingBendUs;
  fixed[53] = rig.transmitter.outputs[rig.servos[2]!.output]!.neutralUs;
  fixed[54] = rig.transmitter.outputs[rig.servos[2]!.output]!.subtrimUs;
  fixed[55] = rig.transmitter.outputs[rig.servos[2]!.output]!.leastUs;
  fixed[56] = rig.transmitter.outputs[rig.servos[2]!.output]!.mostUs;
  fixed[57] = rig.servos[2]!.horn.neutralUs;
  fixed[58] = rig.servos[2]!.horn.rateRadPerUs;
  fixed[59] = rig.servos[2]!.horn.standingRad;
  fixed[60] = rig.servos[2]!.horn.lengthMm;
  fixed[61] = rig.servos[2]!.horn.directionX;
  fixed[62] = rig.servos[2]!.horn.shaftX;
  fixed[63] = rig.servos[2]!.horn.directionY;
  fixed[64] = rig.servos[2]!.horn.shaftY;
  fixed[65] = rig.servos[2]!.horn.shaftZ;
  return fixed;
}

export function sticksToHorns(fixed: Float64Array, curve: Float64Array, count: number, sticks: Float64Array, first: number, work: Float64Array): void {
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
  const k19 = fixed[19] as number;
  const k20 = fixed[20] as number;
  const k21 = fixed[21] as number;
  const k22 = fixed[22] as number;
  const k23 = fixed[23] as number;
  const k24 = fixed[24] as number;
  const k25 = fixed[25] as number;
  const k26 = fixed[26] as number;
  const k27 = fixed[27] as number;
  const k28 = fixed[28] as number;
  const k29 = fixed[29] as number;
  const k30 = fixed[30] as number;
  const k31 = fixed[31] as number;
  const k32 = fixed[32] as number;
  const k33 = fixed[33] as number;
  const k34 = fixed[34] as number;
  const k35 = fixed[35] as number;
  const k36 = fixed[36] as number;
  const k37 = fixed[37] as number;
  const k38 = fixed[38] as number;
  const k39 = fixed[39] as number;
  const k40 = fixed[40] as number;
  const k41 = fixed[41] as number;
  const k42 = fixed[42] as number;
  const k43 = fixed[43] as number;
  const k44 = fixed[44] as number;
  const k45 = fixed[45] as number;
  const k46 = fixed[46] as number;
  const k47 = fixed[47] as number;
  const k48 = fixed[48] as number;
  const k49 = fixed[49] as number;
  const k50 = fixed[50] as number;
  const k51 = fixed[51] as number;
  const k52 = fixed[52] as number;
  const k53 = fixed[53] as number;
  const k54 = fixed[54] as number;
  const k55 = fixed[55] as number;
  const k56 = fixed[56] as number;
  const k57 = fixed[57] as number;
  const k58 = fixed[58] as number;
  const k59 = fixed[59] as number;
  const k60 = fixed[60] as number;
  const k61 = fixed[61] as number;
  const k62 = fixed[62] as number;
  const k63 = fixed[63] as number;
  const k64 = fixed[64] as number;
  const k65 = fixed[65] as number;
  for (let n = 0; n < count; n += 2) {
    const n_a = n;
    const n_b = n + 1 < count ? n + 1 : n;
    let e13a = 0, a16a = 0, u7a_0 = 0, u7a_1 = 0, u7a_2 = 0, r34a = 0, eyes28a_0 = 0, eyes28a_1 = 0, r40a = 0, eyes28a_2 = 0, r53a = 0, eyes28a_3 = 0, eyes28a_4 = 0, r59a = 0, eyes28a_5 = 0, r72a = 0, eyes28a_6 = 0, eyes28a_7 = 0, r78a = 0, eyes28a_8 = 0, e13b = 0, a16b = 0, u7b_0 = 0, u7b_1 = 0, u7b_2 = 0, r34b = 0, eyes28b_0 = 0, eyes28b_1 = 0, r40b = 0, eyes28b_2 = 0, r53b = 0, eyes28b_3 = 0, eyes28b_4 = 0, r59b = 0, eyes28b_5 = 0, r72b = 0, eyes28b_6 = 0, eyes28b_7 = 0, r78b = 0, eyes28b_8 = 0;
    const s0a = (3 * (first + n_a));
    const s0b = (3 * (first + n_b));
    const collective1a = (sticks[s0a] as number);
    const collective1b = (sticks[s0b] as number);
    const spans2a = (curve.length - 1);
    const spans2b = (curve.length - 1);
    const along3a = (((collective1a + 1) / 2) * spans2a);
    const along3b = (((collective1b + 1) / 2) * spans2b);
    const left4a = ((along3a >= spans2a) ? (spans2a - 1) : ((along3a <= 0) ? 0 : Math.floor(along3a)));
    const left4b = ((along3b >= spans2b) ? (spans2b - 1) : ((along3b <= 0) ? 0 : Math.floor(along3b)));
    const low5a = (curve[left4a] as number);
    const low5b = (curve[left4b] as number);
    const r6a = (low5a + ((along3a - left4a) * ((curve[(left4a + 1)] as number) - low5a)));
    const r6b = (low5b + ((along3b - left4b) * ((curve[(left4b + 1)] as number) - low5b)));
    const c8a = r6a;
    const c8b = r6b;
    const elevator9a = (sticks[(s0a + 1)] as number);
    const elevator9b = (sticks[(s0b + 1)] as number);
    const aileron10a = (sticks[(s0a + 2)] as number);
    const aileron10b = (sticks[(s0b + 2)] as number);
    const stick11a = elevator9a;
    const stick11b = elevator9b;
    const r12a = ((k0 * stick11a) + (((k1 * stick11a) * stick11a) * stick11a));
    const r12b = ((k0 * stick11b) + (((k1 * stick11b) * stick11b) * stick11b));
    e13a = r12a;
    e13b = r12b;
    const stick14a = aileron10a;
    const stick14b = aileron10b;
    const r15a = ((k2 * stick14a) + (((k3 * stick14a) * stick14a) * stick14a));
    const r15b = ((k2 * stick14b) + (((k3 * stick14b) * stick14b) * stick14b));
    a16a = r15a;
    a16b = r15b;
    const squared17a = ((e13a * e13a) + (a16a * a16a));
    const squared17b = ((e13b * e13b) + (a16b * a16b));
    if ((squared17a > (k4 * k4))) {
      const scale18a = (k4 / Math.sqrt(squared17a));
      e13a = e13a * scale18a;
      a16a = a16a * scale18a;
    }
    if ((squared17b > (k4 * k4))) {
      const scale18b = (k4 / Math.sqrt(squared17b));
      e13b = e13b * scale18b;
      a16b = a16b * scale18b;
    }
    e13a = e13a * k5;
    e13b = e13b * k5;
    a16a = a16a * k6;
    a16b = a16b * k6;
    const forward19a = ((e13a * k7) + (a16a * k8));
    const forward19b = ((e13b * k7) + (a16b * k8));
    const right20a = ((a16a * k7) - (e13a * k8));
    const right20b = ((a16b * k7) - (e13b * k8));
    u7a_0 = (((k9 * c8a) + (k10 * forward19a)) + (k11 * right20a));
    u7b_0 = (((k9 * c8b) + (k10 * forward19b)) + (k11 * right20b));
    u7a_1 = (((k12 * c8a) + (k13 * forward19a)) + (k14 * right20a));
    u7b_1 = (((k12 * c8b) + (k13 * forward19b)) + (k14 * right20b));
    u7a_2 = (((k15 * c8a) + (k16 * forward19a)) + (k17 * right20a));
    u7b_2 = (((k15 * c8b) + (k16 * forward19b)) + (k17 * right20b));
    const u21a = (k18 === 0 ? u7a_0 : (k18 === 1 ? u7a_1 : u7a_2));
    const u21b = (k18 === 0 ? u7b_0 : (k18 === 1 ? u7b_1 : u7b_2));
    const r22a = ((k21 + ((k19 * u21a) + (k20 * Math.abs(u21a)))) + k22);
    const r22b = ((k21 + ((k19 * u21b) + (k20 * Math.abs(u21b)))) + k22);
    const pulseUs23a = r22a;
    const pulseUs23b = r22b;
    const r24a = ((pulseUs23a < k23) ? k23 : ((pulseUs23a > k24) ? k24 : pulseUs23a));
    const r24b = ((pulseUs23b < k23) ? k23 : ((pulseUs23b > k24) ? k24 : pulseUs23b));
    const pulseUs25a = r24a;
    const pulseUs25b = r24b;
    const pulseUs26a = pulseUs25a;
    const pulseUs26b = pulseUs25b;
    const r27a = (((pulseUs26a - k25) * k26) + k27);
    const r27b = (((pulseUs26b - k25) * k26) + k27);
    const angleRad29a = r27a;
    const angleRad29b = r27b;
    const x30a = angleRad29a;
    const x30b = angleRad29b;
    if (!((x30a <= 0.7853981633974483) && (x30a >= (-0.7853981633974483)))) {
      const r31a = Math.cos(x30a);
      r34a = r31a;
    } else {
      const u32a = (x30a * x30a);
      const r33a = (1 - (u32a * (0.5 - (u32a * (0.041666666666666664 - (u32a * (0.001388888888888889 - (u32a * (0.0000248015873015873 - (u32a * (2.755731922398589e-7 - (u32a * (2.08767569878681e-9 - (u32a * (1.1470745597729725e-11 - (u32a * 4.779477332387385e-14))))))))))))))));
      r34a = r33a;
    }
    if (!((x30b <= 0.7853981633974483) && (x30b >= (-0.7853981633974483)))) {
      const r31b = Math.cos(x30b);
      r34b = r31b;
    } else {
      const u32b = (x30b * x30b);
      const r33b = (1 - (u32b * (0.5 - (u32b * (0.041666666666666664 - (u32b * (0.001388888888888889 - (u32b * (0.0000248015873015873 - (u32b * (2.755731922398589e-7 - (u32b * (2.08767569878681e-9 - (u32b * (1.1470745597729725e-11 - (u32b * 4.779477332387385e-14))))))))))))))));
      r34b = r33b;
    }
    const out35a = (k28 * r34a);
    const out35b = (k28 * r34b);
    eyes28a_0 = (k30 + (out35a * k29));
    eyes28b_0 = (k30 + (out35b * k29));
    eyes28a_1 = (k32 + (out35a * k31));
    eyes28b_1 = (k32 + (out35b * k31));
    const x36a = angleRad29a;
    const x36b = angleRad29b;
    if (!((x36a <= 0.7853981633974483) && (x36a >= (-0.7853981633974483)))) {
      const r37a = Math.sin(x36a);
      r40a = r37a;
    } else {
      const u38a = (x36a * x36a);
      const r39a = (x36a + ((x36a * u38a) * ((-0.16666666666666666) + (u38a * (0.008333333333333333 + (u38a * ((-0.0001984126984126984) + (u38a * (0.0000027557319223985893 + (u38a * ((-2.505210838544172e-8) + (u38a * (1.6059043836821613e-10 + (u38a * (-7.647163731819816e-13)))))))))))))));
      r40a = r39a;
    }
    if (!((x36b <= 0.7853981633974483) && (x36b >= (-0.7853981633974483)))) {
      const r37b = Math.sin(x36b);
      r40b = r37b;
    } else {
      const u38b = (x36b * x36b);
      const r39b = (x36b + ((x36b * u38b) * ((-0.16666666666666666) + (u38b * (0.008333333333333333 + (u38b * ((-0.0001984126984126984) + (u38b * (0.0000027557319223985893 + (u38b * ((-2.505210838544172e-8) + (u38b * (1.6059043836821613e-10 + (u38b * (-7.647163731819816e-13)))))))))))))));
      r40b = r39b;
    }
    eyes28a_2 = (k33 + (k28 * r40a));
    eyes28b_2 = (k33 + (k28 * r40b));
    const u41a = (k34 === 0 ? u7a_0 : (k34 === 1 ? u7a_1 : u7a_2));
    const u41b = (k34 === 0 ? u7b_0 : (k34 === 1 ? u7b_1 : u7b_2));
    const r42a = ((k37 + ((k35 * u41a) + (k36 * Math.abs(u41a)))) + k38);
    const r42b = ((k37 + ((k35 * u41b) + (k36 * Math.abs(u41b)))) + k38);
    const pulseUs43a = r42a;
    const pulseUs43b = r42b;
    const r44a = ((pulseUs43a < k39) ? k39 : ((pulseUs43a > k40) ? k40 : pulseUs43a));
    const r44b = ((pulseUs43b < k39) ? k39 : ((pulseUs43b > k40) ? k40 : pulseUs43b));
    const pulseUs45a = r44a;
    const pulseUs45b = r44b;
    const pulseUs46a = pulseUs45a;
    const pulseUs46b = pulseUs45b;
    const r47a = (((pulseUs46a - k41) * k42) + k43);
    const r47b = (((pulseUs46b - k41) * k42) + k43);
    const angleRad48a = r47a;
    const angleRad48b = r47b;
    const x49a = angleRad48a;
    const x49b = angleRad48b;
    if (!((x49a <= 0.7853981633974483) && (x49a >= (-0.7853981633974483)))) {
      const r50a = Math.cos(x49a);
      r53a = r50a;
    } else {
      const u51a = (x49a * x49a);
      const r52a = (1 - (u51a * (0.5 - (u51a * (0.041666666666666664 - (u51a * (0.001388888888888889 - (u51a * (0.0000248015873015873 - (u51a * (2.755731922398589e-7 - (u51a * (2.08767569878681e-9 - (u51a * (1.1470745597729725e-11 - (u51a * 4.779477332387385e-14))))))))))))))));
      r53a = r52a;
    }
    if (!((x49b <= 0.7853981633974483) && (x49b >= (-0.7853981633974483)))) {
      const r50b = Math.cos(x49b);
      r53b = r50b;
    } else {
      const u51b = (x49b * x49b);
      const r52b = (1 - (u51b * (0.5 - (u51b * (0.041666666666666664 - (u51b * (0.001388888888888889 - (u51b * (0.0000248015873015873 - (u51b * (2.755731922398589e-7 - (u51b * (2.08767569878681e-9 - (u51b * (1.1470745597729725e-11 - (u51b * 4.779477332387385e-14))))))))))))))));
      r53b = r52b;
    }
    const out54a = (k44 * r53a);
    const out54b = (k44 * r53b);
    eyes28a_3 = (k46 + (out54a * k45));
    eyes28b_3 = (k46 + (out54b * k45));
    eyes28a_4 = (k48 + (out54a * k47));
    eyes28b_4 = (k48 + (out54b * k47));
    const x55a = angleRad48a;
    const x55b = angleRad48b;
    if (!((x55a <= 0.7853981633974483) && (x55a >= (-0.7853981633974483)))) {
      const r56a = Math.sin(x55a);
      r59a = r56a;
    } else {
      const u57a = (x55a * x55a);
      const r58a = (x55a + ((x55a * u57a) * ((-0.16666666666666666) + (u57a * (0.008333333333333333 + (u57a * ((-0.0001984126984126984) + (u57a * (0.0000027557319223985893 + (u57a * ((-2.505210838544172e-8) + (u57a * (1.6059043836821613e-10 + (u57a * (-7.647163731819816e-13)))))))))))))));
      r59a = r58a;
    }
    if (!((x55b <= 0.7853981633974483) && (x55b >= (-0.7853981633974483)))) {
      const r56b = Math.sin(x55b);
      r59b = r56b;
    } else {
      const u57b = (x55b * x55b);
      const r58b = (x55b + ((x55b * u57b) * ((-0.16666666666666666) + (u57b * (0.008333333333333333 + (u57b * ((-0.0001984126984126984) + (u57b * (0.0000027557319223985893 + (u57b * ((-2.505210838544172e-8) + (u57b * (1.6059043836821613e-10 + (u57b * (-7.647163731819816e-13)))))))))))))));
      r59b = r58b;
    }
    eyes28a_5 = (k49 + (k44 * r59a));
    eyes28b_5 = (k49 + (k44 * r59b));
    const u60a = (k50 === 0 ? u7a_0 : (k50 === 1 ? u7a_1 : u7a_2));
    const u60b = (k50 === 0 ? u7b_0 : (k50 === 1 ? u7b_1 : u7b_2));
    const r61a = ((k53 + ((k51 * u60a) + (k52 * Math.abs(u60a)))) + k54);
    const r61b = ((k53 + ((k51 * u60b) + (k52 * Math.abs(u60b)))) + k54);
    const pulseUs62a = r61a;
    const pulseUs62b = r61b;
    const r63a = ((pulseUs62a < k55) ? k55 : ((pulseUs62a > k56) ? k56 : pulseUs62a));
    const r63b = ((pulseUs62b < k55) ? k55 : ((pulseUs62b > k56) ? k56 : pulseUs62b));
    const pulseUs64a = r63a;
    const pulseUs64b = r63b;
    const pulseUs65a = pulseUs64a;
    const pulseUs65b = pulseUs64b;
    const r66a = (((pulseUs65a - k57) * k58) + k59);
    const r66b = (((pulseUs65b - k57) * k58) + k59);
    const angleRad67a = r66a;
    const angleRad67b = r66b;
    const x68a = angleRad67a;
    const x68b = angleRad67b;
    if (!((x68a <= 0.7853981633974483) && (x68a >= (-0.7853981633974483)))) {
      const r69a = Math.cos(x68a);
      r72a = r69a;
    } else {
      const u70a = (x68a * x68a);
      const r71a = (1 - (u70a * (0.5 - (u70a * (0.041666666666666664 - (u70a * (0.001388888888888889 - (u70a * (0.0000248015873015873 - (u70a * (2.755731922398589e-7 - (u70a * (2.08767569878681e-9 - (u70a * (1.1470745597729725e-11 - (u70a * 4.779477332387385e-14))))))))))))))));
      r72a = r71a;
    }
    if (!((x68b <= 0.7853981633974483) && (x68b >= (-0.7853981633974483)))) {
      const r69b = Math.cos(x68b);
      r72b = r69b;
    } else {
      const u70b = (x68b * x68b);
      const r71b = (1 - (u70b * (0.5 - (u70b * (0.041666666666666664 - (u70b * (0.001388888888888889 - (u70b * (0.0000248015873015873 - (u70b * (2.755731922398589e-7 - (u70b * (2.08767569878681e-9 - (u70b * (1.1470745597729725e-11 - (u70b * 4.779477332387385e-14))))))))))))))));
      r72b = r71b;
    }
    const out73a = (k60 * r72a);
    const out73b = (k60 * r72b);
    eyes28a_6 = (k62 + (out73a * k61));
    eyes28b_6 = (k62 + (out73b * k61));
    eyes28a_7 = (k64 + (out73a * k63));
    eyes28b_7 = (k64 + (out73b * k63));
    const x74a = angleRad67a;
    const x74b = angleRad67b;
    if (!((x74a <= 0.7853981633974483) && (x74a >= (-0.7853981633974483)))) {
      const r75a = Math.sin(x74a);
      r78a = r75a;
    } else {
      const u76a = (x74a * x74a);
      const r77a = (x74a + ((x74a * u76a) * ((-0.16666666666666666) + (u76a * (0.008333333333333333 + (u76a * ((-0.0001984126984126984) + (u76a * (0.0000027557319223985893 + (u76a * ((-2.505210838544172e-8) + (u76a * (1.6059043836821613e-10 + (u76a * (-7.647163731819816e-13)))))))))))))));
      r78a = r77a;
    }
    if (!((x74b <= 0.7853981633974483) && (x74b >= (-0.7853981633974483)))) {
      const r75b = Math.sin(x74b);
      r78b = r75b;
    } else {
      const u76b = (x74b * x74b);
      const r77b = (x74b + ((x74b * u76b) * ((-0.16666666666666666) + (u76b * (0.008333333333333333 + (u76b * ((-0.0001984126984126984) + (u76b * (0.0000027557319223985893 + (u76b * ((-2.505210838544172e-8) + (u76b * (1.6059043836821613e-10 + (u76b * (-7.647163731819816e-13)))))))))))))));
      r78b = r77b;
    }
    eyes28a_8 = (k65 + (k60 * r78a));
    eyes28b_8 = (k65 + (k60 * r78b));
    const o79a = (16 * n_a);
    const o79b = (16 * n_b);
    work[(o79a + 0)] = eyes28a_0;
    work[(o79b + 0)] = eyes28b_0;
    work[(o79a + 1)] = eyes28a_1;
    work[(o79b + 1)] = eyes28b_1;
    work[(o79a + 2)] = eyes28a_2;
    work[(o79b + 2)] = eyes28b_2;
    work[(o79a + 3)] = eyes28a_3;
    work[(o79b + 3)] = eyes28b_3;
    work[(o79a + 4)] = eyes28a_4;
    work[(o79b + 4)] = eyes28b_4;
    work[(o79a + 5)] = eyes28a_5;
    work[(o79b + 5)] = eyes28b_5;
    work[(o79a + 6)] = eyes28a_6;
    work[(o79b + 6)] = eyes28b_6;
    work[(o79a + 7)] = eyes28a_7;
    work[(o79b + 7)] = eyes28b_7;
    work[(o79a + 8)] = eyes28a_8;
    work[(o79b + 8)] = eyes28b_8;
  }
}

/** What `hornsToLever` reads of a rig, in the order in which it does. */
export function hornsToLeverFixed(lever: PreparedLever, fixed = new Float64Array(11)): Float64Array<ArrayBuffer> {
  fixed[0] = lever.pivotX;
  fixed[1] = lever.pivotY;
  fixed[2] = lever.pivotZ;
  fixed[3] = lever.directionX;
  fixed[4] = lever.directionY;
  fixed[5] = lever.servoEndMm;
  fixed[6] = lever.pushrodMm;
  fixed[7] = lever.side;
  fixed[8] = lever.betweenCos;
  fixed[9] = lever.betweenSin;
  fixed[10] = lever.swashEndMm;
  return fixed;
}

export function hornsToLever(fixed: Float64Array, servo: number, count: number, work: Float64Array): void {
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
  for (let n = 0; n < count; n += 2) {
    const n_a = n;
    const n_b = n + 1 < count ? n + 1 : n;
    let eye1a_0 = 0, eye1a_1 = 0, eye1a_2 = 0, turn2a_0 = 0, turn2a_1 = 0, r15a = 0, r19a = 0, eye1b_0 = 0, eye1b_1 = 0, eye1b_2 = 0, turn2b_0 = 0, turn2b_1 = 0, r15b = 0, r19b = 0;
    const o0a = ((16 * n_a) + (3 * servo));
    const o0b = ((16 * n_b) + (3 * servo));
    eye1a_0 = (work[(o0a + 0)] as number);
    eye1b_0 = (work[(o0b + 0)] as number);
    eye1a_1 = (work[(o0a + 1)] as number);
    eye1b_1 = (work[(o0b + 1)] as number);
    eye1a_2 = (work[(o0a + 2)] as number);
    eye1b_2 = (work[(o0b + 2)] as number);
    const x3a = (eye1a_0 - k0);
    const x3b = (eye1b_0 - k0);
    const y4a = (eye1a_1 - k1);
    const y4b = (eye1b_1 - k1);
    const z5a = (eye1a_2 - k2);
    const z5b = (eye1b_2 - k2);
    const inPlane6a = ((x3a * k3) + (y4a * k4));
    const inPlane6b = ((x3b * k3) + (y4b * k4));
    const across7a = ((y4a * k3) - (x3a * k4));
    const across7b = ((y4b * k3) - (x3b * k4));
    const x8a = inPlane6a;
    const x8b = inPlane6b;
    const y9a = z5a;
    const y9b = z5b;
    const n10a = across7a;
    const n10b = across7b;
    const reach211a = ((x8a * x8a) + (y9a * y9a));
    const reach211b = ((x8b * x8b) + (y9b * y9b));
    const c12a = (((((k5 * k5) + reach211a) + (n10a * n10a)) - (k6 * k6)) / (2 * k5));
    const c12b = (((((k5 * k5) + reach211b) + (n10b * n10b)) - (k6 * k6)) / (2 * k5));
    const room13a = (reach211a - (c12a * c12a));
    const room13b = (reach211b - (c12b * c12b));
    if ((!(room13a >= 0) || (reach211a === 0))) {
      r15a = 0;
    } else {
      const s14a = (k7 * Math.sqrt(room13a));
      turn2a_0 = (((x8a * c12a) - (y9a * s14a)) / reach211a);
      turn2a_1 = (((y9a * c12a) + (x8a * s14a)) / reach211a);
      r15a = 1;
    }
    if ((!(room13b >= 0) || (reach211b === 0))) {
      r15b = 0;
    } else {
      const s14b = (k7 * Math.sqrt(room13b));
      turn2b_0 = (((x8b * c12b) - (y9b * s14b)) / reach211b);
      turn2b_1 = (((y9b * c12b) + (x8b * s14b)) / reach211b);
      r15b = 1;
    }
    if (!r15a) {
      r19a = 0;
    } else {
      const c16a = turn2a_0;
      const s17a = turn2a_1;
      const out18a = (k10 * ((c16a * k8) - (s17a * k9)));
      eye1a_0 = (k0 + (out18a * k3));
      eye1a_1 = (k1 + (out18a * k4));
      eye1a_2 = (k2 + (k10 * ((s17a * k8) + (c16a * k9))));
      r19a = 1;
    }
    if (!r15b) {
      r19b = 0;
    } else {
      const c16b = turn2b_0;
      const s17b = turn2b_1;
      const out18b = (k10 * ((c16b * k8) - (s17b * k9)));
      eye1b_0 = (k0 + (out18b * k3));
      eye1b_1 = (k1 + (out18b * k4));
      eye1b_2 = (k2 + (k10 * ((s17b * k8) + (c16b * k9))));
      r19b = 1;
    }
    const closed20a = r19a;
    const closed20b = r19b;
    work[(o0a + 0)] = (closed20a ? eye1a_0 : Number.NaN);
    work[(o0b + 0)] = (closed20b ? eye1b_0 : Number.NaN);
    work[(o0a + 1)] = (closed20a ? eye1a_1 : Number.NaN);
    work[(o0b + 1)] = (closed20b ? eye1b_1 : Number.NaN);
    work[(o0a + 2)] = (closed20a ? eye1a_2 : Number.NaN);
    work[(o0b + 2)] = (closed20b ? eye1b_2 : Number.NaN);
  }
}

/** What `eyesToRing` reads of a rig, in the order in which it does. */
export function eyesToRingFixed(ring: PreparedRing, start: RingStart, rotation: number, fixed = new Float64Array(57)): Float64Array<ArrayBuffer> {
  fixed[0] = start.middleMm[0]!;
  fixed[1] = start.middleMm[1]!;
  fixed[2] = start.middleMm[2]!;
  fixed[3] = start.terms[4]!;
  fixed[4] = start.terms[1]!;
  fixed[5] = start.terms[5]!;
  fixed[6] = start.terms[6]!;
  fixed[7] = start.terms[0]!;
  fixed[8] = start.terms[7]!;
  fixed[9] = start.terms[2]!;
  fixed[10] = start.terms[8]!;
  fixed[11] = start.terms[9]!;
  fixed[12] = start.terms[3]!;
  fixed[13] = start.terms[14]!;
  fixed[14] = start.terms[11]!;
  fixed[15] = start.terms[15]!;
  fixed[16] = start.terms[16]!;
  fixed[17] = start.terms[10]!;
  fixed[18] = start.terms[17]!;
  fixed[19] = start.terms[12]!;
  fixed[20] = start.terms[18]!;
  fixed[21] = start.terms[19]!;
  fixed[22] = start.terms[13]!;
  fixed[23] = start.terms[24]!;
  fixed[24] = start.terms[21]!;
  fixed[25] = start.terms[25]!;
  fixed[26] = start.terms[26]!;
  fixed[27] = start.terms[20]!;
  fixed[28] = start.terms[27]!;
  fixed[29] = start.terms[22]!;
  fixed[30] = start.terms[28]!;
  fixed[31] = start.terms[29]!;
  fixed[32] = start.terms[23]!;
  fixed[33] = ring.balls[1]!;
  fixed[34] = ring.balls[2]!;
  fixed[35] = ring.balls[0]!;
  fixed[36] = ring.balls[4]!;
  fixed[37] = ring.balls[5]!;
  fixed[38] = ring.balls[3]!;
  fixed[39] = ring.balls[7]!;
  fixed[40] = ring.balls[8]!;
  fixed[41] = ring.balls[6]!;
  fixed[42] = ring.linkMm[0]!;
  fixed[43] = ring.linkMm[1]!;
  fixed[44] = ring.linkMm[2]!;
  fixed[45] = ring.perDesignedDeterminant;
  fixed[46] = ring.reachMm;
  fixed[47] = ring.lastStepMm;
  fixed[48] = ring.perRise[0]!;
  fixed[49] = ring.designedRise[0]!;
  fixed[50] = ring.perRise[1]!;
  fixed[51] = ring.designedRise[1]!;
  fixed[52] = ring.perRise[2]!;
  fixed[53] = ring.designedRise[2]!;
  fixed[54] = ring.guideCos;
  fixed[55] = ring.guideSin;
  fixed[56] = rotation;
  return fixed;
}

export function eyesToRing(fixed: Float64Array, count: number, first: number, work: Float64Array, heightMm: Float64Array, normalX: Float64Array, normalY: Float64Array): void {
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
  const k19 = fixed[19] as number;
  const k20 = fixed[20] as number;
  const k21 = fixed[21] as number;
  const k22 = fixed[22] as number;
  const k23 = fixed[23] as number;
  const k24 = fixed[24] as number;
  const k25 = fixed[25] as number;
  const k26 = fixed[26] as number;
  const k27 = fixed[27] as number;
  const k28 = fixed[28] as number;
  const k29 = fixed[29] as number;
  const k30 = fixed[30] as number;
  const k31 = fixed[31] as number;
  const k32 = fixed[32] as number;
  const k33 = fixed[33] as number;
  const k34 = fixed[34] as number;
  const k35 = fixed[35] as number;
  const k36 = fixed[36] as number;
  const k37 = fixed[37] as number;
  const k38 = fixed[38] as number;
  const k39 = fixed[39] as number;
  const k40 = fixed[40] as number;
  const k41 = fixed[41] as number;
  const k42 = fixed[42] as number;
  const k43 = fixed[43] as number;
  const k44 = fixed[44] as number;
  const k45 = fixed[45] as number;
  const k46 = fixed[46] as number;
  const k47 = fixed[47] as number;
  const k48 = fixed[48] as number;
  const k49 = fixed[49] as number;
  const k50 = fixed[50] as number;
  const k51 = fixed[51] as number;
  const k52 = fixed[52] as number;
  const k53 = fixed[53] as number;
  const k54 = fixed[54] as number;
  const k55 = fixed[55] as number;
  const k56 = fixed[56] as number;
  for (let n = 0; n < count; n += 2) {
    const n_a = n;
    const n_b = n + 1 < count ? n + 1 : n;
    let eyes1a_0 = 0, eyes1a_1 = 0, eyes1a_2 = 0, eyes1a_3 = 0, eyes1a_4 = 0, eyes1a_5 = 0, eyes1a_6 = 0, eyes1a_7 = 0, eyes1a_8 = 0, x2a_0 = 0, x2a_1 = 0, x2a_2 = 0, steps6a = 0, scratchRows8a_0 = 0, scratchRows8a_1 = 0, scratchRows8a_2 = 0, scratchRows8a_3 = 0, scratchRows8a_4 = 0, scratchRows8a_5 = 0, scratchRows8a_6 = 0, scratchRows8a_7 = 0, scratchRows8a_8 = 0, scratchRows8a_9 = 0, scratchRows8a_10 = 0, scratchRows8a_11 = 0, told7a_0 = 0, told7a_1 = 0, told7a_2 = 0, told7a_3 = 0, told7a_4 = 0, least66a = 0, normal73a_0 = 0, normal73a_1 = 0, normal73a_2 = 0, eye78a_0 = 0, eye78a_1 = 0, eye78a_2 = 0, eyes1b_0 = 0, eyes1b_1 = 0, eyes1b_2 = 0, eyes1b_3 = 0, eyes1b_4 = 0, eyes1b_5 = 0, eyes1b_6 = 0, eyes1b_7 = 0, eyes1b_8 = 0, x2b_0 = 0, x2b_1 = 0, x2b_2 = 0, steps6b = 0, scratchRows8b_0 = 0, scratchRows8b_1 = 0, scratchRows8b_2 = 0, scratchRows8b_3 = 0, scratchRows8b_4 = 0, scratchRows8b_5 = 0, scratchRows8b_6 = 0, scratchRows8b_7 = 0, scratchRows8b_8 = 0, scratchRows8b_9 = 0, scratchRows8b_10 = 0, scratchRows8b_11 = 0, told7b_0 = 0, told7b_1 = 0, told7b_2 = 0, told7b_3 = 0, told7b_4 = 0, least66b = 0, normal73b_0 = 0, normal73b_1 = 0, normal73b_2 = 0, eye78b_0 = 0, eye78b_1 = 0, eye78b_2 = 0;
    const o0a = (16 * n_a);
    const o0b = (16 * n_b);
    eyes1a_0 = (work[(o0a + 0)] as number);
    eyes1b_0 = (work[(o0b + 0)] as number);
    eyes1a_1 = (work[(o0a + 1)] as number);
    eyes1b_1 = (work[(o0b + 1)] as number);
    eyes1a_2 = (work[(o0a + 2)] as number);
    eyes1b_2 = (work[(o0b + 2)] as number);
    eyes1a_3 = (work[(o0a + 3)] as number);
    eyes1b_3 = (work[(o0b + 3)] as number);
    eyes1a_4 = (work[(o0a + 4)] as number);
    eyes1b_4 = (work[(o0b + 4)] as number);
    eyes1a_5 = (work[(o0a + 5)] as number);
    eyes1b_5 = (work[(o0b + 5)] as number);
    eyes1a_6 = (work[(o0a + 6)] as number);
    eyes1b_6 = (work[(o0b + 6)] as number);
    eyes1a_7 = (work[(o0a + 7)] as number);
    eyes1b_7 = (work[(o0b + 7)] as number);
    eyes1a_8 = (work[(o0a + 8)] as number);
    eyes1b_8 = (work[(o0b + 8)] as number);
    const h03a = (eyes1a_2 - k0);
    const h03b = (eyes1b_2 - k0);
    const h14a = (eyes1a_5 - k1);
    const h14b = (eyes1b_5 - k1);
    const h25a = (eyes1a_8 - k2);
    const h25b = (eyes1b_8 - k2);
    x2a_0 = (((k7 + (h03a * (((k4 + (h03a * k3)) + (h14a * k5)) + (h25a * k6)))) + (h14a * ((k9 + (h14a * k8)) + (h25a * k10)))) + (h25a * (k12 + (h25a * k11))));
    x2b_0 = (((k7 + (h03b * (((k4 + (h03b * k3)) + (h14b * k5)) + (h25b * k6)))) + (h14b * ((k9 + (h14b * k8)) + (h25b * k10)))) + (h25b * (k12 + (h25b * k11))));
    x2a_1 = (((k17 + (h03a * (((k14 + (h03a * k13)) + (h14a * k15)) + (h25a * k16)))) + (h14a * ((k19 + (h14a * k18)) + (h25a * k20)))) + (h25a * (k22 + (h25a * k21))));
    x2b_1 = (((k17 + (h03b * (((k14 + (h03b * k13)) + (h14b * k15)) + (h25b * k16)))) + (h14b * ((k19 + (h14b * k18)) + (h25b * k20)))) + (h25b * (k22 + (h25b * k21))));
    x2a_2 = (((k27 + (h03a * (((k24 + (h03a * k23)) + (h14a * k25)) + (h25a * k26)))) + (h14a * ((k29 + (h14a * k28)) + (h25a * k30)))) + (h25a * (k32 + (h25a * k31))));
    x2b_2 = (((k27 + (h03b * (((k24 + (h03b * k23)) + (h14b * k25)) + (h25b * k26)))) + (h14b * ((k29 + (h14b * k28)) + (h25b * k30)))) + (h25b * (k32 + (h25b * k31))));
    steps6a = 0;
    steps6b = 0;
    do {
      const z9a = x2a_0;
      const z9b = x2b_0;
      const a10a = x2a_1;
      const a10b = x2b_1;
      const b11a = x2a_2;
      const b11b = x2b_2;
      const perA12a = (2 / (1 + (a10a * a10a)));
      const perA12b = (2 / (1 + (a10b * a10b)));
      const perB13a = (2 / (1 + (b11a * b11a)));
      const perB13b = (2 / (1 + (b11b * b11b)));
      const cosP14a = (perA12a - 1);
      const cosP14b = (perA12b - 1);
      const sinP15a = (a10a * perA12a);
      const sinP15b = (a10b * perA12b);
      const cosR16a = (perB13a - 1);
      const cosR16b = (perB13b - 1);
      const sinR17a = (b11a * perB13a);
      const sinR17b = (b11b * perB13b);
      const v18a = ((k33 * cosR16a) - (k34 * sinR17a));
      const v18b = ((k33 * cosR16b) - (k34 * sinR17b));
      const w19a = ((k33 * sinR17a) + (k34 * cosR16a));
      const w19b = ((k33 * sinR17b) + (k34 * cosR16b));
      const px20a = ((k35 * cosP14a) + (w19a * sinP15a));
      const px20b = ((k35 * cosP14b) + (w19b * sinP15b));
      const pz21a = ((w19a * cosP14a) - (k35 * sinP15a));
      const pz21b = ((w19b * cosP14b) - (k35 * sinP15b));
      const dx22a = (px20a - eyes1a_0);
      const dx22b = (px20b - eyes1b_0);
      const dy23a = (v18a - eyes1a_1);
      const dy23b = (v18b - eyes1b_1);
      const dz24a = ((z9a + pz21a) - eyes1a_2);
      const dz24b = ((z9b + pz21b) - eyes1b_2);
      scratchRows8a_0 = dz24a;
      scratchRows8b_0 = dz24b;
      scratchRows8a_1 = ((dx22a * pz21a) - (dz24a * px20a));
      scratchRows8b_1 = ((dx22b * pz21b) - (dz24b * px20b));
      scratchRows8a_2 = ((v18a * ((dx22a * sinP15a) + (dz24a * cosP14a))) - (dy23a * w19a));
      scratchRows8b_2 = ((v18b * ((dx22b * sinP15b) + (dz24b * cosP14b))) - (dy23b * w19b));
      scratchRows8a_3 = Math.sqrt((((dx22a * dx22a) + (dy23a * dy23a)) + (dz24a * dz24a)));
      scratchRows8b_3 = Math.sqrt((((dx22b * dx22b) + (dy23b * dy23b)) + (dz24b * dz24b)));
      const v25a = ((k36 * cosR16a) - (k37 * sinR17a));
      const v25b = ((k36 * cosR16b) - (k37 * sinR17b));
      const w26a = ((k36 * sinR17a) + (k37 * cosR16a));
      const w26b = ((k36 * sinR17b) + (k37 * cosR16b));
      const px27a = ((k38 * cosP14a) + (w26a * sinP15a));
      const px27b = ((k38 * cosP14b) + (w26b * sinP15b));
      const pz28a = ((w26a * cosP14a) - (k38 * sinP15a));
      const pz28b = ((w26b * cosP14b) - (k38 * sinP15b));
      const dx29a = (px27a - eyes1a_3);
      const dx29b = (px27b - eyes1b_3);
      const dy30a = (v25a - eyes1a_4);
      const dy30b = (v25b - eyes1b_4);
      const dz31a = ((z9a + pz28a) - eyes1a_5);
      const dz31b = ((z9b + pz28b) - eyes1b_5);
      scratchRows8a_4 = dz31a;
      scratchRows8b_4 = dz31b;
      scratchRows8a_5 = ((dx29a * pz28a) - (dz31a * px27a));
      scratchRows8b_5 = ((dx29b * pz28b) - (dz31b * px27b));
      scratchRows8a_6 = ((v25a * ((dx29a * sinP15a) + (dz31a * cosP14a))) - (dy30a * w26a));
      scratchRows8b_6 = ((v25b * ((dx29b * sinP15b) + (dz31b * cosP14b))) - (dy30b * w26b));
      scratchRows8a_7 = Math.sqrt((((dx29a * dx29a) + (dy30a * dy30a)) + (dz31a * dz31a)));
      scratchRows8b_7 = Math.sqrt((((dx29b * dx29b) + (dy30b * dy30b)) + (dz31b * dz31b)));
      const v32a = ((k39 * cosR16a) - (k40 * sinR17a));
      const v32b = ((k39 * cosR16b) - (k40 * sinR17b));
      const w33a = ((k39 * sinR17a) + (k40 * cosR16a));
      const w33b = ((k39 * sinR17b) + (k40 * cosR16b));
      const px34a = ((k41 * cosP14a) + (w33a * sinP15a));
      const px34b = ((k41 * cosP14b) + (w33b * sinP15b));
      const pz35a = ((w33a * cosP14a) - (k41 * sinP15a));
      const pz35b = ((w33b * cosP14b) - (k41 * sinP15b));
      const dx36a = (px34a - eyes1a_6);
      const dx36b = (px34b - eyes1b_6);
      const dy37a = (v32a - eyes1a_7);
      const dy37b = (v32b - eyes1b_7);
      const dz38a = ((z9a + pz35a) - eyes1a_8);
      const dz38b = ((z9b + pz35b) - eyes1b_8);
      scratchRows8a_8 = dz38a;
      scratchRows8b_8 = dz38b;
      scratchRows8a_9 = ((dx36a * pz35a) - (dz38a * px34a));
      scratchRows8b_9 = ((dx36b * pz35b) - (dz38b * px34b));
      scratchRows8a_10 = ((v32a * ((dx36a * sinP15a) + (dz38a * cosP14a))) - (dy37a * w33a));
      scratchRows8b_10 = ((v32b * ((dx36b * sinP15b) + (dz38b * cosP14b))) - (dy37b * w33b));
      scratchRows8a_11 = Math.sqrt((((dx36a * dx36a) + (dy37a * dy37a)) + (dz38a * dz38a)));
      scratchRows8b_11 = Math.sqrt((((dx36b * dx36b) + (dy37b * dy37b)) + (dz38b * dz38b)));
      const l039a = scratchRows8a_3;
      const l039b = scratchRows8b_3;
      const l140a = scratchRows8a_7;
      const l140b = scratchRows8b_7;
      const l241a = scratchRows8a_11;
      const l241b = scratchRows8b_11;
      const r042a = (l039a * (l039a - k42));
      const r042b = (l039b * (l039b - k42));
      const r143a = (l140a * (l140a - k43));
      const r143b = (l140b * (l140b - k43));
      const r244a = (l241a * (l241a - k44));
      const r244b = (l241b * (l241b - k44));
      const j045a = scratchRows8a_0;
      const j045b = scratchRows8b_0;
      const j146a = scratchRows8a_1;
      const j146b = scratchRows8b_1;
      const j247a = scratchRows8a_2;
      const j247b = scratchRows8b_2;
      const j348a = scratchRows8a_4;
      const j348b = scratchRows8b_4;
      const j449a = scratchRows8a_5;
      const j449b = scratchRows8b_5;
      const j550a = scratchRows8a_6;
      const j550b = scratchRows8b_6;
      const j651a = scratchRows8a_8;
      const j651b = scratchRows8b_8;
      const j752a = scratchRows8a_9;
      const j752b = scratchRows8b_9;
      const j853a = scratchRows8a_10;
      const j853b = scratchRows8b_10;
      const c054a = ((j449a * j853a) - (j550a * j752a));
      const c054b = ((j449b * j853b) - (j550b * j752b));
      const c155a = ((j550a * j651a) - (j348a * j853a));
      const c155b = ((j550b * j651b) - (j348b * j853b));
      const c256a = ((j348a * j752a) - (j449a * j651a));
      const c256b = ((j348b * j752b) - (j449b * j651b));
      const determinant57a = (((j045a * c054a) + (j146a * c155a)) + (j247a * c256a));
      const determinant57b = (((j045b * c054b) + (j146b * c155b)) + (j247b * c256b));
      const inverse58a = (1 / determinant57a);
      const inverse58b = (1 / determinant57b);
      const dz59a = ((((r042a * c054a) + (r143a * ((j247a * j752a) - (j146a * j853a)))) + (r244a * ((j146a * j550a) - (j247a * j449a)))) * inverse58a);
      const dz59b = ((((r042b * c054b) + (r143b * ((j247b * j752b) - (j146b * j853b)))) + (r244b * ((j146b * j550b) - (j247b * j449b)))) * inverse58b);
      const dp60a = ((((r042a * c155a) + (r143a * ((j045a * j853a) - (j247a * j651a)))) + (r244a * ((j247a * j348a) - (j045a * j550a)))) * inverse58a);
      const dp60b = ((((r042b * c155b) + (r143b * ((j045b * j853b) - (j247b * j651b)))) + (r244b * ((j247b * j348b) - (j045b * j550b)))) * inverse58b);
      const dr61a = ((((r042a * c256a) + (r143a * ((j146a * j651a) - (j045a * j752a)))) + (r244a * ((j045a * j449a) - (j146a * j348a)))) * inverse58a);
      const dr61b = ((((r042b * c256b) + (r143b * ((j146b * j651b) - (j045b * j752b)))) + (r244b * ((j045b * j449b) - (j146b * j348b)))) * inverse58b);
      const a62a = x2a_1;
      const a62b = x2b_1;
      const b63a = x2a_2;
      const b63b = x2b_2;
      x2a_0 = (x2a_0 - dz59a);
      x2b_0 = (x2b_0 - dz59b);
      x2a_1 = (a62a - (dp60a * (0.5 + ((0.5 * a62a) * a62a))));
      x2b_1 = (a62b - (dp60b * (0.5 + ((0.5 * a62b) * a62b))));
      x2a_2 = (b63a - (dr61a * (0.5 + ((0.5 * b63a) * b63a))));
      x2b_2 = (b63b - (dr61b * (0.5 + ((0.5 * b63b) * b63b))));
      told7a_0 = (determinant57a * k45);
      told7b_0 = (determinant57b * k45);
      told7a_1 = (Math.abs(dz59a) + (k46 * (Math.abs(dp60a) + Math.abs(dr61a))));
      told7b_1 = (Math.abs(dz59b) + (k46 * (Math.abs(dp60b) + Math.abs(dr61b))));
      told7a_2 = j045a;
      told7b_2 = j045b;
      told7a_3 = j348a;
      told7b_3 = j348b;
      told7a_4 = j651a;
      told7b_4 = j651b;
      steps6a++;
      steps6b++;
    } while (((told7a_1 >= k47) && (steps6a < 8)) || ((told7b_1 >= k47) && (steps6b < 8)));
    const a64a = x2a_1;
    const a64b = x2b_1;
    const b65a = x2a_2;
    const b65b = x2b_2;
    least66a = 1;
    least66b = 1;
    const left67a = ((told7a_2 * k48) - ((0.4 * k49) * k49));
    const left67b = ((told7b_2 * k48) - ((0.4 * k49) * k49));
    least66a = ((left67a < least66a) ? left67a : least66a);
    least66b = ((left67b < least66b) ? left67b : least66b);
    const left68a = ((told7a_3 * k50) - ((0.4 * k51) * k51));
    const left68b = ((told7b_3 * k50) - ((0.4 * k51) * k51));
    least66a = ((left68a < least66a) ? left68a : least66a);
    least66b = ((left68b < least66b) ? left68b : least66b);
    const left69a = ((told7a_4 * k52) - ((0.4 * k53) * k53));
    const left69b = ((told7b_4 * k52) - ((0.4 * k53) * k53));
    least66a = ((left69a < least66a) ? left69a : least66a);
    least66b = ((left69b < least66b) ? left69b : least66b);
    const r70a = (((told7a_0 > 0.3) && (((a64a * a64a) + (b65a * b65a)) < 0.07840000000000001)) && (least66a >= 0));
    const r70b = (((told7b_0 > 0.3) && (((a64b * a64b) + (b65b * b65b)) < 0.07840000000000001)) && (least66b >= 0));
    const continuous71a = r70a;
    const continuous71b = r70b;
    const z72a = ((continuous71a && (told7a_1 < k47)) ? x2a_0 : Number.NaN);
    const z72b = ((continuous71b && (told7b_1 < k47)) ? x2b_0 : Number.NaN);
    const a74a = x2a_1;
    const a74b = x2b_1;
    const b75a = x2a_2;
    const b75b = x2b_2;
    const perA76a = (2 / (1 + (a74a * a74a)));
    const perA76b = (2 / (1 + (a74b * a74b)));
    const perB77a = (2 / (1 + (b75a * b75a)));
    const perB77b = (2 / (1 + (b75b * b75b)));
    normal73a_0 = ((a74a * perA76a) * (perB77a - 1));
    normal73b_0 = ((a74b * perA76b) * (perB77b - 1));
    normal73a_1 = ((-b75a) * perB77a);
    normal73b_1 = ((-b75b) * perB77b);
    normal73a_2 = ((perA76a - 1) * (perB77a - 1));
    normal73b_2 = ((perA76b - 1) * (perB77b - 1));
    const nx79a = normal73a_0;
    const nx79b = normal73b_0;
    const ny80a = normal73a_1;
    const ny80b = normal73b_1;
    const nz81a = normal73a_2;
    const nz81b = normal73b_2;
    eye78a_0 = (-((nx79a * k54) - (ny80a * k55)));
    eye78b_0 = (-((nx79b * k54) - (ny80b * k55)));
    eye78a_1 = ((-k56) * ((nx79a * k55) + (ny80a * k54)));
    eye78b_1 = ((-k56) * ((nx79b * k55) + (ny80b * k54)));
    eye78a_2 = nz81a;
    eye78b_2 = nz81b;
    work[(o0a + 9)] = z72a;
    work[(o0b + 9)] = z72b;
    work[(o0a + 10)] = x2a_1;
    work[(o0b + 10)] = x2b_1;
    work[(o0a + 11)] = x2a_2;
    work[(o0b + 11)] = x2b_2;
    work[(o0a + 12)] = eye78a_0;
    work[(o0b + 12)] = eye78b_0;
    work[(o0a + 13)] = eye78a_1;
    work[(o0b + 13)] = eye78b_1;
    work[(o0a + 14)] = eye78a_2;
    work[(o0b + 14)] = eye78b_2;
    heightMm[(first + n_a)] = z72a;
    heightMm[(first + n_b)] = z72b;
    normalX[(first + n_a)] = (-eye78a_0);
    normalX[(first + n_b)] = (-eye78b_0);
    normalY[(first + n_a)] = ((-k56) * eye78a_1);
    normalY[(first + n_b)] = ((-k56) * eye78b_1);
  }
}

/** What `ringToBlade` reads of a rig, in the order in which it does. */
export function ringToBladeFixed(ball: PreparedTurningBall, blade: PreparedBlade, linkMm: number, fixed = new Float64Array(10)): Float64Array<ArrayBuffer> {
  fixed[0] = ball.driverCos;
  fixed[1] = ball.driverSin;
  fixed[2] = ball.along;
  fixed[3] = ball.across;
  fixed[4] = ball.heightMm;
  fixed[5] = blade.hubHeight;
  fixed[6] = blade.station;
  fixed[7] = blade.lead;
  fixed[8] = blade.height;
  fixed[9] = linkMm;
  return fixed;
}

export function ringToBlade(fixed: Float64Array, psi: Float64Array, perPose: number, count: number, first: number, work: Float64Array, pitchRad: Float64Array): void {
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
  for (let n = 0; n < count; n += 2) {
    const n_a = n;
    const n_b = n + 1 < count ? n + 1 : n;
    let eye6a_0 = 0, eye6a_1 = 0, eye6a_2 = 0, r26a = 0, r32a = 0, eye6b_0 = 0, eye6b_1 = 0, eye6b_2 = 0, r26b = 0, r32b = 0;
    const o0a = (16 * n_a);
    const o0b = (16 * n_b);
    const p1a = (perPose * n_a);
    const p1b = (perPose * n_b);
    const c2a = (psi[p1a] as number);
    const c2b = (psi[p1b] as number);
    const s3a = (psi[(p1a + 1)] as number);
    const s3b = (psi[(p1b + 1)] as number);
    const t04a = (work[(o0a + 12)] as number);
    const t04b = (work[(o0b + 12)] as number);
    const t15a = (work[(o0a + 13)] as number);
    const t15b = (work[(o0b + 13)] as number);
    const heightMm7a = (work[(o0a + 9)] as number);
    const heightMm7b = (work[(o0b + 9)] as number);
    const nx8a = ((t04a * c2a) + (t15a * s3a));
    const nx8b = ((t04b * c2b) + (t15b * s3b));
    const ny9a = ((t15a * c2a) - (t04a * s3a));
    const ny9b = ((t15b * c2b) - (t04b * s3b));
    const nz10a = (work[(o0a + 14)] as number);
    const nz10b = (work[(o0b + 14)] as number);
    const nd11a = ((nx8a * k0) + (ny9a * k1));
    const nd11b = ((nx8b * k0) + (ny9b * k1));
    const perM12a = (1 / Math.sqrt(((nz10a * nz10a) + (nd11a * nd11a))));
    const perM12b = (1 / Math.sqrt(((nz10b * nz10b) + (nd11b * nd11b))));
    const along13a = (k2 * perM12a);
    const along13b = (k2 * perM12b);
    const across14a = (k3 * perM12a);
    const across14b = (k3 * perM12b);
    const nz215a = (nz10a * nz10a);
    const nz215b = (nz10b * nz10b);
    eye6a_0 = ((((along13a * nz10a) * k0) - (across14a * ((ny9a * nd11a) + (nz215a * k1)))) + (k4 * nx8a));
    eye6b_0 = ((((along13b * nz10b) * k0) - (across14b * ((ny9b * nd11b) + (nz215b * k1)))) + (k4 * nx8b));
    eye6a_1 = ((((along13a * nz10a) * k1) + (across14a * ((nz215a * k0) + (nx8a * nd11a)))) + (k4 * ny9a));
    eye6b_1 = ((((along13b * nz10b) * k1) + (across14b * ((nz215b * k0) + (nx8b * nd11b)))) + (k4 * ny9b));
    eye6a_2 = (((heightMm7a - (along13a * nd11a)) + ((across14a * nz10a) * ((nx8a * k1) - (ny9a * k0)))) + (k4 * nz10a));
    eye6b_2 = (((heightMm7b - (along13b * nd11b)) + ((across14b * nz10b) * ((nx8b * k1) - (ny9b * k0)))) + (k4 * nz10b));
    const x16a = eye6a_1;
    const x16b = eye6b_1;
    const y17a = (eye6a_2 - k5);
    const y17b = (eye6b_2 - k5);
    const n18a = (eye6a_0 - k6);
    const n18b = (eye6b_0 - k6);
    const a19a = ((k7 * x16a) + (k8 * y17a));
    const a19b = ((k7 * x16b) + (k8 * y17b));
    const b20a = ((k7 * y17a) - (k8 * x16a));
    const b20b = ((k7 * y17b) - (k8 * x16b));
    const c21a = (((((((k7 * k7) + (k8 * k8)) + (x16a * x16a)) + (y17a * y17a)) + (n18a * n18a)) - (k9 * k9)) / 2);
    const c21b = (((((((k7 * k7) + (k8 * k8)) + (x16b * x16b)) + (y17b * y17b)) + (n18b * n18b)) - (k9 * k9)) / 2);
    const room22a = (((a19a * a19a) + (b20a * b20a)) - (c21a * c21a));
    const room22b = (((a19b * a19b) + (b20b * b20b)) - (c21b * c21b));
    if (!(room22a >= 0)) {
      r26a = Number.NaN;
    } else {
      const root23a = Math.sqrt(room22a);
      const over24a = ((b20a < 0) ? (b20a - root23a) : (b20a + root23a));
      const r25a = ((over24a === 0) ? 0 : ((c21a - a19a) / over24a));
      r26a = r25a;
    }
    if (!(room22b >= 0)) {
      r26b = Number.NaN;
    } else {
      const root23b = Math.sqrt(room22b);
      const over24b = ((b20b < 0) ? (b20b - root23b) : (b20b + root23b));
      const r25b = ((over24b === 0) ? 0 : ((c21b - a19b) / over24b));
      r26b = r25b;
    }
    const r27a = r26a;
    const r27b = r26b;
    const x28a = r27a;
    const x28b = r27b;
    if (!((x28a <= 0.2679491924311227) && (x28a >= (-0.2679491924311227)))) {
      const r29a = Math.atan(x28a);
      r32a = r29a;
    } else {
      const u30a = (x28a * x28a);
      const r31a = (x28a + ((x28a * u30a) * ((-0.33333333333331017) + (u30a * (0.19999999998947782 + (u30a * ((-0.1428571412228717) + (u30a * (0.11111098812050957 + (u30a * ((-0.09090395407529735) + (u30a * (0.07679734824842738 + (u30a * ((-0.06486120863343471) + (u30a * 0.044485799374797824))))))))))))))));
      r32a = r31a;
    }
    if (!((x28b <= 0.2679491924311227) && (x28b >= (-0.2679491924311227)))) {
      const r29b = Math.atan(x28b);
      r32b = r29b;
    } else {
      const u30b = (x28b * x28b);
      const r31b = (x28b + ((x28b * u30b) * ((-0.33333333333331017) + (u30b * (0.19999999998947782 + (u30b * ((-0.1428571412228717) + (u30b * (0.11111098812050957 + (u30b * ((-0.09090395407529735) + (u30b * (0.07679734824842738 + (u30b * ((-0.06486120863343471) + (u30b * 0.044485799374797824))))))))))))))));
      r32b = r31b;
    }
    pitchRad[(first + n_a)] = (2 * r32a);
    pitchRad[(first + n_b)] = (2 * r32b);
  }
}
