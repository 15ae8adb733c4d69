/**
 * What counts only where the targets ask for it: little sub-trim, and corners free of binding.
 */
import type { Rig } from '../rig/rig.ts';
import type { Assessor } from './meets.ts';
import type { Alteration } from './place.ts';
import type { Targets } from './targets-document.ts';

/** Sub-trim that is to be small is taken out wherever it is not, and links make up for it. */
export function askedFor(
  { within: { subtrim } }: Targets,
  likeliest: Rig,
): { mostSubtrim: { mostSubtrim?: number }; asked: Alteration[] } {
  if (subtrim === undefined) return { mostSubtrim: {}, asked: [] };
  const asked = likeliest.transmitter.outputs.flatMap((output, j): Alteration[] => {
    const by = -Math.round(output.subtrim) + 0;
    return by === 0 ? [] : [{ path: `/transmitter/outputs/${j}/subtrim`, by }];
  });
  return { mostSubtrim: { mostSubtrim: subtrim }, asked };
}

/** Percent between two tries of the cyclic limit, from where it rounds nothing off. */
const LIMIT_STEP = 5;
const WIDEST = 140;
const NARROWEST = 50;

/** The widest cyclic limit with which the corners are as likely free as with any; none where they are free without. */
export function cyclicLimitFor(
  { within: { corners } }: Targets,
  changes: readonly Alteration[],
  assessor: Assessor,
  record: Rig,
): Alteration[] {
  if (corners !== true) return [];
  const path = '/transmitter/mix/cyclicLimit';
  let best: { change: Alteration[]; chance: number } = { change: [], chance: assessor.assess(changes).chance };
  const most = Math.min(WIDEST, record.transmitter.mix.cyclicLimit ?? WIDEST);
  for (let limit = Math.floor(most); limit >= NARROWEST; limit -= LIMIT_STEP) {
    const change: Alteration = { path, to: limit };
    const { chance } = assessor.assess([...changes, change]);
    if (chance > best.chance + 0.02) best = { change: [change], chance };
    else if (chance < best.chance - 0.1) break;
  }
  return best.change;
}
