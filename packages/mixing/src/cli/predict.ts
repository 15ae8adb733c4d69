/** `predict`: each case through the whole chain, as one JSON line or as a small table. Cases are streamed. */
import { describePath } from '../rig/describe.ts';
import { readCase } from '../rig/case.ts';
import { isUnreachable, predict, type Prediction } from '../rig/predict.ts';
import { prepare } from '../rig/prepare.ts';
import type { Case, Rig, Unreachable } from '../rig/rig.ts';
import { caseFrom, nameOf, onceStdin, openText, parseJson, readRigFile, unreadable } from './input.ts';
import { forEachLine, LineTooLong, LineWriter, LONGEST_LINE } from './lines.ts';
import { refusalOf, refusingCases } from './refusal.ts';
import type { Streams } from './streams.ts';
import { caseInWords, fixed, signed, table } from './words.ts';

export interface PredictOptions {
  case?: string[];
  cases?: string;
  json?: boolean;
}

/** Gives the exit status: 1 where any case cannot be reached. */
export async function runPredict(file: string, options: PredictOptions, streams: Streams): Promise<number> {
  onceStdin(file, options.cases);
  const given = (options.case ?? []).map((json, i) => ({ where: `--case ${i + 1}`, kase: caseFrom(json, `--case ${i + 1}`) }));
  const rig = await readRigFile(file, streams);
  const prepared = prepare(rig);
  const out = new LineWriter(streams.stdout);
  let unreachable = false;
  const answer = (kase: Case, where: string) => {
    const prediction = refusingCases(where, () => predict(prepared, kase));
    unreachable ||= isUnreachable(prediction);
    out.line(options.json === true ? JSON.stringify(prediction) : inWords(rig, prediction));
  };
  for (const { kase, where } of given) answer(kase, where);
  if (options.cases !== undefined) {
    const cases = options.cases;
    try {
      await forEachLine(
        openText(cases, streams),
        (line, number) => {
          if (line.trim() === '') return;
          const where = `${nameOf(cases)}:${number}`;
          const value = parseJson(where, line);
          answer(
            refusingCases(where, () => readCase(value)),
            where,
          );
        },
        () => out.ready(),
      );
    } catch (error) {
      // What was predicted before the bad line stands: whoever reads the lines in order has them.
      await out.end();
      if (!(error instanceof LineTooLong)) throw unreadable(cases, error);
      throw refusalOf(`${nameOf(cases)}:${error.lineNumber}`, [
        {
          pointer: '',
          got: `a line longer than ${LONGEST_LINE} characters`,
          expected: 'one case a line',
          wayOut: 'write each case on a line of its own',
        },
      ]);
    }
  } else if (given.length === 0) answer({}, 'mid-stick');
  await out.end();
  return unreachable ? 1 : 0;
}

function inWords(rig: Rig, prediction: Prediction): string {
  const { swash, blades, harmonics, flybar, tail } = prediction;
  const servos = prediction.servos ?? [];
  const rows = [
    ['', ...rig.servos.map((_, i) => String(i + 1)), ''],
    ['output pulse', ...prediction.outputs.map(({ pulse, saturated }) => `${fixed(pulse, 1)}${saturated ? '!' : ''}`), 'µs'],
    ['servo horn', ...servos.map((servo) => signed(servo.horn, 2)), 'deg'],
  ];
  if (servos.some((servo) => servo.lever !== undefined)) {
    rows.push(['lever', ...servos.map((servo) => (servo.lever === undefined ? '' : signed(servo.lever, 2))), 'deg']);
  }
  const lines = [caseInWords(prediction.case), table(rows)];
  if (prediction.outputs.some((output) => output.saturated)) lines.push('  ! the output is at its limit');
  if (swash !== undefined) {
    lines.push(
      `  swashplate height ${fixed(swash.height, 3)} mm, fore-aft tilt ${signed(swash.foreAft, 3)} deg, side tilt ${signed(swash.side, 3)} deg`,
    );
  }
  if (flybar !== undefined) {
    lines.push(
      `  washout height ${fixed(flybar.washout, 3)} mm, paddle ${signed(flybar.paddle, 3)} deg, teeter ${signed(flybar.teeter, 3)} deg`,
    );
    lines.push(`  washout arms ${pairOf(flybar.washoutArms)} deg, mixing arms ${pairOf(flybar.mixingArms)} deg`);
  }
  if (blades !== undefined) lines.push(`  blade pitch ${blades.map((blade) => signed(blade.pitch, 3)).join(', ')} deg`);
  if (harmonics !== undefined) {
    lines.push(
      'unreachable' in harmonics
        ? `  over a revolution: ${tooShort(rig, harmonics.unreachable)}`
        : `  over a revolution: collective ${signed(harmonics.collective, 3)}, longitudinal ${signed(harmonics.longitudinal, 3)}, lateral ${signed(harmonics.lateral, 3)}, residual ${fixed(harmonics.residual, 3)} deg`,
    );
  }
  if (prediction.unreachable !== undefined) lines.push(`  ${tooShort(rig, prediction.unreachable)}`);
  if (tail !== undefined) {
    const start = `  tail pulse ${fixed(tail.pulse, 1)}${tail.saturated ? '!' : ''} µs, horn ${signed(tail.horn, 2)} deg`;
    const slid = tail.slider === undefined ? '' : `, slider ${signed(tail.slider, 3)} mm`;
    const past =
      tail.past === undefined || tail.past === 0 ? '' : ` (a command ${fixed(Math.abs(tail.past), 3)} mm past its stop)`;
    const pitch = tail.pitch === undefined ? '' : `, pitch ${signed(tail.pitch, 3)} deg`;
    lines.push(`${start}${slid}${past}${pitch}`);
    if (tail.unreachable !== undefined) lines.push(`  tail: ${tooShort(rig, tail.unreachable)}`);
  }
  return lines.join('\n');
}

const pairOf = ([first, second]: readonly [number, number]) => `${signed(first, 2)} and ${signed(second, 2)}`;

const tooShort = (rig: Rig, { path, short }: Unreachable) =>
  `cannot be reached: ${describePath(rig, path)} (${path}) is out by ${fixed(short, 3)} mm`;
