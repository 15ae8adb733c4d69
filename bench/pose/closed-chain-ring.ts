/**
 * The ring of a machine with direct links as a general closed chain, for closed-chain-ik 0.0.3: a slider on the mast, the ring
 * on two of its axes, three legs that each turn about a horn's ball and close on a ball of the ring; nine freedoms, nine
 * closures. The leanest that we know how to write for it (tests/support/closed-chain.ts has the whole machine with pins for
 * guide and driver, 22 freedoms more), so that the comparison errs on its side: its blades are closed by our own closed form.
 */
import { Joint, Link, Solver } from 'closed-chain-ik/src/core/index.js';
import { type Pose, poseEyes, poseHead, setHorns, setSticks } from '../../packages/mixing/src/rig/pose.ts';
import type { PreparedRig } from '../../packages/mixing/src/rig/prepare.ts';
import { RING } from '../../packages/mixing/src/swashplate/ring.ts';

/** The library's numbers for its directions of freedom. */
const [Z, EX, EY, EZ] = [2, 3, 4, 5];

type Place = readonly [number, number, number];

function joint(parent: Link, [x, y, z]: Place, ...freedoms: number[]): Joint {
  const made = new Joint();
  made.clearDoF();
  if (freedoms.length > 0) made.setDoF(...freedoms);
  made.setPosition(x, y, z);
  parent.addChild(made);
  return made;
}

function linkOn(made: Joint): Link {
  const link = new Link();
  made.addChild(link);
  return link;
}

export interface ChainRing {
  /** poses ring and blades into `pose`, from where the chain last stood */
  pose(pose: Pose, sticks: Float64Array, at: number, psiCos: number, psiSin: number): void;
}

/** All in G: the library turns a joint by Ry Rx, as the guide turns the ring. */
export function chainRing(prepared: PreparedRig): ChainRing {
  const { ring } = prepared;
  const place = (list: Float64Array, i: number): Place => [
    list[3 * i] as number,
    list[3 * i + 1] as number,
    list[3 * i + 2] as number,
  ];
  const ground = new Link();
  const slider = joint(ground, [0, 0, 0], Z);
  slider.setDoFValue(Z, ring.designedHeightMm);
  const bearing = joint(linkOn(slider), [0, 0, 0], EX, EY);
  const plate = linkOn(bearing);
  const legs = [0, 1, 2].map((i) => {
    const [bx, by, bz] = place(ring.balls, i);
    const [ex, ey, ez] = place(ring.designedEyes, i);
    const eye = linkOn(joint(plate, [bx, by, bz]));
    const leg = joint(ground, [ex, ey, ez], EX, EY);
    const [x, y, z] = [bx - ex, by - ey, bz + ring.designedHeightMm - ez];
    leg.setDoFValue(EX, Math.asin(-y / Math.hypot(x, y, z)));
    leg.setDoFValue(EY, Math.atan2(x, z));
    joint(linkOn(leg), [0, 0, ring.linkMm[i] as number], EX, EY, EZ).makeClosure(eye);
    return leg;
  });
  const solver = new Solver(ground);
  // Its own clamps and damping are for arms that reach for a goal: an undamped full step is what closes best and soonest here.
  Object.assign(solver, {
    maxIterations: 6,
    stallThreshold: 1e-7,
    dampingFactor: 1e-5,
    divergeThreshold: 1e3,
    restPoseFactor: 0,
    translationStep: 1e-3,
    rotationStep: 1e-3,
    translationConvergeThreshold: 2e-5,
    rotationConvergeThreshold: 1e-6,
    translationErrorClamp: 1e3,
    rotationErrorClamp: 10,
  });
  return {
    pose(pose, sticks, at, psiCos, psiSin) {
      setSticks(prepared, pose, 0, sticks[at] as number, sticks[at + 1] as number, sticks[at + 2] as number);
      setHorns(prepared, pose);
      poseEyes(prepared, pose);
      legs.forEach((leg, i) => {
        const [x, y, z] = place(pose.eyes, i);
        leg.setPosition(x, y, z);
      });
      solver.solve();
      const [roll, pitch] = [Number(bearing.getDoFValue(EX)), Number(bearing.getDoFValue(EY))];
      pose.ring[RING.Z] = Number(slider.getDoFValue(Z));
      pose.ring[RING.NX] = Math.sin(pitch) * Math.cos(roll);
      pose.ring[RING.NY] = -Math.sin(roll);
      pose.ring[RING.NZ] = Math.cos(pitch) * Math.cos(roll);
      poseHead(prepared, pose, psiCos, psiSin, 0);
    },
  };
}
