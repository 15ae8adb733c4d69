/**
 * Poses a second, and what a pose costs the ways there are: by the batch from the designed pose and along a path, with a lever
 * among the servos, with a flybar; one at a time; a whole prediction; a revolution's harmonics; a coupling. Beside them two
 * peers posed to the same machine in the same run. 20,000 seeded stick positions within 0.6, blade 1 at psi 30; the residual
 * of every pose is worked out anew and the run fails beyond RESIDUAL_MM.
 */
import { makeBatchPoses, poseBatch } from '../../packages/mixing/src/batch/batch.ts';
import { coupling } from '../../packages/mixing/src/coupling/coupling.ts';
import { makePose, type Pose, poseHead, poseRing, setHorns, setSticks } from '../../packages/mixing/src/rig/pose.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { sampleRevolution } from '../../packages/mixing/src/rig/revolution.ts';
import type { Case } from '../../packages/mixing/src/rig/rig.ts';
import { harmonicsOf, REVOLUTION } from '../../packages/mixing/src/rotor/harmonics.ts';
import { RING } from '../../packages/mixing/src/swashplate/ring.ts';
import plainFlybar from '../../tests/answers/rigs/plain-flybar.rig.json' with { type: 'json' };
import plainLever from '../../tests/answers/rigs/plain-lever.rig.json' with { type: 'json' };
import worked from '../../tests/answers/rigs/worked-120.rig.json' with { type: 'json' };
import { rigOf } from '../../tests/support/answer.ts';
import { seededRandom } from '../../tests/support/random.ts';
import { chainRing } from './closed-chain-ring.ts';
import { poseByMathjs } from './mathjs-newton.ts';
import { race, type Runner, sink } from './race.ts';
import { worstResidualMm } from './residuals.ts';

const POSES = 20_000;
const ROUNDS = Number(process.env['ROUNDS'] ?? 15);
const RESIDUAL_MM = 1e-11;
const AZIMUTH_DEG = 30;
const [PSI_COS, PSI_SIN] = [Math.cos(Math.PI / 6), 0.5];

const random = seededRandom(20_000);
const scattered = Float64Array.from({ length: 3 * POSES }, () => random.between(-0.6, 0.6));
/** Two turns of the cyclic stick a second at 1,000 poses a second, while collective goes up and down. */
const smooth = new Float64Array(3 * POSES);
for (let i = 0; i < POSES; i++) {
  smooth[3 * i] = 0.55 * Math.sin((2 * Math.PI * i) / 1700);
  smooth[3 * i + 1] = 0.42 * Math.cos((2 * Math.PI * i) / 500);
  smooth[3 * i + 2] = 0.42 * Math.sin((2 * Math.PI * i) / 500);
}

const direct = prepare(rigOf(worked));
const lever = prepare(rigOf(plainLever));
const flybar = prepare(rigOf(plainFlybar));
const samples = new Float64Array(REVOLUTION);
const residuals = new Map<string, number>();

function batch(name: string, prepared: PreparedRig, sticks: Float64Array): Runner {
  const poses = makeBatchPoses(prepared, POSES);
  const run = () => {
    poseBatch(prepared, { sticks, azimuth: AZIMUTH_DEG }, poses);
    return poses.heightMm[7] as number;
  };
  run();
  if (poses.missing.some((one) => one !== 0)) throw new Error(`${name}: got poses that are not reached, expected none`);
  if (!prepared.flybar) {
    let worst = 0;
    for (let i = 0; i < POSES; i++) {
      const answer = {
        heightMm: poses.heightMm[i] as number,
        normalX: poses.normalX[i] as number,
        normalY: poses.normalY[i] as number,
        pitchRad: poses.pitchRad.map((column) => column[i] as number),
      };
      worst = Math.max(worst, worstResidualMm(prepared, sticks, 3 * i, PSI_COS, PSI_SIN, answer));
    }
    if (!(worst < RESIDUAL_MM)) throw new Error(`${name}: got a residual of ${worst} mm, expected below ${RESIDUAL_MM}`);
    residuals.set(name, worst);
  }
  return { name, count: POSES, run };
}

function oneByOne(name: string, prepared: PreparedRig, sticks: Float64Array, warm: boolean): Runner {
  const pose = makePose(prepared);
  const run = () => {
    let sum = 0;
    for (let i = 0; i < POSES; i++) {
      setSticks(prepared, pose, 0, sticks[3 * i] as number, sticks[3 * i + 1] as number, sticks[3 * i + 2] as number);
      setHorns(prepared, pose);
      poseRing(prepared, pose, warm && i > 0);
      poseHead(prepared, pose, PSI_COS, PSI_SIN, 0);
      sum += pose.pitchRad[0] as number;
    }
    return sum;
  };
  return { name, count: POSES, run };
}

/** A posed machine, for what is sampled round the disc of it. */
function posed(): Pose {
  const pose = makePose(direct);
  setSticks(direct, pose, 0, 0.3, -0.2, 0.5);
  setHorns(direct, pose);
  poseRing(direct, pose);
  return pose;
}

