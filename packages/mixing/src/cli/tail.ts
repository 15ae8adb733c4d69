/** `tail`: the tail as it stands, in words, and what makes both sides free and slider travel equal. */
import type { PredictedTail } from '../rig/predict.ts';
import type { Rig } from '../rig/rig.ts';
import { NoTailError, type TailCheck, tailCheck, tailIsWell } from '../tail/check.ts';
import { TAIL_CAUTIONS } from '../tail/check-words.ts';
import { nameOf, readRigFile } from './input.ts';
import { LineWriter } from './lines.ts';
import { refusalOf } from './refusal.ts';
import type { Streams } from './streams.ts';
import { fixed, signed, table } from './words.ts';

/** Gives the exit status: 1 where a sense is wrong, an end binds or cannot be reached, or the sides are unequal. */
export async function runTail(file: string, options: { json?: boolean }, streams: Streams): Promise<number> {
  const rig = await readRigFile(file, streams);
  const found = checkOrRefuse(rig, file);
  const out = new LineWriter(streams.stdout);
  if (options.json === true) out.line(JSON.stringify(found));
  else {
    // Cautions come before anything that a hand does.
    for (const says of TAIL_CAUTIONS) out.line(`! ${says}`);
    for (const line of inWords(found)) out.line(line);
  }
  await out.end();
  return tailIsWell(found) ? 0 : 1;
}

function checkOrRefuse(rig: Rig, file: string): TailCheck {
  try {
    return tailCheck(rig);
  } catch (error) {
    if (error instanceof NoTailError) throw refusalOf(nameOf(file), [error]);
    throw error;
  }
}

function inWords({ rudder, gyro, left, centre, right, equal, says, adjustments }: TailCheck): string[] {
  const lines = [
    `rudder: ${rudder}; gyro: ${gyro}; slider travel: ${equal ? 'equal' : 'not equal'}`,
    table([
      ['', 'pulse', 'horn', 'slider', 'past', 'pitch'],
      ['full left rudder', ...cells(left)],
      ['mid-stick', ...cells(centre)],
      ['full right rudder', ...cells(right)],
      ['', 'µs', 'deg', 'mm', 'mm', 'deg'],
    ]),
  ];
  if ([left, centre, right].some((end) => end.saturated)) lines.push('  ! held by a limit of the output or of the gyro');
  lines.push(...says);
  if (adjustments.length > 0) lines.push('To turn, in this order:');
  adjustments.forEach((step, i) => {
    const { after } = step;
    lines.push(`${i + 1}. ${step.says} (${step.path})`);
    lines.push(
      `     then the slider stands at ${sliderOf(after.left)} left, ${sliderOf(after.centre)} mid-stick, ${sliderOf(after.right)} right`,
    );
  });
  return lines;
}

const cells = ({ pulse, saturated, horn, slider, past, pitch }: PredictedTail) => [
  `${fixed(pulse, 1)}${saturated ? '!' : ''}`,
  ...[horn, slider, past, pitch].map((value) => (value === undefined ? 'none' : signed(value, 2))),
];

function sliderOf({ slider, past }: PredictedTail): string {
  if (slider === undefined) return 'out of reach';
  return `${signed(slider, 2)}${past === undefined || past === 0 ? '' : ' (at its stop)'}`;
}
