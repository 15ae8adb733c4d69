/** `diagnose`: what is wrong with the machine, by what was read at the bench. */
import { diagnose } from '../diagnosis/index.ts';
import { chanceInWords } from '../plan/words.ts';
import { placeInWords } from '../report/reading-sections.ts';
import { readBench } from './bench.ts';
import { describePath } from '../rig/describe.ts';
import { LineWriter } from './lines.ts';
import type { Streams } from './streams.ts';
import { signed, table } from './words.ts';

/** Causes, next readings and faults that nothing noted would show, in words; `--json` gives all of them. */
const SHOWN_CAUSES = 8;
const SHOWN_NEXT = 3;
const SHOWN_UNSEEN = 4;

export async function runDiagnose(
  rig: string,
  readingsFile: string,
  options: { json?: boolean },
  streams: Streams,
): Promise<number> {
  const { record, readings } = await readBench(rig, readingsFile, streams);
  const found = diagnose(record, readings);
  const out = new LineWriter(streams.stdout);
  if (options.json === true) out.line(JSON.stringify(found));
  else {
    const { causes, alike, next, outliers, unseen } = found;
    out.line('Likeliest first:');
    out.line(
      table(
        causes
          .slice(0, SHOWN_CAUSES)
          .map(({ probability, says }, i) => [
            `${String(i + 1).padStart(2)}  ${chanceInWords(probability).padStart(9)}  ${says}`,
          ]),
      ),
    );
    const together = alike.map((group) => group.filter((i) => i < SHOWN_CAUSES)).filter((group) => group.length > 1);
    for (const group of together) out.line(`No reading so far tells ${group.map((i) => i + 1).join(', ')} apart.`);
    for (const i of outliers) {
      const item = readings.readings[i];
      if (item?.kind === 'reading')
        out.line(
          `Item ${i + 1} fits nothing and is taken for wrong: ${placeInWords(record, item.reading)}, ${signed(item.reading.value, 1)}.`,
        );
    }
    const hidden = [...new Set(unseen.map((path) => describePath(record, path)))];
    if (hidden.length > 0) {
      const more = hidden.length - SHOWN_UNSEEN;
      out.line(
        `Not ruled out, for nothing noted so far would show it: ${hidden.slice(0, SHOWN_UNSEEN).join(', ')}${more > 0 ? `, and ${more} more` : ''}.`,
      );
    }
    if (next.length > 0) {
      out.line('What would tell most:');
      for (const { says } of next.slice(0, SHOWN_NEXT)) out.line(`  ${says}`);
    }
  }
  await out.end();
  return 0;
}
