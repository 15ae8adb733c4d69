/** The ring's first guess for a rig and flight mode, made when a batch first asks: a rig that is posed only once needs none. */
import { makePose, poseEyes, setHorns, setSticks } from '../rig/pose.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { fitRingStart, type RingStart } from '../swashplate/start.ts';

/**
 * The part of each stick's whole way over which the guess is fitted. On the worked machine with sticks within 0.6: at 0.4
 * two steps of Newton suffice for every pose, at 0.6 a third of them need a third, since the error is then spread as far out.
 */
const REACH = 0.4;

const starts = new WeakMap<PreparedRig, Map<number, RingStart>>();

export function ringStartOf(prepared: PreparedRig, mode: number): RingStart {
  let modes = starts.get(prepared);
  if (!modes) {
    modes = new Map();
    starts.set(prepared, modes);
  }
  let start = modes.get(mode);
  if (!start) {
    start = makeStart(prepared, mode);
    modes.set(mode, start);
  }
  return start;
}

/** Each horn's way is the one that the sticks' corners give it. */
function makeStart(prepared: PreparedRig, mode: number): RingStart {
  const pose = makePose(prepared);
  const low = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  const high = low.map((one) => -one);
  for (const c of [-REACH, REACH]) {
    for (const e of [-REACH, REACH]) {
      for (const a of [-REACH, REACH]) {
        setSticks(prepared, pose, mode, c, e, a);
        setHorns(prepared, pose);
        pose.hornRad.forEach((hornRad, i) => {
          low[i] = Math.min(low[i] as number, hornRad);
          high[i] = Math.max(high[i] as number, hornRad);
        });
      }
    }
  }
  return fitRingStart(prepared.ring, (parts, eyes) => {
    parts.forEach((part, i) => {
      pose.hornRad[i] = ((high[i] as number) + (low[i] as number)) / 2 + (part * ((high[i] as number) - (low[i] as number))) / 2;
    });
    if (!poseEyes(prepared, pose)) return false;
    eyes.set(pose.eyes);
    return true;
  });
}
