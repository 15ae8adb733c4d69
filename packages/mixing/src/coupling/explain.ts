/**
 * What the sticks do to a machine that is not as recorded, said in sentences: worked out from the figures of both
 * machines and the list of changes, never from a table of known faults.
 *
 *   "Before the stick moves the swashplate leans 2.5 degrees right: servo 2's horn stands 8 degrees high; elevator
 *    itself adds 0.02."
 *   "Forward elevator rolls the machine right: the leads of servos 1 and 2 are swapped."
 *
 * A fault is looked for in the record too, in its own direction: what stands there is no change's doing, and is said
 * of the record. A cause is given to what it alone would mend: each group of changes is taken back in turn, and those
 * whose absence makes at least a quarter of the largest difference are named, the largest first.
 */
import { degOf, radOf } from '../quantities/angles.ts';
import { applyChanges, type Change } from '../rig/changes.ts';
import type { Rig, Unreachable } from '../rig/rig.ts';
import { type Cause, causesInWords, degrees, number, partName, wrapDeg } from './causes-in-words.ts';
import { type StickEffect, type StickEffects, stickEffects, type Tilt } from './stick-effects.ts';

export interface Explanation {
  /** true: nothing worth turning; off: something is; unreachable: the machine cannot be posed */
  state: 'true' | 'off' | 'unreachable';
  /** the one sentence to say first */
  headline: string;
  /** what else there is to say, gravest first */
  more: string[];
}

/** Below these nothing is said: what a pitch gauge and an eye can no longer tell from none. Common practice, no source. */
const LEAN_DEG = 0.3;
const TURNED_DEG = 3;
const SIZE_RATIO = 0.08;
const PITCH_DEG = 0.4;
/** An answer smaller than this at full stick has no direction worth naming. */
const NOTHING_DEG = 0.2;
/** A stick's answer turned by more than this is a roll where a pitch was asked; beyond the next, it is backwards. */
const ACROSS_DEG = 40;
const BACKWARDS_DEG = 140;

interface Finding {
  /** what is said before the colon */
  says: string;
  /** larger is said earlier */
  weight: number;
  /** how much of the fault stands in `effects`: positive the way it stands in the machine, negative the other way */
  sizeIn(effects: StickEffects): number;
  /** the same as it is said, where a change has only added to it */
  figureIn?(effects: StickEffects): string;
  /** said after the causes */
  tail?: string;
  /** said where the record itself is so: what would cure it */
  cure?: string;
}

/** Of a fault, the part that must stand in the record for no change to be blamed; and for the record to be told at all. */
const RECORDS_OWN = 0.75;
const RECORDS_PART = 0.25;

/**
 * @param record the machine as recorded; @param machine the same with `changes` applied;
 * @param mode flight mode by name, the document's first where left out
 */
export function explain(record: Rig, machine: Rig, changes: readonly Change[], mode?: string): Explanation {
  const asRecorded = stickEffects(record, mode);
  const asIs = stickEffects(machine, mode);
  if (!('stick' in asIs)) {
    const causes = causesInWords(record, machine, changes, undefined);
    return {
      state: 'unreachable',
      headline: sentence(
        unreachableSays(machine, asIs),
        causes.map(({ says }) => says),
      ),
      more: [],
    };
  }
  const reference = 'stick' in asRecorded ? asRecorded : asIs;
  const hornsOff = asIs.horns.map((horn, i) => horn - (reference.horns[i] ?? horn));
  const causes = causesInWords(record, machine, changes, hornsOff);
  const findings = findingsOf(reference, asIs, changes.length > 0);
  if (findings.length === 0) return { state: 'true', headline: trueSays(asIs, changes), more: [] };
  const without = causes.map((cause) => withoutCause(record, changes, cause, mode));
  const said = findings
    .map((finding) => ({ ...finding, recorded: finding.sizeIn(reference) / finding.sizeIn(asIs) }))
    // What the record has already comes after what the changes do.
    .sort((a, b) => Number(a.recorded > RECORDS_OWN) - Number(b.recorded > RECORDS_OWN) || b.weight - a.weight)
    .map(({ recorded, ...finding }) => {
      if (recorded > RECORDS_OWN) return ofTheRecord(finding, recorded);
      const part = recorded > RECORDS_PART && finding.figureIn ? [`${finding.figureIn(reference)} as recorded`] : [];
      return sentence(
        finding.says,
        responsible(finding, asIs, causes, without),
        ...(finding.tail ? [finding.tail] : []),
        ...part,
      );
    });
  return { state: 'off', headline: said[0] as string, more: said.slice(1) };
}

