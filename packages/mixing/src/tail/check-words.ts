/** A tail check in sentences: which way stick and gyro go, how the gain reads, where the slider stands and where it binds. */
import { degOf, radOf, wrapRad } from '../quantities/angles.ts';
import { describePath } from '../rig/describe.ts';
import { linkStepOf } from '../rig/link-step.ts';
import type { PredictedTail } from '../rig/predict.ts';
import type { Gyro } from '../rig/rig.ts';
import type { TailCheck } from './check.ts';
import { MOST_ROD_MM, standsWell } from './check-cures.ts';
import { number } from './check-numbers.ts';
import { answers, commandedMm, EQUAL_MM, gyroEndsFree, isFree, squareRodMm, type TailRig, unevenMm } from './check-state.ts';
import { signedGainPercent } from './tail.ts';

/** What to mind before any of it is tried on the machine. */
export const TAIL_CAUTIONS: readonly string[] = [
  'Unplug the motor leads and insulate them before the radio is switched on; take the tail blades off, or keep people and hands clear of them.',
  'Keep fingers out of horn, lever and slider: a gyro moves them without the stick. Ease a full stick in; a servo that hums at an end binds there.',
  'Try stick and gyro by hand after every change and before every first flight of the day. Local rules and licensed practice come before anything here.',
];

type Unsaid = Omit<TailCheck, 'says'>;

export function tailSays(rig: TailRig, check: Unsaid): string[] {
  return [
    rudderSays(check),
    ...gyroSays(rig, check),
    ...centreSays(rig, check.centre),
    ...endSays(rig, 'left', check.left),
    ...endSays(rig, 'right', check.right),
    ...travelSays(check),
    ...gyroEndSays(rig, check),
    ...curesSay(rig, check),
  ];
}

function rudderSays({ rudder, centre, right }: Unsaid): string {
  const shown =
    centre.pitch === undefined || right.pitch === undefined
      ? ''
      : ` (full stick takes it from ${number(centre.pitch, 1)} to ${number(right.pitch, 1)} degrees)`;
  if (rudder === 'right way')
    return `Rudder goes the right way: right rudder raises tail pitch${shown}, which swings the nose right.`;
  if (rudder === 'reversed') return `Rudder is reversed: right rudder lowers tail pitch${shown}, which swings the nose left.`;
  return 'Which way rudder goes cannot be told: the stick moves nothing, or the tail blades cannot be posed.';
}

function gyroSays(rig: TailRig, check: Unsaid): string[] {
  const { gyro } = rig.tail;
  if (!gyro) return ['The record has no gyro: nothing answers a swing of the nose but the pilot.'];
  const HAND = 'Swing the nose to the left by hand, motor unplugged:';
  // Compared with a stick that is itself reversed, a good gyro looks bad.
  const stick = check.rudder === 'reversed' ? ' (once the stick is cured; as it is, the other way)' : '';
  const answer = {
    corrects: `The gyro corrects. ${HAND} tail pitch rises, as it is to with right rudder${stick}, and falls when the nose is swung right.`,
    worsens: `The gyro worsens a swing: it is reversed. ${HAND} tail pitch falls, as it is to with left rudder${stick}, and helps the swing along. A machine with a reversed gyro spins the moment it lifts: do not fly it so.`,
    off: offSays(rig, gyro),
    'no answer': 'Which way the gyro answers cannot be told: the tail blades cannot be posed.',
  }[check.gyro];
  return [answer, gainSays(gyro)];
}

/** An idle gyro may wait with the wrong sense for the day when its gain is turned up. */
function offSays(rig: TailRig, gyro: Gyro): string {
  if (gyro.rate === 0) return 'The gyro is off: its rate is 0, so the tail blades do not answer when the nose is swung by hand.';
  const up = answers({ ...rig, tail: { ...rig.tail, gyro: { ...gyro, gain: 100, scale: 'signed' } } }).gyro;
  const then =
    up === 'with'
      ? ' With its gain turned up it would correct.'
      : up === 'against'
        ? ' With its gain turned up it would worsen every swing: turn its reverse over first.'
        : '';
  return `The gyro is off: the tail blades do not answer when the nose is swung by hand.${then}`;
}

/** Both ways of showing a gain, so that it can be compared with whatever the radio shows. */
function gainSays(gyro: Gyro): string {
  const gain = signedGainPercent(gyro);
  const both = `${signedText(gain)} on a scale from -100 to 100 with 0 off, ${number(50 + gain / 2, 1)} on one from 0 to 100 with 50 off`;
  const here = `${gyro.scale === 'centred' ? 'the second' : 'the first'} is this machine's`;
  if (gain === 0) return `Its gain reads ${both} (${here}): off.`;
  const holds = Math.sign(gain) === gyro.holdSide;
  const side = holds
    ? 'the side that holds heading: on the bench it goes on driving to its limit, so read the centre with the gyro on its other side or off'
    : 'the side of plain rate damping: it answers a swing and lets go when the swing ends';
  return `Its gain reads ${both} (${here}): ${number(Math.abs(gain), 1)} percent on ${side}.`;
}

