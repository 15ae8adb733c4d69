/**
 * A machine with direct links as a general closed chain, for closed-chain-ik: nothing of a swashplate is known to it but
 * joints, links and closures. The ring slides and turns freely on the mast; its guide pin and the turning half's driver
 * pin are each held in a plane; every link is a leg between two balls. The library's frames are single precision: of 60
 * mm that is 4e-6 mm, and its damped steps stop somewhat above.
 */
import { Joint, Link, Solver } from 'closed-chain-ik/src/core/index.js';
import type { MachineDocument } from './machines.ts';

const RAD = Math.PI / 180;
/** Degrees of freedom as the library numbers them; its own enumeration is not there at run time under isolated modules. */
const [X, Z, EX, EY, EZ] = [0, 2, 3, 4, 5];

export interface ClosedChain {
  /**
   * puts the horns' balls there (degrees above level), in steps, and solves; returns height, fore-aft and side tilt, and
   * each blade's pitch
   */
  pose(horns: readonly number[]): { height: number; foreAft: number; side: number; pitches: number[] };
}

type Place = readonly [number, number, number];

/** A link that hangs on another at a fixed place, turned by `yaw` (radians) about z. */
function fixedAt(parent: Link, [x, y, z]: Place, yaw = 0): Link {
  const joint = new Joint();
  joint.clearDoF();
  joint.setPosition(x, y, z);
  joint.setEuler(0, 0, yaw);
  const link = new Link();
  parent.addChild(joint);
  joint.addChild(link);
  return link;
}

/** A joint on `parent`, free in these directions, with a link behind it. */
function hinge(parent: Link, [x, y, z]: Place, yaw: number, ...dof: number[]): { joint: Joint; link: Link } {
  const joint = new Joint();
  joint.setDoF(...dof);
  joint.setPosition(x, y, z);
  joint.setEuler(0, 0, yaw);
  const link = new Link();
  parent.addChild(joint);
  joint.addChild(link);
  return { joint, link };
}

/** Closes a chain: a joint at the end of `parent`, free in these directions, is where `child` is. */
function close(parent: Link, [x, y, z]: Place, yaw: number, child: Link, ...dof: number[]): Joint {
  const joint = new Joint();
  joint.setDoF(...dof);
  joint.setPosition(x, y, z);
  joint.setEuler(0, 0, yaw);
  parent.addChild(joint);
  joint.makeClosure(child);
  return joint;
}

/** Turns a two-axis joint (EX, then EY as the library composes them) so that +z of its link points along (x, y, z). */
function aim(joint: Joint, [x, y, z]: Place): void {
  const length = Math.hypot(x, y, z);
  joint.setDoFValue(EX, Math.atan2(-y, z));
  joint.setDoFValue(EY, Math.asin(x / length));
}