/** A fault that the record has too, `recorded` times as large as it stands in the machine. */
function ofTheRecord({ says, cure }: Finding, recorded: number): string {
  const lead = recorded > 1 / RECORDS_OWN ? 'Less than recorded' : 'As recorded';
  return sentence(`${lead}, ${says.charAt(0).toLowerCase()}${says.slice(1)}`, [], ...(cure ? [cure] : []));
}

/** "The machine cannot be posed here, for servo 2's link misses by 1.3 mm": which part, and by how much. */
export function unreachableSays(machine: Rig, { path, short }: Unreachable): string {
  return `The machine cannot be posed here, for ${partName(machine, path)} misses by ${number(short, short < 1 ? 2 : 1)} mm`;
}

function withoutCause(record: Rig, changes: readonly Change[], cause: Cause, mode: string | undefined): StickEffects | undefined {
  const rest = changes.filter((change) => !cause.changes.includes(change));
  const effects = stickEffects(applyChanges(record, rest), mode);
  return 'stick' in effects ? effects : undefined;
}

function responsible(finding: Finding, asIs: StickEffects, causes: Cause[], without: (StickEffects | undefined)[]): string[] {
  if (causes.length === 1) return [(causes[0] as Cause).says];
  const whole = finding.sizeIn(asIs);
  const mended = causes.map((cause, k) => {
    const left = without[k];
    return { says: cause.says, share: left ? whole - finding.sizeIn(left) : whole };
  });
  const most = Math.max(...mended.map(({ share }) => share));
  const named = mended.filter(({ share }) => share > 0 && share >= most / 4).sort((a, b) => b.share - a.share);
  // Where no cause alone mends anything (two that hide each other), all are named.
  return (named.length > 0 ? named : mended).map(({ says }) => says);
}

function findingsOf(record: StickEffects, asIs: StickEffects, changed: boolean): Finding[] {
  const findings: Finding[] = [];
  const put = (finding: Finding | undefined): void => {
    if (finding) findings.push(finding);
  };
  put(lean(asIs));
  for (const stick of ['elevator', 'aileron'] as const) {
    put(turned(stick, record, asIs));
    if (changed) put(strength(stick, record, asIs));
  }
  put(collectiveAnswer(record, asIs));
  put(collectiveTips(asIs));
  put(bladesApart(asIs));
  put(zeroPitch(asIs));
  return findings;
}

function lean(asIs: StickEffects): Finding | undefined {
  const size = length(asIs.standing);
  if (size < LEAN_DEG) return undefined;
  const added = asIs.elevator.ring[1];
  return {
    says: `Before the stick moves the swashplate leans ${leanWords(asIs.standing)}`,
    weight: 10 + size,
    sizeIn: ({ standing }) => along(asIs.standing, standing),
    figureIn: ({ standing }) => leanWords(standing),
    // Where elevator does turn the machine, its own sentence says so, and this one does not belittle it.
    ...(Math.abs(added) < 0.1 * Math.abs(asIs.elevator.ring[0])
      ? { tail: `elevator itself adds ${number(Math.abs(added), 2) === '0' ? 'nothing' : number(Math.abs(added), 2)}` }
      : {}),
  };
}

type Stick = 'elevator' | 'aileron';
const PUSHED = { elevator: 'Forward elevator', aileron: 'Right aileron' } as const;
const ASKED: Record<Stick, Tilt> = { elevator: [1, 0], aileron: [0, 1] };

/** What a cyclic stick does to the machine in flight: the disc's own tilt where it is known, else the swashplate's. */
const answerOf = (effect: StickEffect): Tilt => effect.disc ?? effect.ring;

/** Degrees, clockwise seen from above, by which a stick's answer is turned from what it asks for. */
const turnOf = (stick: Stick, effects: StickEffects): number => turnDeg(ASKED[stick], answerOf(effects[stick]));

