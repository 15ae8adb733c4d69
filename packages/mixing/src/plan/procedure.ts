/**
 * Setting up from the beginning, as data: every step of the bench in its order, for the page and the sheet to tick off. A
 * plan's adjustments are made at their stages (`stageOf`). Common practice, no source; local rules and licensed practice
 * come first.
 */
import type { Rig } from '../rig/rig.ts';
import type { Mark, Stage } from './order.ts';

export interface ProcedureStep {
  /** a name that stays, to be ticked off and kept */
  name: string;
  stage: Stage;
  says: string;
  marks: readonly Mark[];
  /** only where the machine has one */
  needs?: 'flybar' | 'tail' | 'gyro';
}

export const PROCEDURE: readonly ProcedureStep[] = [
  {
    name: 'leads-unplugged',
    stage: 'cautions',
    says: 'Motor leads unplugged and insulated. A hold switch is no disconnection.',
    marks: [],
  },
  {
    name: 'people-clear',
    stage: 'cautions',
    says: 'People clear, the machine held fast, blades on only for readings, gauge off before any full stick.',
    marks: [],
  },
  {
    name: 'local-rules',
    stage: 'cautions',
    says: 'Your local code comes first; where it wants a licensed hand, stop here. Confirm all of these.',
    marks: ['confirms-cautions'],
  },
  {
    name: 'inspect',
    stage: 'inspection',
    says: 'Look over every link, ball, horn, arm and shaft. What is bent or worn is replaced, never adjusted around.',
    marks: ['inspects'],
  },
  { name: 'record-lengths', stage: 'record', says: 'Write down every link length and horn hole as found.', marks: ['records'] },
  {
    name: 'links-off',
    stage: 'links-off',
    says: 'Take the links off the servo horns, so that nothing can be strained.',
    marks: [],
  },
  {
    name: 'record-settings',
    stage: 'record',
    says: 'Switch on. Write down every setting as found before any is changed.',
    marks: ['powered'],
  },
  {
    name: 'pulse',
    stage: 'pulse',
    says: "Each output's neutral pulse is its servo's own, 1520 or 1500 µs or what the maker says.",
    marks: ['powered'],
  },
  { name: 'sub-trims-zero', stage: 'plain', says: 'All sub-trims to zero.', marks: ['powered'] },
  {
    name: 'plain-settings',
    stage: 'plain',
    says: 'Travel, rates and pitch curve plain; the layout that of the machine.',
    marks: ['powered'],
  },
  {
    name: 'leads',
    stage: 'leads',
    says: 'Each lead in its output: move one stick, see that the right horns answer.',
    marks: ['powered', 'direction'],
  },
  {
    name: 'directions',
    stage: 'directions',
    says: 'Collective up: all three balls go the same way, up. One against the others: reverse its output. All three down: turn the sign of the collective value round.',
    marks: ['powered', 'direction'],
  },
  {
    name: 'cyclic-signs',
    stage: 'directions',
    says: "Elevator forward tips the swashplate forward, aileron right tips it right. The wrong way: that value's sign, never one servo of three.",
    marks: ['powered', 'direction'],
  },
  {
    name: 'rudder-direction',
    stage: 'directions',
    says: 'Right rudder turns the tail blades so that the nose would swing right.',
    marks: ['powered', 'direction'],
    needs: 'tail',
  },
  {
    name: 'gyro-senses',
    stage: 'gyro-senses',
    says: 'Swing the nose left by hand: the tail answers as to right rudder. Tip the nose down: the swashplate must tilt back. Roll right: left.',
    marks: ['powered', 'direction'],
    needs: 'gyro',
  },
  {
    name: 'tooth',
    stage: 'tooth',
    says: 'Horns on the spline tooth that stands nearest to level; the ball in its hole; horn screw in.',
    marks: ['powered', 'tooth'],
  },
  {
    name: 'sub-trim',
    stage: 'sub-trim',
    says: 'Sub-trim brings each horn level; it stays small.',
    marks: ['powered', 'sub-trim'],
  },
  { name: 'links-on', stage: 'links-on', says: 'Mix values low, then links on.', marks: [] },
  { name: 'links-by-record', stage: 'links', says: 'Links to the lengths of the record.', marks: ['link'] },
  {
    name: 'level',
    stage: 'links',
    says: 'Swashplate level front to back and left to right at mid-stick, by the links.',
    marks: ['powered', 'link'],
  },
  {
    name: 'washout-arms',
    stage: 'washout',
    says: 'Washout arms level and alike, paddles at zero.',
    marks: ['powered', 'link'],
    needs: 'flybar',
  },
  {
    name: 'mixing-arms',
    stage: 'mixing-arms',
    says: 'Mixing arms level and alike.',
    marks: ['powered', 'link'],
    needs: 'flybar',
  },
  {
    name: 'blade-against-blade',
    stage: 'blades',
    says: 'Blade against blade by the blade links. A link more than 1 mm off its record: inspect the blade grip and spindle first.',
    marks: ['powered', 'link'],
  },
  { name: 'zero', stage: 'blades', says: 'Blades at zero pitch at mid-stick.', marks: ['powered', 'link'] },
  {
    name: 'phase',
    stage: 'phase',
    says: 'A little elevator must tip the disc forward and not aside: out of line is cured by phase.',
    marks: ['powered', 'phase'],
  },
  {
    name: 'collective-value',
    stage: 'collective',
    says: 'Collective ends by the collective value, without a bind.',
    marks: ['powered', 'range', 'mix-value'],
  },
  {
    name: 'limit-low',
    stage: 'limit-low',
    says: 'Cyclic limit set low, half of full stick or less, before any corner is driven.',
    marks: ['powered', 'sets-limit'],
  },
  {
    name: 'cyclic-values',
    stage: 'cyclic',
    says: 'Elevator and aileron ends by their values.',
    marks: ['powered', 'range', 'mix-value'],
  },
  {
    name: 'corners',
    stage: 'limit-raised',
    says: 'Gauge off. Every corner, at both ends of collective, inside the limit: listen for a servo that strains.',
    marks: ['powered', 'corner'],
  },
  {
    name: 'limit-raised',
    stage: 'limit-raised',
    says: 'Raise the limit a little at a time while every corner stays free by sound.',
    marks: ['powered', 'raises-limit', 'corner'],
  },
  {
    name: 'tail-centre',
    stage: 'tail',
    says: 'Tail horn square, slider at its middle by the tail rod.',
    marks: ['powered'],
    needs: 'tail',
  },
  {
    name: 'tail-ends',
    stage: 'tail',
    says: 'Both ends of the rudder free of the stops, slider travel equal.',
    marks: ['powered', 'range'],
    needs: 'tail',
  },
  {
    name: 'hand-tests',
    stage: 'hand-tests',
    says: 'Every hand test again: collective up, elevator, aileron, rudder, nose down, roll right, nose left. Horn screws, link faces, wiring clear, blade bolts, balance.',
    marks: ['powered', 'all-hand-tests'],
  },
];

/** The steps that a machine has. */
export function procedureFor(rig: Rig): ProcedureStep[] {
  const has = { flybar: rig.flybar !== undefined, tail: rig.tail !== undefined, gyro: rig.tail?.gyro !== undefined };
  return PROCEDURE.filter(({ needs }) => needs === undefined || has[needs]);
}
