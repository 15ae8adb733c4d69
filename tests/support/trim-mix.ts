/**
 * Sets a machine's mix values so that its blades answer as a healthy machine's do: 10 degrees of collective at the ends
 * of the stick, 5 of cyclic at full elevator and aileron, and the phase that keeps the two apart. Each round scales by
 * what is missing, which for so nearly linear an answer gains two digits.
 */
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { rigOf } from './answer.ts';
import type { MachineDocument } from './machines.ts';

const ROUNDS = 3;
const COLLECTIVE = 10;
const CYCLIC = 5;

export function trimMix(document: MachineDocument): void {
  const rig = rigOf(document);
  const { mix } = rig.transmitter;
  for (let round = 0; round < ROUNDS; round++) {
    const collective = halfSpan(prepare(rig), 'collective');
    mix.collective *= COLLECTIVE / collective.collective;
    const elevator = halfSpan(prepare(rig), 'elevator');
    const aileron = halfSpan(prepare(rig), 'aileron');
    mix.elevator *= CYCLIC / Math.hypot(elevator.longitudinal, elevator.lateral);
    mix.aileron *= CYCLIC / Math.hypot(aileron.longitudinal, aileron.lateral);
    // The answer's direction from the stick's, seen from above, forward toward right positive; the mean of both sticks'.
    const astray = (Math.atan2(elevator.lateral, elevator.longitudinal) + Math.atan2(-aileron.longitudinal, aileron.lateral)) / 2;
    const toRotation = document.rotor.rotation === 'clockwise' ? 1 : -1;
    mix.phase -= (toRotation * astray * 180) / Math.PI;
  }
  const { collective, elevator, aileron, phase } = mix;
  Object.assign(document.transmitter.mix, { collective, elevator, aileron, phase });
}

/** Half the difference of the blades' answers to the two ends of one stick. */
function halfSpan(prepared: PreparedRig, stick: 'collective' | 'elevator' | 'aileron') {
  const at = (position: number) => {
    const { harmonics } = predict(prepared, { [stick]: position });
    if (!harmonics || 'unreachable' in harmonics) {
      throw new Error(`${prepared.rig.name}: got no pose at ${stick} ${position}, expected a machine that moves freely`);
    }
    return harmonics;
  };
  const high = at(1);
  const low = at(-1);
  return {
    collective: (high.collective - low.collective) / 2,
    longitudinal: (high.longitudinal - low.longitudinal) / 2,
    lateral: (high.lateral - low.lateral) / 2,
  };
}
