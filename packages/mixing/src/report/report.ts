/**
 * The sheet to print and keep: one machine's settings, lengths, readings and coupling, what was turned, and what is
 * looked at by hand before it flies. Self-contained HTML without a script; everything a person wrote is escaped.
 *
 * As found is the record with every setting that was seen to stand otherwise before the first change, and, where a setting
 * was replaced by a change, with what it is believed to have been; as left is that with every change that the readings
 * document says was made.
 */
import { htmlEscape } from 'escape-goat';
import type { Diagnosis } from '../diagnosis/diagnosis.ts';
import type { ReadingsDocument } from '../diagnosis/readings.ts';
import type { Plan } from '../plan/plan.ts';
import { applyChanges, type Change, ChangeError } from '../rig/changes.ts';
import type { Rig } from '../rig/rig.ts';
import { type Block, block, list, rows, safe, section } from './html.ts';
import { couplingSection, lengthsSection, settingsSection, turnedSection } from './machine-sections.ts';
import { believedSection, planSection, readingsSection } from './reading-sections.ts';
import { SHEET_STYLE } from './sheet-style.ts';

export interface ReportInput {
  /** the record as it stood before the first reading */
  record: Rig;
  readings?: ReadingsDocument;
  diagnosis?: Diagnosis;
  plan?: Plan;
  /** what the head of the sheet says of when it was made, as "2026-05-04 18:20" */
  made: string;
}

export const CAUTIONS: readonly string[] = [
  'Motor leads unplugged and insulated for every reading and every step. A hold switch is no disconnection.',
  'Blades on only for readings. Gauge off before any stick goes to its end.',
  'Machine held fast, people clear of the rotor discs, fingers out of the linkage while it is powered.',
  'These figures are geometry. Your local code and your model-flying association come first; where they want a licensed hand, stop.',
];

export const HAND_TESTS: readonly string[] = [
  'Collective up: both blades rise together, the swashplate stays level.',
  'Elevator forward: the swashplate tips forward, and only forward.',
  'Aileron right: the swashplate tips right, and only right.',
  'Rudder right: the tail blades turn so that the nose would swing right.',
  'Stabiliser on, tip the nose down by hand: the swashplate must tilt back.',
  'Stabiliser on, roll the machine right by hand: the swashplate must tilt left.',
  'Gyro on, swing the nose left by hand: the tail answers as to right rudder. The other way, it would spin as it lifts.',
];

export const LAST_LOOKS: readonly string[] = [
  'Horn screws in, every servo.',
  'Ball links: marked faces outward, none tight, none loose, none bent.',
  'Wiring clear of links, horns and levers through the whole travel.',
  'Every corner of the sticks free of binding, by sound, gauge off.',
  'Blade bolts, blade balance, spindle and grips.',
  'After the first flight: links, screws and blade tracking again.',
];

/** Changes that the readings document says were made, in their order. */
export function changesMade(readings: ReadingsDocument | undefined): Change[] {
  return (readings?.readings ?? []).flatMap((item): Change[] => {
    if (item.kind !== 'adjusted') return [];
    return item.by === undefined ? [{ path: item.path, to: item.to }] : [{ path: item.path, by: item.by }];
  });
}

/** The record as the machine was found. What was looked at goes before what is believed. */
function asFound(record: Rig, readings: ReadingsDocument | undefined, diagnosis: Diagnosis | undefined): Rig {
  const items = readings?.readings ?? [];
  const first = items.findIndex(({ kind }) => kind === 'adjusted');
  const seen = new Map<string, unknown>();
  for (const item of first < 0 ? items : items.slice(0, first)) if (item.kind === 'seen') seen.set(item.path, item.value);
  const replaced = new Set(items.flatMap((item) => (item.kind === 'adjusted' && item.by === undefined ? [item.path] : [])));
  for (const { path, machine, document } of diagnosis?.causes[0]?.changes ?? []) {
    if (document === undefined && replaced.has(path) && !seen.has(path)) seen.set(path, machine);
  }
  // Together: one lead alone would share its output with another.
  return asLeft(
    record,
    [...seen].map(([path, to]) => ({ path, to })),
  );
}

/** The machine's record as left, or as found where a change no longer fits it. */
function asLeft(record: Rig, changes: readonly Change[]): Rig {
  try {
    return applyChanges(record, changes);
  } catch (error) {
    if (error instanceof ChangeError) return record;
    throw error;
  }
}

/** What the sheet says, as HTML to be put into a page that has `SHEET_STYLE`. */
export function reportBody({ record, readings, diagnosis, plan, made }: ReportInput): string {
  const changes = changesMade(readings);
  const found = asFound(record, readings, diagnosis);
  const left = asLeft(found, changes);
  const blocks: Block[] = [
    block`<header><div><h1>${record.name}</h1><p class="soft">Set-up sheet, made ${made}</p></div>
      <p>Mechanic <span class="pen"></span></p></header>`,
    block`<section class="cautions"><h2>Before anything is touched</h2>${list(CAUTIONS)}</section>`,
    turnedSection(found, changes),
    plan ? planSection(record, plan) : safe(''),
    diagnosis ? believedSection(diagnosis) : safe(''),
    settingsSection(found, left),
    lengthsSection(found, left),
    couplingSection(left),
    readings ? readingsSection(record, readings) : safe(''),
    section('Hand tests', list(HAND_TESTS, 'boxes')),
    section('Last looks', list(LAST_LOOKS, 'boxes')),
    section(
      'Notes',
      rows(
        ['', ''],
        [
          ['', ''],
          ['', ''],
          ['', ''],
        ],
      ),
    ),
  ];
  return `<main class="sheet">${blocks.map(({ html }) => html).join('\n')}</main>`;
}

/** The whole sheet as an HTML document that needs nothing beside it. */
export function reportHtml(input: ReportInput): string {
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">
<title>${htmlEscape(input.record.name)}: set-up sheet</title><style>${SHEET_STYLE}</style></head>
<body>${reportBody(input)}</body></html>
`;
}
