/**
 * What must agree inside a readings document, and between it and the machine that it was taken on: one kind an item,
 * no stabiliser, instruments that are listed, parts and modes that the machine has, changes that can be made.
 */
import { applyChange, ChangeError, type Change, checkedValue } from '../rig/changes.ts';
import type { Rule } from '../rig/document.ts';
import { nearest, show, type DocumentFault } from '../rig/fault.ts';
import { formatPointer, isObject, parsePointer, lookUp, type Token } from '../rig/pointer.ts';
import type { Rig } from '../rig/rig.ts';
import { rigSchema } from '../rig/schema.ts';
import { nodesAlong } from '../rig/walk.ts';

export const ITEM_KINDS = ['adjusted', 'seen', 'moves', 'felt', 'inspected', 'flight'] as const;
/** What only a reading has beside it; `sticks` and the like of the other kinds stand inside them. */
const READING_KEYS = [
  'measure',
  'value',
  'sd',
  'of',
  'sticks',
  'mode',
  'azimuth',
  'teeter',
  'yawRate',
  'instrument',
  'approach',
  'flipped',
];

type Written = Record<string, unknown>;

function itemsOf(document: unknown): [Written, number][] {
  const items = lookUp(document, ['readings']);
  if (!Array.isArray(items)) return [];
  return items.flatMap((item: unknown, i): [Written, number][] => (isObject(item) ? [[item, i]] : []));
}

const at = (i: number, ...path: Token[]) => formatPointer(['readings', i, ...path]);

const oneKind: Rule = (document) =>
  itemsOf(document).flatMap(([item, i]): DocumentFault[] => {
    const kinds = ITEM_KINDS.filter((kind) => item[kind] !== undefined);
    const ofReading = READING_KEYS.filter((key) => item[key] !== undefined);
    if (kinds.length === 0 && ofReading.length === 0) {
      return [
        {
          pointer: at(i),
          got: 'an item of no kind',
          expected: `a reading {measure, value}, or one of ${ITEM_KINDS.join(', ')}`,
          wayOut: 'say what it is, or take it out',
        },
      ];
    }
    if (kinds.length > 1 || (kinds.length === 1 && ofReading.length > 0)) {
      return [
        {
          pointer: at(i),
          got: [...kinds, ...ofReading].join(' and '),
          expected: 'one kind an item',
          wayOut: 'write an item of its own for each, in the order of the bench',
        },
      ];
    }
    if (kinds.length === 1) return [];
    return ['measure', 'value']
      .filter((key) => item[key] === undefined)
      .map((key) => ({
        pointer: at(i, key),
        got: 'nothing',
        expected: key === 'measure' ? 'what was read, as "blade-pitch"' : 'what the instrument showed',
        wayOut: 'add it: a reading has both measure and value',
      }));
  });

const byOrTo: Rule = (document) =>
  itemsOf(document).flatMap(([item, i]) => {
    const change = item.adjusted;
    if (!isObject(change) || (change.by === undefined) !== (change.to === undefined)) return [];
    return [
      {
        pointer: at(i, 'adjusted'),
        got: change.by === undefined ? 'neither by nor to' : 'both by and to',
        expected: 'one of "by" and "to"',
        wayOut: '"by" adds to what stood there, "to" replaces it',
      },
    ];
  });

const notStabilised: Rule = (document) =>
  itemsOf(document).flatMap(([item, i]) => {
    if (item.stabilised !== true || (item.measure === undefined && item.moves === undefined)) return [];
    return [
      {
        pointer: at(i, 'stabilised'),
        got: 'true',
        expected: 'a reading with the stabiliser off',
        wayOut:
          'a stabiliser moves the servos by itself, so that the sticks no longer say where they stand; turn it off (or to direct passthrough) and read again',
      },
    ];
  });

