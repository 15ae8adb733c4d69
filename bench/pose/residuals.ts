/**
 * By how much a pose misses its links, worked out from its answer alone (height, normal, pitches) and not from what the solver
 * said of itself: every ball's place anew, every distance less its link, the largest in mm.
 */
import type { PreparedRig, PreparedServo } from '../../packages/mixing/src/rig/prepare.ts';
import { type PreparedTurningBall, turningBall } from '../../packages/mixing/src/rotor/turning-ring.ts';
import { hornAngleRad, hornBall } from '../../packages/mixing/src/servo/horn.ts';
import { closeLever } from '../../packages/mixing/src/servo/lever.ts';
import { commands, outputPulses } from '../../packages/mixing/src/transmitter/outputs.ts';

export interface Answer {
  heightMm: number;
  /** the ring's unit normal in the machine frame, x and y */
  normalX: number;
  normalY: number;
  pitchRad: readonly number[];
}

const eye = new Float64Array(3);
const turn = new Float64Array(2);
const u = new Float64Array(3);
const pulseUs = new Float64Array(3);
const saturated = new Uint8Array(3);

/** The largest miss of ring and blades, sticks as given, blade 1 at psi (its cosine and sine). */
export function worstResidualMm(
  prepared: PreparedRig,
  sticks: Float64Array,
  at: number,
  psiCos: number,
  psiSin: number,
  answer: Answer,
): number {
  commands(prepared.transmitter, 0, sticks[at] as number, sticks[at + 1] as number, sticks[at + 2] as number, u);
  outputPulses(prepared.transmitter, u, pulseUs, saturated);
  return Math.max(
    ringMissMm(prepared, answer),
    ...answer.pitchRad.map((_, k) => bladeMissMm(prepared, answer, psiCos, psiSin, k)),
  );
}

function ringMissMm({ ring, servos }: PreparedRig, { heightMm, normalX, normalY }: Answer): number {
  const nx = normalX * ring.guideCos + normalY * ring.guideSin;
  const ny = normalY * ring.guideCos - normalX * ring.guideSin;
  const nz = Math.sqrt(1 - nx * nx - ny * ny);
  // The guide keeps the ring's x axis in the plane y = 0: x axis (cos p, 0, -sin p), y axis normal cross x.
  const m = Math.hypot(nz, nx);
  const [cosP, sinP] = [nz / m, nx / m];
  let worst = 0;
  for (let i = 0; i < 3; i++) {
    const servo = servos[i] as PreparedServo;
    hornBall(servo.horn, hornAngleRad(servo.horn, pulseUs[servo.output] as number), eye, 0);
    if (servo.lever) closeLever(servo.lever, eye, 0, eye, turn);
    const [x, y, h] = [0, 1, 2].map((k) => ring.balls[3 * i + k] as number) as [number, number, number];
    const px = x * cosP - y * ny * sinP + h * nx;
    const py = y * (nz * cosP + nx * sinP) + h * ny;
    const pz = heightMm - x * sinP - y * ny * cosP + h * nz;
    const length = Math.hypot(px - (eye[0] as number), py - (eye[1] as number), pz - (eye[2] as number));
    worst = Math.max(worst, Math.abs(length - (ring.linkMm[i] as number)));
  }
  return worst;
}

function bladeMissMm(
  prepared: PreparedRig,
  { heightMm, normalX, normalY, pitchRad }: Answer,
  psiCos: number,
  psiSin: number,
  k: number,
): number {
  const t0 = -normalX;
  const t1 = -prepared.rotation * normalY;
  const [bc, bs] = [prepared.bladeCos[k] as number, prepared.bladeSin[k] as number];
  const [c, s] = [psiCos * bc - psiSin * bs, psiSin * bc + psiCos * bs];
  const nz = Math.sqrt(1 - normalX * normalX - normalY * normalY);
  turningBall(prepared.bladeBalls[k] as PreparedTurningBall, heightMm, t0 * c + t1 * s, t1 * c - t0 * s, nz, eye, 0);
  const { station, lead, height, hubHeight } = prepared.blade;
  const [cos, sin] = [Math.cos(pitchRad[k] as number), Math.sin(pitchRad[k] as number)];
  const length = Math.hypot(
    station - (eye[0] as number),
    lead * cos - height * sin - (eye[1] as number),
    hubHeight + lead * sin + height * cos - (eye[2] as number),
  );
  return Math.abs(length - (prepared.bladeLinkMm[k] as number));
}
