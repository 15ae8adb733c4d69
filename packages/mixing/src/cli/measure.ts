/** `measure`: what to measure of a machine whose record is not known, in which order, how well, and what each unknown costs. */
import { BY_EYE_DEG, type Dimension, measuringUp } from '../diagnosis/measuring-up.ts';
import { readRigFile } from './input.ts';
import { LineWriter } from './lines.ts';
import type { Streams } from './streams.ts';
import { fixed, table } from './words.ts';

const UNIT_WORDS: Readonly<Record<string, string>> = { degree: 'deg', 'degree/us': 'deg/µs' };

export async function runMeasure(file: string, options: { json?: boolean }, streams: Streams): Promise<number> {
  const found = measuringUp(await readRigFile(file, streams));
  const out = new LineWriter(streams.stdout);
  if (options.json === true) out.line(JSON.stringify(found));
  else {
    const told = found.dimensions.filter(({ cost }) => cost.guessed >= BY_EYE_DEG);
    out.line(
      'Motor leads unplugged and insulated. Settings are read off the transmitter first; then, what tells most for its minutes first:',
    );
    out.line(
      table([
        ['', 'how well', 'guessed, costs', 'measured', 'then left'],
        ...told.map((one, i) => [`${String(i + 1).padStart(2)}  ${one.says}: ${one.how}`, ...costs(one)]),
      ]),
    );
    out.line(
      `Costs are degrees of the reading that is put out most, one standard deviation; all guessed, ${fixed(found.guessed, 1)} deg.`,
    );
    const rest = found.dimensions.length - told.length;
    if (rest > 0) out.line(`The other ${rest} move no reading by ${BY_EYE_DEG} deg: by eye will do.`);
    out.line('Heights and links add up to one sum: read level and pitch at mid-stick, which tell it better than a rule.');
    out.line('Write what was measured into the draft, and how well under "known": [{"path": ..., "sd": ...}].');
  }
  await out.end();
  return 0;
}

function costs({ sd, unit, cost, left }: Dimension): string[] {
  const deg = (value: number) => `${fixed(value, 2)} deg`;
  return [`${sd} ${UNIT_WORDS[unit] ?? unit}`, deg(cost.guessed), deg(cost.measured), deg(left)];
}
