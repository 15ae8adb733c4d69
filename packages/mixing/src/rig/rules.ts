/**
 * What must agree between places of a rig document. Each rule looks at the document as written, keeps silent where the
 * values that it compares are missing or of the wrong kind (those are faults of their own), and tells every breach.
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import { show, type DocumentFault } from './fault.ts';
import type { Rule } from './document.ts';
import { formatPointer, isObject, parsePointer, lookUp, type Token } from './pointer.ts';
import { rigSchema } from './schema.ts';
import { nodesAlong, staysAbsent, tradeOf } from './walk.ts';

const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const listAt = (document: unknown, ...path: Token[]): unknown[] => {
  const value = lookUp(document, path);
  return Array.isArray(value) ? value : [];
};

const bladesAndLinks: Rule = (document) => {
  const blades = lookUp(document, ['rotor', 'blades']);
  const links = lookUp(document, ['rotor', 'links']);
  if (!isNumber(blades) || !Array.isArray(links) || links.length === blades || links.length === 0) return [];
  return [
    {
      pointer: '/rotor/links',
      got: `${links.length} of them, with ${blades} blades`,
      expected: 'as many blade links as blades',
      wayOut: 'give one length for each blade, or correct the number of blades',
    },
  ];
};

const ringOrFlybar: Rule = (document) => {
  const rotor = lookUp(document, ['rotor']);
  if (!isObject(rotor) || rotor.ring !== undefined || lookUp(document, ['flybar']) !== undefined) return [];
  return [
    {
      pointer: '/rotor/ring',
      got: 'nothing',
      expected: "the blade links' ring ball {radius, azimuth, height}",
      wayOut: 'add it; only a flybar head, whose mixing arms take its place, leaves it out',
    },
  ];
};

const flybarBlades: Rule = (document) => {
  const blades = lookUp(document, ['rotor', 'blades']);
  if (lookUp(document, ['flybar']) === undefined || !isNumber(blades) || blades === 2) return [];
  return [
    {
      pointer: '/rotor/blades',
      got: `${blades}, with a flybar`,
      expected: '2 blades on a flybar head',
      wayOut: 'leave flybar out, or give two blades',
    },
  ];
};

const leverAndPushrod: Rule = (document) =>
  listAt(document, 'servos').flatMap((servo, i) => {
    if (!isObject(servo) || (servo.lever === undefined) === (servo.pushrod === undefined)) return [];
    const missing = servo.lever === undefined ? 'lever' : 'pushrod';
    return [
      {
        pointer: formatPointer(['servos', i, missing]),
        got: 'nothing',
        expected: 'a lever and its pushrod together, or neither',
        wayOut: missing === 'lever' ? 'add the lever, or leave the pushrod out' : 'add the pushrod, or leave the lever out',
      },
    ];
  });

const layoutOrWeights: Rule = (document) => {
  const mix = lookUp(document, ['transmitter', 'mix']);
  if (!isObject(mix) || mix.azimuths !== undefined || mix.weights !== undefined) return [];
  return [
    {
      pointer: '/transmitter/mix/azimuths',
      got: 'nothing, and no weights either',
      expected: 'three azimuths, or three rows of weights',
      wayOut: 'add the azimuths of the balls as the transmitter believes them, as [0, 120, 240]',
    },
  ];
};

/** Pairs [least, most] that are written the wrong way round. */
const inOrder: Rule = (document) => {
  const outputs = listAt(document, 'transmitter', 'outputs').map((_, j): Token[] => ['transmitter', 'outputs', j, 'limits']);
  const paths: Token[][] = [...outputs, ['transmitter', 'rudder', 'limits'], ['tail', 'slider', 'stops']];
  return paths.flatMap((path) => {
    const range = lookUp(document, path);
    if (!Array.isArray(range) || range.length !== 2 || !range.every(isNumber)) return [];
    const [least, most] = range as [number, number];
    if (least <= most) return [];
    const says = tradeOf(nodesAlong(rigSchema, path)?.at(-1) ?? rigSchema);
    return [
      {
        pointer: formatPointer(path),
        got: show(range),
        expected: says.expected ?? '[least, most], least first',
        wayOut: says.wayOut ?? 'write the smaller first',
      },
    ];
  });
};

/**
 * Three balls that lie in one line seen from above hold no ring: it would turn about that line. The triangle's doubled
 * area is compared with the longest side squared; 1e-9 is what azimuths rounded at 1e-7 degree still leave.
 */
