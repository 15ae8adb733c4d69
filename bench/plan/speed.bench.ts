/**
 * How long a plan takes on one core, belief and plan apart, processor time of this process alone. COUNT machines a kind.
 */
import { drawMachine } from '../diagnosis/draw.ts';
import { posterior } from '../../packages/mixing/src/diagnosis/posterior.ts';
import { standardSet } from '../../packages/mixing/src/diagnosis/standard-set.ts';
import { planFrom } from '../../packages/mixing/src/plan/plan.ts';
import { KINDS } from '../../tests/support/machines.ts';

const count = Number(process.env['COUNT'] ?? 40);
/** the first calls run in code that is not compiled yet */
const WARM_UP = 5;

const spent = <T>(work: () => T): [T, number] => {
  const from = process.cpuUsage();
  const done = work();
  const { user, system } = process.cpuUsage(from);
  return [done, (user + system) / 1000];
};

for (const kind of KINDS) {
  const believing: number[] = [];
  const planning: number[] = [];
  for (let seed = 1, taken = 0; taken < count + WARM_UP; seed++) {
    const drawn = drawMachine(seed, kind, { places: standardSet });
    if (!drawn) continue;
    const [believed, first] = spent(() => posterior(drawn.record, drawn.readings));
    const [, second] = spent(() => planFrom(believed, drawn.readings));
    if (taken++ < WARM_UP) continue;
    believing.push(first);
    planning.push(second);
  }
  const both = believing.map((ms, i) => ms + (planning[i] as number));
  const say = (name: string, list: number[]) => {
    const sorted = [...list].sort((a, b) => a - b);
    const at = (share: number) => (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] as number).toFixed(0);
    return `${name} median ${at(0.5)}, 95 % ${at(0.95)}, most ${at(1)}`;
  };
  console.log(`${kind}, ms: ${say('belief', believing)}; ${say('plan', planning)}; ${say('together', both)}`);
}