/** A cyclic stick whose answer goes another way than the stick. */
function turned(stick: Stick, record: StickEffects, asIs: StickEffects): Finding | undefined {
  const turn = turnOf(stick, asIs);
  const size = Math.abs(turn);
  if (size <= TURNED_DEG || length(answerOf(asIs[stick])) < NOTHING_DEG) return undefined;
  const verb = acrossVerb(stick, turn);
  const percent = (deg: number): string => `${number(100 * Math.abs(Math.tan(radOf(deg))), 0)} percent`;
  const also = size <= ACROSS_DEG;
  const says =
    size > BACKWARDS_DEG
      ? `${PUSHED[stick]} ${backVerb(stick)}`
      : also
        ? `${PUSHED[stick]} also ${verb}, by ${percent(turn)}`
        : `${PUSHED[stick]} ${verb}`;
  return {
    says,
    weight: size > ACROSS_DEG ? 50 + size / 10 : 5 + size / 4,
    sizeIn: (effects) => turnTowards(turn, turnOf(stick, effects)),
    figureIn: (effects) => {
      const other = turnOf(stick, effects);
      return also ? percent(other) : `${number(Math.abs(other), 0)} degrees out of line`;
    },
    cure: `its disc answers ${number(size, 0)} degrees out of line${phaseCures(record) ? ', which phase would cure' : ''}`,
  };
}

/** How far `other` is turned the way that `turn` is: half a turn round, neither way is nearer, and none of it is the same. */
function turnTowards(turn: number, other: number): number {
  const apart = wrapDeg(turn - other);
  return Math.abs(apart) < 90 ? Math.sign(turn) * (turn - apart) : Math.abs(turn) - Math.abs(apart);
}

/** Phase turns both sticks' answers alike, so that it cures a turn that both have. */
const phaseCures = (effects: StickEffects): boolean =>
  Math.abs(wrapDeg(turnOf('elevator', effects) - turnOf('aileron', effects))) < TURNED_DEG;

/** A cyclic stick that does more or less than recorded. */
function strength(stick: Stick, record: StickEffects, asIs: StickEffects): Finding | undefined {
  const perStick = (effects: StickEffects): number => length(answerOf(effects[stick])) / effects.stick;
  const recorded = perStick(record);
  const ratio = perStick(asIs) / (recorded || 1);
  const way = Math.sign(ratio - 1);
  const sizeIn = (effects: StickEffects): number => way * Math.log(Math.max(1e-6, perStick(effects) / (recorded || 1)));
  if (ratio < 0.05) return { says: `${PUSHED[stick]} does next to nothing`, weight: 60, sizeIn };
  if (Math.abs(ratio - 1) <= SIZE_RATIO) return undefined;
  return {
    says: `${PUSHED[stick]} tilts the disc ${number(ratio, 2)} times as far as recorded`,
    weight: 3 + Math.abs(ratio - 1),
    sizeIn,
  };
}

function collectiveAnswer(record: StickEffects, asIs: StickEffects): Finding | undefined {
  const got = asIs.collective.pitch / asIs.stick;
  const recorded = record.collective.pitch / record.stick;
  const way = Math.sign(got - recorded);
  const size = (effects: StickEffects): number => way * (effects.collective.pitch / effects.stick - recorded);
  if (got * recorded < 0) return { says: 'More collective takes pitch off the blades', weight: 70, sizeIn: size };
  const ratio = got / (recorded || got || 1);
  if (Math.abs(ratio - 1) <= SIZE_RATIO) return undefined;
  return {
    says: `Collective moves the blades ${number(ratio, 2)} times as far as recorded`,
    weight: 3 + Math.abs(ratio - 1),
    sizeIn: size,
  };
}

function collectiveTips(asIs: StickEffects): Finding | undefined {
  const { ring } = asIs.collective;
  if (length(ring) < 2 * LEAN_DEG) return undefined;
  return {
    says: `More collective tips the swashplate ${leanWords(ring)}`,
    weight: 8 + length(ring),
    sizeIn: (effects) => along(ring, effects.collective.ring),
    figureIn: (effects) => leanWords(effects.collective.ring),
  };
}