const ballsInLine: Rule = (document) => {
  const servos = listAt(document, 'servos');
  if (servos.length !== 3) return [];
  const balls: [number, number][] = [];
  for (let i = 0; i < 3; i++) {
    const radius = lookUp(document, ['servos', i, 'ball', 'radius']);
    const azimuth = lookUp(document, ['servos', i, 'ball', 'azimuth']);
    if (!isNumber(radius) || !isNumber(azimuth) || radius <= 0) return [];
    balls.push([radius * cosDeg(azimuth), radius * sinDeg(azimuth)]);
  }
  const [a, b, c] = balls as [[number, number], [number, number], [number, number]];
  const area = Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  const side = (p: [number, number], q: [number, number]) => (p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2;
  if (area > 1e-9 * Math.max(side(a, b), side(b, c), side(c, a))) return [];
  return [
    {
      pointer: '/servos',
      got: 'three ring balls in one line, seen from above',
      expected: 'three balls that make a triangle, as azimuths 0, 120, 240',
      wayOut: 'correct the azimuth or radius of one servo’s ball',
    },
  ];
};

/** Arms whose ball would lie on the very axis that they turn about. */
const armsOfNoLength: Rule = (document) =>
  [
    ['rotor', 'pitchArm'],
    ['flybar', 'arm'],
    ['tail', 'grip'],
  ].flatMap((path) => {
    const lead = lookUp(document, [...path, 'lead']);
    const height = lookUp(document, [...path, 'height']) ?? 0;
    if (lead !== 0 || height !== 0) return [];
    return [
      {
        pointer: formatPointer([...path, 'lead']),
        got: '0, with a height of 0',
        expected: 'a ball that stands off the axis it turns about',
        wayOut: 'an arm of no length turns nothing; give its lead as measured, in mm',
      },
    ];
  });

const gainOnItsScale: Rule = (document) => {
  const gain = lookUp(document, ['tail', 'gyro', 'gain']);
  if (lookUp(document, ['tail', 'gyro', 'scale']) !== 'centred' || !isNumber(gain) || (gain >= 0 && gain <= 100)) return [];
  return [
    {
      pointer: '/tail/gyro/gain',
      got: show(gain),
      expected: '0 to 100 on a centred scale, 50 being off',
      wayOut: 'give the gain as shown, or change the scale to "signed"',
    },
  ];
};

const modesApart: Rule = (document) => {
  const names = listAt(document, 'transmitter', 'flightModes').map((mode) => (isObject(mode) ? mode.name : undefined));
  return names.flatMap((name, i) =>
    typeof name !== 'string' || names.indexOf(name) === i
      ? []
      : [
          {
            pointer: formatPointer(['transmitter', 'flightModes', i, 'name']),
            got: show(name),
            expected: 'a name of its own for each flight mode',
            wayOut: 'rename it: a case picks a mode by its name, so the second could never be picked',
          },
        ],
  );
};

/** True where the path names a value that the finished rig has. */
function isThere(document: unknown, path: readonly Token[]): boolean {
  const nodes = nodesAlong(rigSchema, path);
  if (nodes === undefined) return false;
  return nodes.every((node, i) => {
    if (lookUp(document, path.slice(0, i + 1)) !== undefined) return true;
    if (staysAbsent(node)) return false;
    // A list that is written out has no places beyond its end; one that is left out takes its default, three outputs at
    // most, of which a place that is too far will be found when it is asked for.
    return !Array.isArray(lookUp(document, path.slice(0, i)));
  });
}

/** `steps` must name lengths and say one of step and fixed; `known` must name numbers. */
const namedPlaces: Rule = (document) =>
  (['steps', 'known'] as const).flatMap((key) =>
    listAt(document, key).flatMap((item, i): DocumentFault[] => {
      if (!isObject(item)) return [];
      const faults: DocumentFault[] = [];
      if (key === 'steps' && (item.step === undefined) === (item.fixed === undefined)) {
        faults.push({
          pointer: formatPointer([key, i]),
          got: item.step === undefined ? 'neither step nor fixed' : 'both step and fixed',
          expected: 'one of "step" and "fixed"',
          wayOut: 'give the step in mm, or "fixed": true for a link that cannot be turned',
        });
      }
      const path = item.path;
      if (typeof path !== 'string') return faults;
      const tokens = parsePointer(path);
      const unit =
        tokens && isThere(document, tokens) ? tradeOf(nodesAlong(rigSchema, tokens)?.at(-1) ?? rigSchema).unit : undefined;
      if (unit === undefined || (key === 'steps' && unit !== 'mm')) {
        faults.push({
          pointer: formatPointer([key, i, 'path']),
          got: show(path),
          expected:
            key === 'steps' ? 'the JSON Pointer of a link of this document' : 'the JSON Pointer of a number of this document',
          wayOut: 'write it as "/servos/0/link", counting list places from 0',
        });
      }
      return faults;
    }),
  );

export const rigRules: readonly Rule[] = [
  bladesAndLinks,
  ringOrFlybar,
  flybarBlades,
  leverAndPushrod,
  layoutOrWeights,
  inOrder,
  ballsInLine,
  armsOfNoLength,
  gainOnItsScale,
  modesApart,
  namedPlaces,
];
