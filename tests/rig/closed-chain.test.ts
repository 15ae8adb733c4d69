/**
 * A general closed-chain library from the registry (closed-chain-ik 0.0.3, damped least squares on joints and closures),
 * posed to the same machines. It knows nothing of swashplates; its frames are single precision, so it is compared as near
 * as it can come.
 */
import { describe, expect, it } from 'vitest';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { preparedOf } from '../support/answer.ts';
import { closedChain } from '../support/closed-chain.ts';
import { expectNear } from '../support/expect-near.ts';
import { randomRig } from '../support/machines.ts';
import { seededRandom } from '../support/random.ts';

describe('closed-chain-ik posed to the same machine', () => {
  it('stands where the library says, ring and every blade (seeds 9000 to 9004)', { timeout: 60_000 }, () => {
    let [worstRing, worstBlade] = [0, 0];
    for (let seed = 9000; seed < 9005; seed++) {
      const machine = randomRig(seed, 'direct', { tail: false });
      const random = seededRandom(seed);
      const azimuth = random.between(0, 360);
      const kase = {
        collective: random.between(-1, 1),
        elevator: random.between(-1, 1),
        aileron: random.between(-1, 1),
        azimuth,
      };
      const { servos, swash, blades } = predict(preparedOf(machine), kase);
      if (!servos || !swash || !blades) throw new Error(`seed ${seed}: got unreachable, expected a pose`);
      const found = closedChain(machine, azimuth).pose(servos.map(({ horn }) => horn));
      const where = `seed ${seed}`;
      // Tilts of up to 8 degrees and pitches of up to 15 are told apart from any other pose by far more than this.
      worstRing = Math.max(
        worstRing,
        expectNear(
          [found.height, found.foreAft, found.side],
          [swash.height, swash.foreAft, swash.side],
          2e-4,
          'mm and degree',
          where,
        ),
      );
      worstBlade = Math.max(
        worstBlade,
        expectNear(
          found.pitches,
          blades.map(({ pitch }) => pitch),
          2e-4,
          'degree',
          where,
        ),
      );
      expect(Math.hypot(swash.foreAft, swash.side)).toBeGreaterThan(0.5);
    }
    console.log(`closed chain: worst ring ${worstRing}, worst blade ${worstBlade}`);
  });
});
