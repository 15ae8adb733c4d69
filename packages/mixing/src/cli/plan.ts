/** `plan`: what to turn, in which order, and what the gauge then shows. */
import { unitOfMeasure } from '../diagnosis/readings-schema.ts';
import type { Foretold } from '../plan/foretell.ts';
import { type Plan, plan } from '../plan/plan.ts';
import { procedureFor } from '../plan/procedure.ts';
import { chanceInWords } from '../plan/words.ts';
import { targetsDocument } from '../plan/targets-document.ts';
import type { Rig } from '../rig/rig.ts';
import { placeInWords } from '../report/reading-sections.ts';
import { readBench } from './bench.ts';
import { onceStdin, readDocument } from './input.ts';
import { LineWriter } from './lines.ts';
import type { Streams } from './streams.ts';
import { fixed, signed, table } from './words.ts';

export interface PlanOptions {
  targets?: string;
  json?: boolean;
}

/** Readings shown after each step in words; `--json` gives all of them. */
const SHOWN_AFTER = 3;

/** Gives the exit status: 1 where the machine, so adjusted, more likely than not still misses the targets. */
export async function runPlan(rig: string, readingsFile: string, options: PlanOptions, streams: Streams): Promise<number> {
  onceStdin(rig, readingsFile, options.targets);
  const { record, readings } = await readBench(rig, readingsFile, streams);
  const targets =
    options.targets === undefined ? undefined : await readDocument(targetsDocument(record), options.targets, streams);
  const found = plan(record, readings, targets);
  const out = new LineWriter(streams.stdout);
  if (options.json === true) out.line(JSON.stringify(found));
  else {
    // Cautions come before anything that a hand does, in words as in the order of the steps.
    for (const { stage, says } of procedureFor(record)) if (stage === 'cautions') out.line(`! ${says}`);
    for (const line of inWords(record, found)) out.line(line);
  }
  await out.end();
  return found.meets.chance >= 0.5 ? 0 : 1;
}

function inWords(record: Rig, { replace, adjustments, after, meets, says }: Plan): string[] {
  const lines = replace.map(({ says }) => `First: ${says}`);
  lines.push(says === '' && adjustments.length === 0 ? 'Nothing to turn.' : says);
  adjustments.forEach((step, i) => {
    lines.push(`${i + 1}. ${step.says}`);
    for (const foretold of step.after.slice(0, SHOWN_AFTER)) {
      lines.push(`     then ${shownInWords(record, foretold)}`);
    }
  });
  if (after.length > 0) {
    lines.push('At the end:');
    lines.push(table(after.map((foretold) => [shownInWords(record, foretold)])));
  }
  const each = Object.entries(meets).filter(([name]) => name !== 'chance');
  lines.push(
    `Chance that all targets are then met: ${chanceInWords(meets.chance)} (${each.map(([name, value]) => `${name} ${chanceInWords(value)}`).join(', ')})`,
  );
  return lines;
}

/** "pitch of blade 1, mid-stick: +3.2 deg, give or take 0.4" */
function shownInWords(record: Rig, foretold: Foretold): string {
  const { measure, value, sd } = foretold;
  return `${placeInWords(record, foretold)}: ${signed(value, 1)} ${unitOfMeasure(measure) === 'mm' ? 'mm' : 'deg'}, give or take ${fixed(sd, 1)}`;
}
