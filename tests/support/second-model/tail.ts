/** The tail, second derivation: lever and grip are balls on circles, bisected. Axes [u, v, w]; the grip's plane is (x, v). */
import type { Case } from '../../../packages/mixing/src/rig/rig.ts';
import type { MachineDocument } from '../machines.ts';
import { fromZero, nearestZero } from './solve.ts';
import { type Missing, hornAngle } from './swash.ts';
import { rudderPulse } from './transmitter.ts';
import { DEG, type Vec, add, norm, sub } from './vectors.ts';

export type TailAnswer = { pulse: number; saturated: boolean; horn: number } & (
  | { lever: number; slider: number; past: number; pitch: number }
  | { unreachable: Missing }
);

export function closeTail(document: MachineDocument, kase: Case): TailAnswer | undefined {
  const { tail } = document;
  if (!tail) return undefined;
  const { servo, lever, grip } = tail;
  const { pulse, saturated } = rudderPulse(document, kase);
  const horn = hornAngle(servo, servo.horn, pulse);
  const roll = (servo.horn.roll ?? 0) * DEG;
  const hornBall = (angle: number): Vec => {
    const square = servo.horn.length * Math.cos(angle);
    return add(servo.shaft, [servo.horn.length * Math.sin(angle), square * Math.cos(roll), square * Math.sin(roll)]);
  };
  const end =
    ({ length, angle }: { length: number; angle: number }) =>
    (b: number): Vec =>
      add(lever.pivot, [length * Math.cos(angle * DEG + b), length * Math.sin(angle * DEG + b), 0]);

  const designed = norm(sub(end(lever.servoEnd)(0), hornBall(0)));
  const found = fromZero(
    () => end(lever.servoEnd),
    (t) => hornBall(t * horn * DEG),
    (t) => designed + t * (tail.rod - designed),
  );
  if ('short' in found) return { pulse, saturated, horn, unreachable: { path: '/tail/rod', short: found.short } };
  const wanted = end(lever.sliderEnd)(found.angle)[1] - end(lever.sliderEnd)(0)[1];
  const [least, most] = tail.slider?.stops ?? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  const slider = Math.max(least, Math.min(most, wanted));

  const h = grip.height ?? 0;
  const spider: Vec = [grip.spider[0], grip.spider[1] + slider, 0];
  const arm = (t: number): Vec => [grip.lead * Math.cos(t) - h * Math.sin(t), grip.lead * Math.sin(t) + h * Math.cos(t), 0];
  const blade = nearestZero(arm, spider, grip.link);
  if ('short' in blade) return { pulse, saturated, horn, unreachable: { path: '/tail/grip/link', short: blade.short } };
  return {
    pulse,
    saturated,
    horn,
    lever: found.angle / DEG,
    slider,
    past: wanted - slider,
    pitch: ((tail.right ?? 1) * blade.angle) / DEG,
  };
}
