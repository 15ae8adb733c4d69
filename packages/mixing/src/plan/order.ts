/**
 * The order of the bench as data: in which stage each change is made, and what must never come before what.
 *
 * Links off the servos, nothing can be strained: signs, leads and teeth first. Links on with little mix: what stands still
 * (lengths) before what moves, the way that a thing moves before how far, and no corner before its limit. Common practice,
 * no source.
 */

export const STAGES = [
  'cautions',
  'inspection',
  'record',
  'links-off',
  'pulse',
  'plain',
  'leads',
  'directions',
  'gyro-senses',
  'tooth',
  'sub-trim',
  'links-on',
  'links',
  'washout',
  'mixing-arms',
  'blades',
  'phase',
  'collective',
  'ends',
  'limit-low',
  'cyclic',
  'limit-raised',
  'tail',
  'hand-tests',
] as const;

export type Stage = (typeof STAGES)[number];

/** A change with a path; `to` tells a setting put right from a value trimmed. */
export interface Ordered {
  path: string;
  to?: unknown;
}

const BY_PATH: readonly (readonly [RegExp, Stage])[] = [
  [/^\/tail\/gyro\/reverse$/, 'gyro-senses'],
  [/^\/transmitter\/rudder\/reverse$/, 'directions'],
  [/^\/(tail|transmitter\/rudder)\//, 'tail'],
  [/^\/transmitter\/outputs\/\d+\/(neutral|span|limits)/, 'pulse'],
  [/^\/transmitter\/(rates\/|mix\/(azimuths|weights))/, 'plain'],
  [/^\/servos\/\d+\/output$/, 'leads'],
  [/^\/transmitter\/outputs\/\d+\/reverse$/, 'directions'],
  [/^\/servos\/\d+\/horn\//, 'tooth'],
  [/^\/transmitter\/outputs\/\d+\/subtrim$/, 'sub-trim'],
  [/^\/servos\/\d+\/(link|pushrod)$/, 'links'],
  [/^\/flybar\/washout\//, 'washout'],
  [/^\/flybar\/mixing\//, 'mixing-arms'],
  [/^\/rotor\/links\//, 'blades'],
  [/^\/transmitter\/mix\/phase$/, 'phase'],
  [/^\/transmitter\/mix\/collective$/, 'collective'],
  [/^\/transmitter\/(outputs\/\d+\/travel|flightModes\/)/, 'ends'],
  [/^\/transmitter\/mix\/(elevator|aileron)$/, 'cyclic'],
  [/^\/transmitter\/mix\/cyclicLimit$/, 'limit-raised'],
];

/** The stage in which a change is made. A mix value that is replaced, and not trimmed, is a direction put right. */
export function stageOf({ path, to }: Ordered): Stage {
  if (to !== undefined && /^\/transmitter\/mix\/(collective|elevator|aileron)$/.test(path)) return 'directions';
  const found = BY_PATH.find(([pattern]) => pattern.test(path));
  return found ? found[1] : 'hand-tests';
}

/** Changes in the order in which a mechanic makes them; those of one stage keep the order in which they are given. */
export function inOrder<T extends Ordered>(changes: readonly T[]): T[] {
  const placeOf = (change: T) => STAGES.indexOf(stageOf(change));
  return changes
    .map((change, i) => ({ change, i }))
    .sort((a, b) => placeOf(a.change) - placeOf(b.change) || a.i - b.i)
    .map(({ change }) => change);
}

/** What a step at the bench does that something else must come before. */
export type Mark =
  | 'confirms-cautions'
  | 'inspects'
  | 'records'
  | 'powered'
  | 'direction'
  | 'range'
  | 'sets-limit'
  | 'corner'
  | 'raises-limit'
  | 'tooth'
  | 'sub-trim'
  | 'link'
  | 'mix-value'
  | 'phase'
  | 'all-hand-tests';

export interface MarkedStep {
  name: string;
  marks: readonly Mark[];
}

export interface OrderRule {
  /** the rule as a sentence */
  says: string;
  /** a step with this mark */
  mark: Mark;
  /** needs one with this mark before it */
  needs?: Mark;
  /** or must have none with this mark before it */
  never?: Mark;
}

export const ORDER_RULES: readonly OrderRule[] = [
  { says: 'a powered step never before the cautions are confirmed', mark: 'powered', needs: 'confirms-cautions' },
  { says: 'nothing is turned before the parts were inspected', mark: 'link', needs: 'inspects' },
  { says: 'nothing is switched on before the settings as found are recorded', mark: 'powered', needs: 'records' },
  { says: 'a direction never after a range', mark: 'direction', never: 'range' },
  { says: 'no corner driven before its limit is set', mark: 'corner', needs: 'sets-limit' },
  { says: 'a limit is raised only where corners were tried', mark: 'raises-limit', needs: 'corner' },
  { says: 'a tooth before sub-trim', mark: 'tooth', never: 'sub-trim' },
  { says: 'a link before a mix value', mark: 'link', never: 'mix-value' },
  { says: 'phase before a mix value', mark: 'phase', never: 'mix-value' },
  { says: 'every hand test again at the end', mark: 'all-hand-tests', needs: 'range' },
];

/** What the steps, in this order, break; empty where they keep every rule. */
export function brokenRules(steps: readonly MarkedStep[], rules: readonly OrderRule[] = ORDER_RULES): string[] {
  return steps.flatMap((step, i) =>
    rules.flatMap(({ says, mark, needs, never }) => {
      if (!step.marks.includes(mark)) return [];
      const before = steps.slice(0, i);
      const has = (wanted: Mark) => before.some(({ marks }) => marks.includes(wanted));
      const broken = (needs !== undefined && !has(needs)) || (never !== undefined && has(never));
      return broken ? [`${step.name}: ${says}`] : [];
    }),
  );
}

/** What a change does, for the rules. */
export function marksOf(change: Ordered): Mark[] {
  switch (stageOf(change)) {
    case 'leads':
    case 'directions':
    case 'gyro-senses':
      return ['direction'];
    case 'tooth':
      return ['tooth'];
    case 'sub-trim':
      return ['sub-trim'];
    case 'links':
    case 'washout':
    case 'mixing-arms':
    case 'blades':
      return ['link'];
    case 'phase':
      return ['phase'];
    case 'collective':
    case 'ends':
    case 'cyclic':
      return ['range', 'mix-value'];
    default:
      return [];
  }
}