function cases(count: number): Case[] {
  return Array.from({ length: count }, (_, i) => ({
    collective: scattered[3 * i] as number,
    elevator: scattered[3 * i + 1] as number,
    aileron: scattered[3 * i + 2] as number,
    azimuth: AZIMUTH_DEG,
  }));
}

function predictions(): Runner {
  const asked = cases(4000);
  return {
    name: 'predict, its harmonics among it',
    count: asked.length,
    run: () => asked.reduce((sum, one) => sum + (predict(direct, one).swash?.height ?? 0), 0),
  };
}

function revolutions(): Runner {
  const pose = posed();
  const run = () => {
    let sum = 0;
    for (let i = 0; i < 4000; i++) {
      sampleRevolution(direct, pose, 0, 0, undefined, samples);
      sum += harmonicsOf(samples, direct.rotation).residual;
    }
    return sum;
  };
  return { name: '72 azimuths and their harmonics', count: 4000, run };
}

function couplings(): Runner {
  const asked = cases(300).map(({ azimuth: _, ...one }) => one);
  const run = () =>
    asked.reduce((sum, one) => {
      const found = coupling(direct, one);
      return sum + ('swash' in found ? found.swash[1][1] : 0);
    }, 0);
  return { name: 'coupling', count: asked.length, run };
}

type PoseBy = (pose: Pose, sticks: Float64Array, at: number, psiCos: number, psiSin: number) => void;

/** Somebody else's solver, posed to the same machine; the worst residual that it reaches is kept, whatever it is. */
function peer(name: string, count: number, poseBy: PoseBy): Runner {
  const pose = makePose(direct);
  const each = (visit: (i: number) => void) => {
    for (let i = 0; i < count; i++) {
      poseBy(pose, scattered, 3 * i, PSI_COS, PSI_SIN);
      visit(i);
    }
  };
  let worst = 0;
  each((i) => {
    worst = Math.max(worst, worstResidualMm(direct, scattered, 3 * i, PSI_COS, PSI_SIN, answerOf(pose)));
  });
  if (!(worst < 1e-3)) throw new Error(`${name}: got a residual of ${worst} mm, expected a pose that a peer can be proud of`);
  residuals.set(name, worst);
  const run = () => {
    let sum = 0;
    each(() => {
      sum += pose.pitchRad[0] as number;
    });
    if (sum !== sum) throw new Error(`${name}: got NaN, expected poses in every round`);
    return sum;
  };
  return { name, count, run };
}

function answerOf(pose: Pose) {
  const nx = pose.ring[RING.NX] as number;
  const ny = pose.ring[RING.NY] as number;
  const { guideCos, guideSin } = direct.ring;
  return {
    heightMm: pose.ring[RING.Z] as number,
    normalX: nx * guideCos - ny * guideSin,
    normalY: nx * guideSin + ny * guideCos,
    pitchRad: Array.from(pose.pitchRad),
  };
}

const COLD = 'batch, each from the designed pose';
/** Words of the runners wanted; all where left out. */
const ONLY = process.env['ONLY'];
const times = race(
  [
    batch(COLD, direct, scattered),
    batch('batch, along a smooth path', direct, smooth),
    batch('batch, levers among the servos', lever, scattered),
    batch('batch, flybar held', flybar, scattered),
    oneByOne('one by one, from the designed pose', direct, scattered, false),
    oneByOne('one by one, warm along the path', direct, smooth, true),
    predictions(),
    revolutions(),
    couplings(),
    peer('peer: the same Newton, mathjs lusolve', 1000, (...asked) => poseByMathjs(direct, ...asked)),
    peer('peer: closed-chain-ik, ring alone', 200, chainRing(direct).pose),
  ].filter(({ name }) => ONLY === undefined || name === COLD || name.includes(ONLY)),
  ROUNDS,
);

const cold = times.get(COLD)?.median as number;
console.log(`Node ${process.versions.node}; ${ROUNDS} interleaved rounds, processor time, ns each`);
console.log(
  `${''.padEnd(40)}${'median'.padStart(9)}${'min'.padStart(9)}${'mean ± sd'.padStart(18)}${'each s'.padStart(12)}${'to batch'.padStart(10)}  residual mm`,
);
for (const { name, median, min, mean, sd } of times.values()) {
  const residual = residuals.get(name);
  console.log(
    name.padEnd(40) +
      median.toFixed(0).padStart(9) +
      min.toFixed(0).padStart(9) +
      `${mean.toFixed(0)} ± ${sd.toFixed(0)}`.padStart(18) +
      Math.round(1e9 / median)
        .toLocaleString('en')
        .padStart(12) +
      (median / cold).toFixed(median / cold < 10 ? 2 : 0).padStart(10) +
      (residual === undefined ? '' : `  ${residual.toExponential(1)}`),
  );
}
const whole = times.get('predict, its harmonics among it')?.median;
const round = times.get('72 azimuths and their harmonics')?.median;
if (whole && round) console.log(`predict beyond what is sampled round the disc: ${(whole - round).toFixed(0)} ns`);
if (!Number.isFinite(sink)) throw new Error(`sink: got ${sink}, expected a number`);