export function closedChain(machine: MachineDocument, psi: number): ClosedChain {
  const { servos, swash, rotor } = machine;
  if (!rotor.ring) throw new RangeError('rotor.ring: got nothing, expected a head with direct links');
  const ground = new Link();
  const slider = hinge(ground, [0, 0, 0], 0, Z);
  slider.joint.setDoFValue(Z, swash.height);
  const bearing = hinge(slider.link, [0, 0, 0], 0, EX, EY, EZ);
  const ring = bearing.link;

  /** A pin 30 mm out on a link of the ring, held in the vertical plane at machine azimuth `azimuth` (radians). */
  const holdInPlane = (on: Link, azimuth: number) => {
    const pin = fixedAt(on, [30 * Math.cos(azimuth), 30 * Math.sin(azimuth), 0]);
    const plane = close(ground, [0, 0, 0], azimuth, pin, X, Z, EX, EY, EZ);
    plane.setDoFValue(X, 30);
    plane.setDoFValue(Z, swash.height);
    plane.setDoFValue(EZ, -azimuth);
  };
  holdInPlane(ring, swash.guide * RAD);

  const hornBall = (i: number, angle: number): Place => {
    const servo = servos[i];
    if (!servo) throw new RangeError(`servo ${i}: got none, expected three`);
    const flat = servo.horn.length * Math.cos(angle * RAD);
    const [x, y, z] = servo.shaft;
    return [
      x + flat * Math.cos(servo.horn.azimuth * RAD),
      y + flat * Math.sin(servo.horn.azimuth * RAD),
      z + servo.horn.length * Math.sin(angle * RAD),
    ];
  };
  const legs = servos.map(({ ball, link }, i) => {
    const at: Place = [ball.radius * Math.cos(ball.azimuth * RAD), ball.radius * Math.sin(ball.azimuth * RAD), ball.height];
    const eye = fixedAt(ring, at);
    const foot = hornBall(i, 0);
    const leg = hinge(ground, foot, 0, EX, EY);
    aim(leg.joint, [at[0] - foot[0], at[1] - foot[1], at[2] + swash.height - foot[2]]);
    close(leg.link, [0, 0, link], 0, eye, EX, EY, EZ);
    return leg.joint;
  });

  const sense = rotor.rotation === 'counterclockwise' ? 1 : -1;
  const place = (relative: number) => (180 + sense * (psi + relative)) * RAD;
  const turning = hinge(ring, [0, 0, 0], 0, EZ).link;
  holdInPlane(turning, place(rotor.driver));
  const blades = rotor.links.map((length, k) => {
    const own = (360 * k) / rotor.blades;
    const { radius, azimuth, height } = rotor.ring ?? { radius: 0, azimuth: 0, height: 0 };
    const at = place(own + azimuth);
    const ringBall: Place = [radius * Math.cos(at), radius * Math.sin(at), height];
    const eye = fixedAt(turning, ringBall);
    const grip = hinge(ground, [0, 0, rotor.hubHeight], place(own), EX);
    const { station, lead, height: above } = rotor.pitchArm;
    const arm: Place = [station, sense * lead, above];
    const link = hinge(grip.link, arm, 0, EX, EY);
    // Down from the arm's ball to the ring's, in the grip's own axes.
    const [c, s] = [Math.cos(place(own)), Math.sin(place(own))];
    const local: Place = [
      c * ringBall[0] + s * ringBall[1],
      -s * ringBall[0] + c * ringBall[1],
      swash.height + height - rotor.hubHeight,
    ];
    aim(link.joint, [arm[0] - local[0], arm[1] - local[1], arm[2] - local[2]]);
    close(link.link, [0, 0, -length], 0, eye, EX, EY, EZ);
    return grip.joint;
  });

  const solver = new Solver(ground);
  Object.assign(solver, {
    maxIterations: 30,
    stallThreshold: 1e-12,
    dampingFactor: 1e-3,
    divergeThreshold: 1e3,
    restPoseFactor: 0,
    translationConvergeThreshold: 1e-6,
    rotationConvergeThreshold: 1e-9,
    translationErrorClamp: 10,
    rotationErrorClamp: 1,
  });

  return {
    pose(horns) {
      const steps = 3;
      for (let step = 1; step <= steps; step++) {
        legs.forEach((leg, i) => {
          const [x, y, z] = hornBall(i, ((horns[i] ?? 0) * step) / steps);
          leg.setPosition(x, y, z);
        });
        solver.solve();
      }
      for (let i = 0; i < 3; i++) solver.solve();
      ring.updateMatrixWorld();
      // Column-major: the third column is the ring's normal.
      const [nx, ny, nz] = [ring.matrixWorld[8], ring.matrixWorld[9], ring.matrixWorld[10]].map(Number) as [
        number,
        number,
        number,
      ];
      return {
        height: Number(slider.joint.getDoFValue(Z)),
        foreAft: Math.atan2(nx, nz) / RAD,
        side: Math.atan2(-ny, nz) / RAD,
        pitches: blades.map((joint) => (sense * Number(joint.getDoFValue(EX))) / RAD),
      };
    },
  };
}
