/** Which causes are called alike: by how well they fit, by the odds between them, and by what they turn. */
import { expect, test } from 'vitest';
import { alikeOf } from '../../packages/mixing/src/diagnosis/alike.ts';
import type { Cause } from '../../packages/mixing/src/diagnosis/diagnosis.ts';
import { examples } from '../../packages/mixing/src/examples/examples.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';

const read = readRig(examples.find(({ name }) => name === 'bench-trainer')?.document);
if (!read.ok) throw new Error('the bench trainer does not read');
const record = read.rig;

type Change = [path: string, machine: unknown, record?: number];
const cause = (probability: number, logLikelihood: number, ...changes: Change[]): Cause => ({
  changes: changes.map(([path, machine, was = 0]) => ({ path, record: was, machine, sd: 0, unit: '' })),
  probability,
  logLikelihood,
  chi2: 0,
  dof: 0,
  says: '',
});

const LINK: Change = ['/servos/0/link', 40.8, 40];
const MIX: Change = ['/transmitter/mix/elevator', 30, 24];
const TRAVEL: Change = ['/transmitter/outputs/0/travel/0', 80, 100];
const BLADE: Change = ['/rotor/links/0', 45.4, 45];

test('that fit within ln 3 of one another and are about as likely', () => {
  expect(alikeOf([cause(0.7, -10, LINK), cause(0.1, -10.9, MIX)], record)).toEqual([[0, 1]]);
  expect(alikeOf([cause(0.7, -10, LINK), cause(0.1, -11.3, MIX)], record)).toEqual([]);
  // as good a fit, but all but ruled out by its own rarity
  expect(alikeOf([cause(0.7, -10, LINK), cause(0.02, -10.5, MIX)], record)).toEqual([]);
});

test('of which neither is three times as probable as the other, however well each fits', () => {
  expect(alikeOf([cause(0.5, -15, LINK), cause(0.2, -9, LINK, MIX)], record)).toEqual([[0, 1]]);
  expect(alikeOf([cause(0.7, -15, LINK), cause(0.2, -9, LINK, MIX)], record)).toEqual([]);
});

test('small faults that scatter may still hide, with scatter alone', () => {
  expect(alikeOf([cause(0.7, -15), cause(0.08, -12, TRAVEL), cause(0.02, -12, BLADE)], record)).toEqual([[0, 1]]);
  // beside a fault they are no such thing
  expect(alikeOf([cause(0.7, -15, LINK), cause(0.08, -12, TRAVEL)], record)).toEqual([]);
});

test('that turn the same horn, though one of free size fits a little better; and a neutral of 20 us with none', () => {
  const tooth = cause(0.6, -12, ['/servos/0/horn/tooth', 1]);
  expect(alikeOf([tooth, cause(0.05, -10, ['/servos/0/horn/offset', 12])], record)).toEqual([[0, 1]]);
  expect(alikeOf([tooth, cause(0.05, -10, ['/servos/1/horn/offset', 12])], record)).toEqual([]);
  const neutral: Change = ['/servos/1/neutral', 1500, 1520];
  expect(alikeOf([cause(0.6, -12, LINK), cause(0.05, -10, LINK, neutral)], record)).toEqual([[0, 1]]);
  expect(alikeOf([cause(0.6, -12, LINK), cause(0.05, -10, LINK, ['/servos/1/neutral', 1480, 1520])], record)).toEqual([]);
});

test('in small groups, each cause in one of them, and never what is something else', () => {
  const many = Array.from({ length: 9 }, (_, i) => cause(0.1, -10, ['/transmitter/mix/phase', i]));
  const groups = alikeOf(many, record);
  expect(groups.map(({ length }) => length)).toEqual([4, 3, 2]);
  expect(groups.flat()).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8]);
  expect(alikeOf([cause(0.5, -10, LINK), { ...cause(0.4, -10), somethingElse: true }], record)).toEqual([]);
});
