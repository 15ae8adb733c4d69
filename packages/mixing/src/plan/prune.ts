/**
 * A plan in, the same plan without what adds next to nothing: a hand's work is only asked for where it is worth it.
 *
 * A search that aims well inside every target turns many a thing a little. Each change is left out in turn, the least welcome
 * first (travel, a curve's end, sub-trim, a mix value, then links, then cures), and stays out where the chance that all
 * targets are met (where that is past hope, the share of them that are) falls by no more than one drawn machine of those weighed, and by no more than KEPT in all.
 */
import { type Assessor, HOPELESS } from './meets.ts';
import { type Alteration, isLead } from './place.ts';

/** Most changes are plainly needed, which shows on a few machines: where the chance falls by so much on these, it is left at that. */
const GLANCED = 32;
const PLAINLY = 0.1;
/** What one change, and all that are left out, may cost of the chance. No source. */
const LEFT_OUT = 0.0065;
const KEPT = 0.0065;

/** The least welcome first: what bends the middle's meaning before what a link would do. */
const WELCOME: readonly RegExp[] = [
  /^\/transmitter\/outputs\/\d\/travel/,
  /^\/transmitter\/flightModes/,
  /^\/transmitter\/outputs\/\d\/subtrim/,
  /^\/transmitter\/mix\/(weights|azimuths)/,
  /^\/transmitter\/mix/,
  /^\/servos\/\d\/horn/,
];
const rankOf = ({ path }: Alteration) => {
  const at = WELCOME.findIndex((kind) => kind.test(path));
  return at < 0 ? WELCOME.length : at;
};

export function pruned(changes: readonly Alteration[], assessor: Assessor): Alteration[] {
  if (changes.length < 2) return [...changes];
  const { all, singly } = assessor.weigh(changes);
  const by = all < HOPELESS ? 'singly' : 'all';
  const whole = by === 'all' ? all : singly;
  const glanced = assessor.weigh(changes, GLANCED)[by];
  let kept = [...changes];
  let chance = whole;
  const order = changes.filter((change) => !isLead(change)).sort((a, b) => rankOf(a) - rankOf(b));
  for (const change of order) {
    const fewer = kept.filter((one) => one !== change);
    if (fewer.length === 0) break;
    if (assessor.weigh(fewer, GLANCED)[by] < glanced - PLAINLY) continue;
    const without = assessor.weigh(fewer)[by];
    if (without < chance - LEFT_OUT || without < whole - KEPT) continue;
    kept = fewer;
    chance = without;
  }
  return kept;
}
