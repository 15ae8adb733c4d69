/** What the sheet says of the machine: what was turned, settings and lengths as found and as left, coupling. */
import { coupling, type CrossCoupling, type Matrix3 } from '../coupling/coupling.ts';
import { applyChange, type Change, ChangeError, valueAt } from '../rig/changes.ts';
import { describePath, unitAt } from '../rig/describe.ts';
import { prepare } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { type Block, block, rows, section } from './html.ts';

/** A value as a person reads it, with its unit. */
export function valueInWords(value: unknown, unit: string): string {
  if (value === undefined) return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') {
    const text = Number.isInteger(value) ? String(value) : String(Number(value.toFixed(unit === 'mm' ? 2 : 1)));
    return unit === '' ? text : `${text} ${unitInWords(unit)}`;
  }
  if (Array.isArray(value))
    return value.map((part) => valueInWords(part, '')).join(', ') + (unit === '' ? '' : ` ${unitInWords(unit)}`);
  return String(value);
}

const UNIT_WORDS: Readonly<Record<string, string>> = {
  degree: '°',
  us: 'µs',
  percent: '%',
  'degree/us': '°/µs',
  'us/(degree/s)': 'µs per °/s',
};
const unitInWords = (unit: string): string => UNIT_WORDS[unit] ?? unit;

/** Each change in its order, with the value before and after it. */
export function turnedSection(record: Rig, changes: readonly Change[]): Block {
  if (changes.length === 0) return section('What was turned', block`<p>Nothing was turned.</p>`);
  let machine = record;
  const lines = changes.map((change) => {
    const unit = unitAt(change.path);
    const before = valueInWords(valueAt(machine, change.path), unit);
    try {
      machine = applyChange(machine, change);
    } catch (error) {
      if (!(error instanceof ChangeError)) throw error;
      return [describePath(machine, change.path), before, 'no longer fits the record'];
    }
    return [describePath(machine, change.path), before, valueInWords(valueAt(machine, change.path), unit)];
  });
  return section('What was turned', rows(['part', 'before|n', 'after|n'], lines));
}

/** A row a path: as found, and as left where that differs. */
function foundAndLeft(record: Rig, left: Rig, paths: readonly string[]): Block {
  const lines = paths
    .filter((path) => valueAt(record, path) !== undefined || valueAt(left, path) !== undefined)
    .map((path) => {
      const unit = unitAt(path) || unitAt(`${path}/0`);
      const found = valueInWords(valueAt(record, path), unit);
      const now = valueInWords(valueAt(left, path), unit);
      return [describePath(record, path), found, found === now ? 'the same' : now];
    });
  return rows(['', 'as found|n', 'as left|n'], lines);
}

export function settingsSection(record: Rig, left: Rig): Block {
  const outputs = [0, 1, 2].flatMap((j) =>
    ['reverse', 'neutral', 'subtrim', 'travel', 'limits'].map((key) => `/transmitter/outputs/${j}/${key}`),
  );
  const paths = [
    ...record.transmitter.flightModes.map((_, i) => `/transmitter/flightModes/${i}/pitchCurve`),
    ...['elevator', 'aileron', 'rudder'].flatMap((stick) => [
      `/transmitter/rates/${stick}/rate`,
      `/transmitter/rates/${stick}/expo`,
    ]),
    ...['azimuths', 'collective', 'elevator', 'aileron', 'phase', 'cyclicLimit'].map((key) => `/transmitter/mix/${key}`),
    ...outputs,
    ...(record.tail
      ? [
          ...['reverse', 'neutral', 'subtrim', 'travel', 'limits'].map((key) => `/transmitter/rudder/${key}`),
          ...['gain', 'reverse', 'limit'].map((key) => `/tail/gyro/${key}`),
        ]
      : []),
  ];
  return section('Settings', foundAndLeft(record, left, paths));
}

export function lengthsSection(record: Rig, left: Rig): Block {
  const servos = record.servos.flatMap((_, i) =>
    ['output', 'horn/tooth', 'horn/length', 'pushrod', 'link'].map((key) => `/servos/${i}/${key}`),
  );
  const pairs = (key: string) => [0, 1].map((k) => `${key}/${k}`);
  const flybar = record.flybar ? ['/flybar/washout/links', '/flybar/washout/rods', '/flybar/mixing/rods'].flatMap(pairs) : [];
  const paths = [...servos, ...record.rotor.links.map((_, k) => `/rotor/links/${k}`), ...flybar];
  return section('Lengths, horns and leads', foundAndLeft(record, left, record.tail ? [...paths, '/tail/rod'] : paths));
}

const signed = (value: number): string => (value > 0 ? '+' : '') + value.toFixed(2).replace(/^-0\.00$/, '0.00');
const percent = (value: number | null): string => (value === null ? 'none' : `${signed(value)} %`);

function matrixRows(matrix: Matrix3, names: readonly string[], units: readonly string[]): string[][] {
  return matrix.map((row, i) => [`${names[i]}, ${units[i]}`, ...row.map(signed)]);
}

/** Coupling at mid-stick of the machine as left, after its record. */
export function couplingSection(left: Rig): Block {
  const found = coupling(prepare(left), {});
  if ('unreachable' in found) {
    return section(
      'Coupling',
      block`<p>By its record the machine cannot be posed at mid-stick: ${describePath(left, found.unreachable.path)} is out by ${found.unreachable.short.toFixed(2)} mm.</p>`,
    );
  }
  const { swash, blade, cross, standing, healthy } = found;
  const crossRow = (name: string, key: keyof CrossCoupling) => [name, percent(cross.swash[key]), percent(cross.blade[key])];
  return section(
    'Coupling by the record as left, at mid-stick',
    rows(
      ['per unit of stick', 'collective|n', 'elevator|n', 'aileron|n'],
      [
        ...matrixRows(swash, ['swashplate height', 'swashplate fore-aft tilt', 'swashplate side tilt'], ['mm', '°', '°']),
        ...matrixRows(blade, ['blades collective', 'blades longitudinal', 'blades lateral'], ['°', '°', '°']),
      ],
    ),
    rows(
      ['what moves along', 'swashplate|n', 'blades|n'],
      [
        crossRow('elevator: side per fore-aft', 'elevator'),
        crossRow('aileron: fore-aft per side', 'aileron'),
        crossRow('collective: fore-aft, against elevator', 'collectiveForeAft'),
        crossRow('collective: side, against aileron', 'collectiveSide'),
      ],
    ),
    block`<p class="verdict">Standing before a stick moves: fore-aft ${signed(standing.foreAft)}°, side ${signed(standing.side)}°. ${
      healthy ? 'Within the usual targets.' : 'Outside the usual targets for level, zero, match or cross coupling.'
    }</p>`,
  );
}
