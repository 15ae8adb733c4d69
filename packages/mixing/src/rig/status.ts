/**
 * How far a pose can be trusted, in one word: whether the lengths hold the machine there, and whether it is the only place.
 */
import { mixingSine } from '../flybar/mixing.ts';
import { DEG_PER_RAD } from '../quantities/angles.ts';
import { bladeSine } from '../rotor/blade.ts';
import { leverSine } from '../servo/lever.ts';
import { RING, WAY } from '../swashplate/ring.ts';
import type { Pose } from './pose.ts';
import type { PreparedRig, PreparedServo } from './prepare.ts';

/**
 * `closed`: the one pose that is meant, well held. `near-over-centre`: an arm is close to dead centre with its link, where
 * its other closure begins. `near-singular`: the links hold the ring (or the rods the washout) badly. `two-branch`: the ring
 * closes, but the straight way there from the designed pose is barred, so that a machine may be found in another pose.
 * `cannot-reach`: no pose closes. `singular`: the designed pose itself is not held, and none can be reached from it.
 */
export type PoseStatus = 'closed' | 'near-over-centre' | 'near-singular' | 'two-branch' | 'cannot-reach' | 'singular';

/** A part close to dead centre: its link, and the degrees that are left between it and its arm. */
export interface OverCentre {
  path: string;
  angle: number;
}

/**
 * Beyond this condition the ring is badly held. Sound machines lie below 1.45 wherever their sticks are (3,600 poses each of
 * random direct, lever and flybar machines, carelessly set ones among them); at 10 a tenth of a millimetre on a link can be a
 * millimetre on the ring.
 */
export const NEAR_SINGULAR_CONDITION = 10;
/** A washout whose determinant fell below this part of its designed size is badly held; no sound one did, in 30,000 poses. */
export const NEAR_SINGULAR_DETERMINANT = 0.3;
/**
 * Within this angle of dead centre an arm turns six times as far for an error of its link as it does square to it. On the
 * same sound machines levers keep 41 degrees, blades 43, and blades on mixing arms 20.
 */
export const NEAR_OVER_CENTRE_RAD = 10 / DEG_PER_RAD;

const NEAR_SINE = Math.sin(NEAR_OVER_CENTRE_RAD);

/** The part of a posed machine that is nearest to dead centre, where one is within NEAR_OVER_CENTRE_RAD. */
export function overCentreOf(prepared: PreparedRig, pose: Pose): OverCentre | undefined {
  let least = NEAR_SINE;
  let path = '';
  for (let i = 0; i < 3; i++) {
    const { lever } = prepared.servos[i] as PreparedServo;
    const sine = lever ? leverSine(lever, pose.hornBalls, 3 * i, pose.leverTurn[i] as Float64Array) : 1;
    if (sine < least) {
      least = sine;
      path = `/servos/${i}/pushrod`;
    }
  }
  for (let k = 0; k < pose.pitchRad.length; k++) {
    const sine = bladeSine(prepared.blade, pose.pitchRad[k] as number, pose.bladeEyes, 3 * k);
    if (sine < least) {
      least = sine;
      path = `/rotor/links/${k}`;
    }
  }
  if (prepared.flybar) {
    const { teeterRad, mixingBalls, mixingTurn } = pose.flybar;
    const c = Math.cos(teeterRad);
    const s = Math.sin(teeterRad);
    for (const arm of [0, 1] as const) {
      const sine = mixingSine(prepared.flybar.mixing, arm, mixingBalls, c, s, mixingTurn[arm]);
      if (sine < least) {
        least = sine;
        path = `/flybar/mixing/rods/${arm}`;
      }
    }
  }
  return path === '' ? undefined : { path, angle: Math.asin(least) * DEG_PER_RAD };
}

/** The word for a pose whose ring and head closed. */
export function statusOf(prepared: PreparedRig, pose: Pose, condition: number, overCentre: OverCentre | undefined): PoseStatus {
  if (pose.ring[RING.WAY] === WAY.BARRED) return 'two-branch';
  if (condition > NEAR_SINGULAR_CONDITION) return 'near-singular';
  if (prepared.flybar && pose.flybar.determinant < NEAR_SINGULAR_DETERMINANT) return 'near-singular';
  return overCentre ? 'near-over-centre' : 'closed';
}