function centreSays(rig: TailRig, centre: PredictedTail): string[] {
  if (centre.unreachable) {
    const { path, short } = centre.unreachable;
    const square = path === '/tail/rod' ? `; ${number(squareRodMm(rig), 2)} mm is what the lever asks for at its middle` : '';
    return [`At mid-stick the tail cannot be reached: ${describePath(rig, path)} is out by ${number(short, 2)} mm${square}.`];
  }
  const offDeg = degOf(wrapRad(radOf(centre.horn)));
  const horn =
    Math.abs(offDeg) < 0.05 ? 'square' : `${number(Math.abs(offDeg), 1)} degrees ${offDeg > 0 ? 'aft' : 'forward'} of square`;
  return [
    `At mid-stick the horn stands ${horn}, the slider ${number(commandedMm(centre) ?? 0, 2)} mm from its designed middle${bindSays(centre)}.`,
  ];
}

function endSays(rig: TailRig, name: 'left' | 'right', end: PredictedTail): string[] {
  if (end.unreachable) {
    const { path, short } = end.unreachable;
    return [`Full ${name} rudder cannot be reached: ${describePath(rig, path)} is out by ${number(short, 2)} mm.`];
  }
  if (isFree(end)) return [];
  return [`Full ${name} rudder binds${bindSays(end)}.`];
}

function bindSays({ slider = 0, past = 0 }: PredictedTail): string {
  return past === 0 ? '' : `: it asks for ${number(Math.abs(past), 2)} mm past the stop at ${number(slider, 2)} mm`;
}

function travelSays(check: Unsaid): string[] {
  const { left, right, equal } = check;
  const uneven = unevenMm(check);
  if (left.slider === undefined || right.slider === undefined || uneven === undefined) return [];
  const travel = `the slider stands at ${signedText(left.slider)} mm with full left rudder and at ${signedText(right.slider)} with full right`;
  const verdict = equal
    ? `Travel is equal: ${travel} (within ${EQUAL_MM} mm counts as equal).`
    : `Travel is not equal: ${travel}, so that one side goes ${number(Math.abs(uneven), 2)} mm further.`;
  const clear = isFree(left) && isFree(right) ? ' Neither end binds.' : '';
  const limited = [left, right].some((end) => end.saturated)
    ? ' A limit of the output or of the gyro bounds the pulse at an end.'
    : '';
  const pitch =
    left.pitch === undefined || right.pitch === undefined
      ? ''
      : ` Tail pitch is then ${signedText(left.pitch, 1)} and ${signedText(right.pitch, 1)} degrees; unequal pitch is no fault.`;
  return [`${verdict}${clear}${limited}${pitch}`];
}

function gyroEndSays(rig: TailRig, { gyroEnds }: Unsaid): string[] {
  if (gyroEndsFree(gyroEnds)) return [];
  const past = gyroEnds?.past ?? [0, 0];
  const how = past.includes(null)
    ? 'further than the tail closes'
    : `${number(Math.max(...past.map((mm) => Math.abs(mm ?? 0))), 2)} mm past a stop`;
  return [`The gyro's limit of ${number(rig.tail.gyro?.limit ?? 0, 1)} percent lets it drive ${how}, wherever the stick stands.`];
}

/** What the adjustments come to; and where they do not come to all of it, why. */
function curesSay(rig: TailRig, check: Unsaid): string[] {
  const end = check.adjustments.at(-1)?.after ?? check;
  const done = standsWell(end) && check.rudder !== 'no answer' && check.gyro !== 'no answer';
  if (done && check.adjustments.length === 0) return ['Nothing needs turning.'];
  if (done) {
    const slider = `${signedText(end.left.slider ?? 0)}, ${signedText(end.centre.slider ?? 0)} and ${signedText(end.right.slider ?? 0)} mm`;
    return [`With what is to be turned done, the slider stands at ${slider} (left, mid-stick, right), free and equal.`];
  }
  const rodMm = squareRodMm(rig) - rig.tail.rod;
  const reason =
    check.rudder === 'no answer' && end.centre.unreachable === undefined
      ? 'see the rudder stick’s rate and the output’s travel'
      : end.centre.unreachable?.path === '/tail/grip/link'
        ? 'the grip’s link does not close; measure link, arm and spider again'
        : linkStepOf(rig, '/tail/rod') === undefined
          ? `the rod cannot be turned, and is ${number(Math.abs(rodMm), 1)} mm too ${rodMm > 0 ? 'short' : 'long'}`
          : Math.abs(rodMm) > MOST_ROD_MM
            ? `the rod is ${number(Math.abs(rodMm), 1)} mm too ${rodMm > 0 ? 'short' : 'long'}, more than its ends can be turned: cut another, or measure shaft and lever again`
            : 'measure rod, stops and lever again';
  return [`What a hand can turn does not put all of it right: ${reason}.`];
}

const signedText = (value: number, decimals = 2): string =>
  `${Number(value.toFixed(decimals)) > 0 ? '+' : ''}${number(value, decimals)}`;