const listedInstruments: Rule = (document) => {
  const instruments = lookUp(document, ['instruments']);
  if (!Array.isArray(instruments)) return [];
  const names = instruments.map((entry) => String(lookUp(entry, ['name'])));
  const twice = names.flatMap((name, i) =>
    names.indexOf(name) === i
      ? []
      : [
          {
            pointer: formatPointer(['instruments', i, 'name']),
            got: show(name),
            expected: 'a name of its own for each instrument',
            wayOut: 'rename it: readings name their instrument',
          },
        ],
  );
  const unlisted = itemsOf(document).flatMap(([item, i]) => {
    const named = item.instrument;
    const there = typeof named === 'number' ? named < names.length : typeof named !== 'string' || names.includes(named);
    if (there) return [];
    const like = typeof named === 'string' ? nearest(named, names) : undefined;
    return [
      {
        pointer: at(i, 'instrument'),
        got: show(named),
        expected: like === undefined ? 'one of the instruments' : `one of the instruments; the nearest is ${show(like)}`,
        wayOut: 'list it in "instruments", or leave it out for a gauge without a zero of its own',
      },
    ];
  });
  return [...twice, ...unlisted];
};

/** Ways in which a part goes; `none` is open to all. */
const WAYS_OF: Readonly<Record<string, readonly string[]>> = {
  servo: ['up', 'down'],
  blade: ['up', 'down'],
  swash: ['up', 'down', 'forward', 'aft', 'left', 'right'],
  'fore-aft': ['forward', 'aft'],
  side: ['left', 'right'],
  tail: ['left', 'right'],
};

const waysOfParts: Rule = (document) =>
  itemsOf(document).flatMap(([item, i]) => {
    const { part, way } = isObject(item.moves) ? item.moves : {};
    const ways = typeof part === 'string' ? WAYS_OF[part] : undefined;
    if (ways === undefined || typeof way !== 'string' || way === 'none' || ways.includes(way)) return [];
    return [
      {
        pointer: at(i, 'moves', 'way'),
        got: show(way),
        expected: `one of ${[...ways, 'none'].map(show).join(', ')}, the ways in which ${show(part)} goes`,
        wayOut: 'name the part that was watched, or the way in which it went',
      },
    ];
  });

export const readingsRules: readonly Rule[] = [oneKind, byOrTo, notStabilised, listedInstruments, waysOfParts];

/** How many servos, blades or arms a measure or a moving part has on this machine; 0 where it has none. */
function countOf(rig: Rig, part: string): number | undefined {
  const head = rig.flybar === undefined ? 0 : 2;
  switch (part) {
    case 'horn-angle':
    case 'servo':
      return rig.servos.length;
    case 'lever-angle':
      return rig.servos.some((servo) => servo.lever !== undefined) ? rig.servos.length : 0;
    case 'blade-pitch':
    case 'blade-play':
    case 'blade':
      return rig.rotor.blades;
    case 'washout-arm':
    case 'mixing-arm':
      return head;
    case 'washout-height':
    case 'paddle-pitch':
      return Math.min(head, 1);
    case 'tail-horn-angle':
    case 'slider':
    case 'tail-pitch':
    case 'tail':
      return rig.tail === undefined ? 0 : 1;
    case 'swash-height':
    case 'fore-aft-tilt':
    case 'side-tilt':
      return 1;
    default:
      return undefined;
  }
}