function bladesApart(asIs: StickEffects): Finding | undefined {
  const high = asIs.blades.indexOf(Math.max(...asIs.blades));
  const low = asIs.blades.indexOf(Math.min(...asIs.blades));
  const apart = ({ blades }: StickEffects): number => (blades[high] ?? Number.NaN) - (blades[low] ?? Number.NaN);
  const size = apart(asIs);
  if (size < PITCH_DEG) return undefined;
  return {
    says: `Blade ${high + 1} stands ${degrees(size)} higher than blade ${low + 1}`,
    weight: 6 + size,
    sizeIn: apart,
    figureIn: (effects) => degrees(apart(effects)),
  };
}

function zeroPitch(asIs: StickEffects): Finding | undefined {
  if (Math.abs(asIs.zero) < PITCH_DEG) return undefined;
  const sign = asIs.zero > 0 ? '+' : '-';
  return {
    says: `At mid-stick blade 1 stands at ${sign}${degrees(Math.abs(asIs.zero))} of pitch`,
    weight: 2 + Math.abs(asIs.zero) / 4,
    sizeIn: ({ zero }) => Math.sign(asIs.zero) * zero,
    figureIn: ({ zero }) => `${sign}${degrees(Math.abs(zero))}`,
  };
}

/** What of a document the main rotor never feels. */
const TAIL_PATH = /^\/(tail|transmitter\/rudder|transmitter\/rates\/rudder)(\/|$)/;

function trueSays(asIs: StickEffects, changes: readonly Change[]): string {
  const [forward, right] = asIs.elevator.ring;
  const part = asIs.stick === 1 ? 'Full forward elevator' : `Elevator ${number(asIs.stick * 100, 0)} percent forward`;
  const aside = Number(right.toFixed(2)) === 0 ? 'not at all' : number(Math.abs(right), 2);
  const so = `${part} tilts the swashplate ${degrees(Math.abs(forward))} ${forward >= 0 ? 'forward' : 'back'} and ${aside} to the side`;
  if (changes.length === 0) return `${so}: the machine answers true.`;
  if (changes.every(({ path }) => TAIL_PATH.test(path))) return `${so}: the head answers true, for only the tail was changed.`;
  return `${so}: what was changed makes no difference that these sticks would show.`;
}

/** "2.5 degrees right and 1.4 forward": the larger first; the smaller only where it is a quarter of it or more. */
function leanWords([forward, right]: Tilt): string {
  const parts = [
    { size: Math.abs(forward), way: forward >= 0 ? 'forward' : 'back' },
    { size: Math.abs(right), way: right >= 0 ? 'right' : 'left' },
  ].sort((a, b) => b.size - a.size) as [{ size: number; way: string }, { size: number; way: string }];
  const [large, small] = parts;
  return `${degrees(large.size)} ${large.way}${small.size >= large.size / 4 ? ` and ${number(small.size, 1)} ${small.way}` : ''}`;
}

const backVerb = (stick: Stick): string => (stick === 'elevator' ? 'tips the machine back' : 'rolls the machine left');

/** Turned clockwise seen from above (positive), a forward answer goes right and a right answer goes back. */
function acrossVerb(stick: Stick, turned: number): string {
  if (stick === 'elevator') return `rolls the machine ${turned > 0 ? 'right' : 'left'}`;
  return `tips the machine ${turned > 0 ? 'back' : 'forward'}`;
}

/** Degrees by which `got` is turned from `asked`, clockwise seen from above. */
function turnDeg([af, ar]: Tilt, [gf, gr]: Tilt): number {
  return degOf(Math.atan2(af * gr - ar * gf, af * gf + ar * gr));
}

const length = ([forward, right]: Tilt): number => Math.hypot(forward, right);

/** How much of `other` lies in the direction of `tilt`. */
const along = (tilt: Tilt, other: Tilt): number => (tilt[0] * other[0] + tilt[1] * other[1]) / length(tilt);

/** "What is so: its causes; whatever else is to be said of it." */
function sentence(says: string, causes: readonly string[], ...rest: string[]): string {
  const parts = causes.length === 0 ? rest : [causes.join(', and '), ...rest];
  return `${says}${parts.length === 0 ? '' : ': '}${parts.join('; ')}.`;
}