/** Rules that need the machine the readings were taken on. */
export function readingsRulesOn(rig: Rig): readonly Rule[] {
  const modes = rig.transmitter.flightModes.map((mode) => mode.name);

  const partsThere: Rule = (document) =>
    itemsOf(document).flatMap(([item, i]): DocumentFault[] => {
      const inside: [Written, Token[], string] = isObject(item.moves) ? [item.moves, ['moves'], 'part'] : [item, [], 'measure'];
      const [holder, path, key] = inside;
      const part = holder[key];
      const count = typeof part === 'string' ? countOf(rig, part) : undefined;
      if (count === undefined) return [];
      if (count === 0) {
        return [
          {
            pointer: at(i, ...path, key),
            got: show(part),
            expected: 'something that this machine has',
            wayOut: 'the record has no such part: complete the rig document, or take the item out',
          },
        ];
      }
      const of = holder.of ?? 1;
      const lacking = part === 'lever-angle' && rig.servos[Number(of) - 1]?.lever === undefined;
      if (typeof of !== 'number' || (of <= count && !lacking)) return [];
      return [
        {
          pointer: at(i, ...path, 'of'),
          got: show(of),
          expected: lacking ? 'the number of a servo that has a lever' : `a number from 1 to ${count}`,
          wayOut: 'count as the rig document does, from 1',
        },
      ];
    });

  const modesThere: Rule = (document) =>
    itemsOf(document).flatMap(([item, i]) =>
      [[], ['moves'], ['felt']].flatMap((path: Token[]) => {
        const mode = lookUp(item, [...path, 'mode']);
        if (typeof mode !== 'string' || modes.includes(mode)) return [];
        return [
          {
            pointer: at(i, ...path, 'mode'),
            got: show(mode),
            expected: `one of the flight modes ${modes.map(show).join(', ')}`,
            wayOut: 'leave it out for the first',
          },
        ];
      }),
    );

  /** Changes in the order of the bench, each on the machine as the ones before left it. */
  const changesCanBeMade: Rule = (document) => {
    let machine = rig;
    return itemsOf(document).flatMap(([item, i]): DocumentFault[] => {
      const change = item.adjusted;
      if (!isObject(change) || typeof change.path !== 'string') return [];
      if ((change.by === undefined) === (change.to === undefined)) return [];
      try {
        machine = applyChange(machine, change as Change);
        return [];
      } catch (error) {
        if (!(error instanceof ChangeError)) throw error;
        const key = change.by === undefined ? 'to' : 'by';
        return [
          {
            pointer: at(i, 'adjusted', key),
            got: `${error.got} at ${error.path}`,
            expected: error.expected,
            wayOut: error.wayOut,
          },
        ];
      }
    });
  };

  const seenThere: Rule = (document) =>
    itemsOf(document).flatMap(([item, i]) => {
      const path = lookUp(item, ['seen', 'path']);
      if (typeof path !== 'string') return [];
      // A setting that the record leaves out (a cyclic limit) may well be found on the machine.
      const tokens = parsePointer(path) ?? [];
      const known = tokens.length > 0 && nodesAlong(rigSchema, tokens) !== undefined;
      const holder = lookUp(rig, tokens.slice(0, -1));
      if (known && (Array.isArray(holder) ? lookUp(rig, tokens) !== undefined : isObject(holder))) return [];
      return [
        {
          pointer: at(i, 'seen', 'path'),
          got: show(path),
          expected: 'the JSON Pointer of a value of the rig document',
          wayOut: 'write it as "/transmitter/outputs/0/reverse", counting list places from 0',
        },
      ];
    });

  /** What was seen is a value that may stand there: text where a number belongs would be passed over in silence. */
  const seenFits: Rule = (document) =>
    itemsOf(document).flatMap(([item, i]): DocumentFault[] => {
      const { path, value } = isObject(item.seen) ? item.seen : {};
      if (typeof path !== 'string' || value === undefined) return [];
      try {
        checkedValue(rig, { path, to: value });
        return [];
      } catch (error) {
        if (!(error instanceof ChangeError)) throw error;
        // A place that is not there is told as such.
        if (lookUp(rig, parsePointer(path) ?? []) === undefined) return [];
        return [{ pointer: at(i, 'seen', 'value'), got: error.got, expected: error.expected, wayOut: error.wayOut }];
      }
    });

  const inspectedThere: Rule = (document) =>
    itemsOf(document).flatMap(([item, i]) => {
      const part = lookUp(item, ['inspected', 'part']);
      if (typeof part !== 'string' || !part.startsWith('/') || lookUp(rig, parsePointer(part) ?? ['']) !== undefined) return [];
      return [
        {
          pointer: at(i, 'inspected', 'part'),
          got: show(part),
          expected: 'the JSON Pointer of a part of the rig document, or the part in words',
          wayOut: 'write it as "/servos/0/link", counting list places from 0, or as "mast"',
        },
      ];
    });

  const highBladeThere: Rule = (document) =>
    itemsOf(document).flatMap(([item, i]) => {
      const blade = lookUp(item, ['flight', 'highBlade']);
      if (typeof blade !== 'number' || blade <= rig.rotor.blades) return [];
      return [
        {
          pointer: at(i, 'flight', 'highBlade'),
          got: show(blade),
          expected: `a number from 1 to ${rig.rotor.blades}`,
          wayOut: 'count as the rig document does, from 1',
        },
      ];
    });

  return [...readingsRules, partsThere, modesThere, changesCanBeMade, seenThere, seenFits, inspectedThere, highBladeThere];
}
