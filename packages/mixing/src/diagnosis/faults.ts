/**
 * Everything that can be wrong with a machine of this record: exact faults (a tooth, a lead, a sign) and faults of a size
 * (an offset, a length), each with its share of the prior.
 *
 * A fault of a size is kept in branches, one for each sign (phase, which turns, in two for each), so that all is worked
 * out where the fault would stand, not where the record stands.
 */
import { turnDeg } from '../quantities/angles.ts';
import type { Point, Rig } from '../rig/rig.ts';
import { unitWeights } from '../transmitter/outputs.ts';
import { type Assignment, singleValues } from './work-machine.ts';
import { FAULT_KINDS, type FaultKind, type Priors, type SizedKind } from './priors.ts';

/** Evenly spread over [least, most] in the value's own unit. */
export interface Branch {
  least: number;
  most: number;
}

export interface Fault {
  kind: FaultKind;
  /** kind and place: equal for the branches of one fault */
  key: string;
  /** its share of the prior among single faults; all shares together make 1 */
  share: number;
  /** exact: what the values are, as a cause states them; of a size: empty */
  assignments: Assignment[];
  /** the same, value by value */
  singles: Assignment[];
  /** of a size: the value that is off, and by how much */
  path?: string;
  branches: Branch[];
}

interface Place {
  name: string;
  assignments?: Assignment[];
  path?: string;
  branches?: Branch[];
  /** weight among the places of its kind (default 1) */
  weight?: number;
}

const bothWays = ([least, most]: [number, number], scale = 1): Branch[] =>
  least === 0
    ? [{ least: -most * scale, most: most * scale }]
    : [
        { least: least * scale, most: most * scale },
        { least: -most * scale, most: -least * scale },
      ];

export function faultsOf(rig: Rig, priors: Priors): Fault[] {
  const places = new Map<FaultKind, Place[]>();
  for (const kind of FAULT_KINDS) {
    const found = placesOf(rig, kind, priors);
    if (found.length > 0 && priors.kinds[kind] > 0) places.set(kind, found);
  }
  const total = [...places.keys()].reduce((sum, kind) => sum + priors.kinds[kind], 0);
  return [...places].flatMap(([kind, list]) => {
    const weights = list.reduce((sum, place) => sum + (place.weight ?? 1), 0);
    return list.map((place): Fault => {
      const fault: Fault = {
        kind,
        key: `${kind} ${place.name}`,
        share: ((priors.kinds[kind] / total) * (place.weight ?? 1)) / weights,
        assignments: place.assignments ?? [],
        singles: (place.assignments ?? []).flatMap(singleValues),
        branches: place.branches ?? [],
      };
      if (place.path !== undefined) fault.path = place.path;
      return fault;
    });
  });
}

/** Two faults that cannot stand together: they set the same value, or are branches of one. */
export function clash(a: Fault, b: Fault): boolean {
  const paths = (fault: Fault) => (fault.path === undefined ? fault.assignments.map(({ path }) => path) : [fault.path]);
  return a.key === b.key || paths(a).some((path) => paths(b).includes(path));
}

function placesOf(rig: Rig, kind: FaultKind, priors: Priors): Place[] {
  const { transmitter, servos, rotor, flybar, tail } = rig;
  const size = (sized: SizedKind) => bothWays(priors.sizes[sized]);
  const exact = (name: string, path: string, value: unknown): Place => ({ name, assignments: [{ path, value }] });
  const sized = (path: string, branches: Branch[]): Place => ({ name: path, path, branches });
  switch (kind) {
    case 'horn-tooth':
      return servos.flatMap(({ horn }, i) =>
        [1, -1, 2, -2].map((by) => exact(`${i} ${by}`, `/servos/${i}/horn/tooth`, horn.tooth + by)),
      );
    case 'horn-offset':
      return servos.map((_, i) => sized(`/servos/${i}/horn/offset`, size(kind)));
    case 'horn-hole':
      return servos.flatMap(({ horn }, i) =>
        [rig.holeStep, -rig.holeStep]
          .filter((by) => by !== 0 && horn.length + by > 0)
          .map((by) => exact(`${i} ${by}`, `/servos/${i}/horn/length`, horn.length + by)),
      );
    case 'link-length':
      return servos.flatMap((servo, i) => [
        sized(`/servos/${i}/link`, size(kind)),
        ...(servo.pushrod === undefined ? [] : [sized(`/servos/${i}/pushrod`, size(kind))]),
      ]);
    case 'output-reversed':
      return transmitter.outputs.map(({ reverse }, j) => exact(`${j}`, `/transmitter/outputs/${j}/reverse`, !reverse));
    case 'leads-swapped':
      return swappedLeads(rig);
    case 'mix-sign':
      return (['collective', 'elevator', 'aileron'] as const)
        .filter((of) => transmitter.mix[of] !== 0)
        .map((of) => exact(of, `/transmitter/mix/${of}`, -transmitter.mix[of]));
    case 'mix-value':
      return (['collective', 'elevator', 'aileron'] as const)
        .filter((of) => transmitter.mix[of] !== 0)
        .map((of) => sized(`/transmitter/mix/${of}`, bothWays(priors.sizes[kind], Math.abs(transmitter.mix[of]) / 100)));
    case 'layout':
      return otherLayouts(rig);
    case 'phase': {
      const [least, most] = priors.sizes.phase;
      const middle = (least + most) / 2;
      return [
        sized('/transmitter/mix/phase', [
          { least, most: middle },
          { least: middle, most },
          { least: -middle, most: -least },
          { least: -most, most: -middle },
        ]),
      ];
    }
    case 'sub-trim':
      return transmitter.outputs.map((_, j) => sized(`/transmitter/outputs/${j}/subtrim`, size(kind)));
    case 'travel':
      return transmitter.outputs.flatMap((_, j) =>
        [0, 1].map((end) => sized(`/transmitter/outputs/${j}/travel/${end}`, size(kind))),
      );
    case 'servo-neutral':
      return servos.flatMap(({ neutral }, i) =>
        rig.neutrals.filter((other) => other !== neutral).map((other) => exact(`${i} ${other}`, `/servos/${i}/neutral`, other)),
      );
    case 'blade-link':
      return rotor.links.map((_, k) => sized(`/rotor/links/${k}`, size(kind)));
    case 'washout':
      return flybar ? ['links/0', 'links/1', 'rods/0', 'rods/1'].map((part) => sized(`/flybar/washout/${part}`, size(kind))) : [];
    case 'mixing-arm':
      return flybar ? ['rods/0', 'rods/1'].map((part) => sized(`/flybar/mixing/${part}`, size(kind))) : [];
    case 'tail-rod':
      return tail ? [sized('/tail/rod', size(kind))] : [];
    case 'tail-horn':
      return tail ? [sized('/tail/servo/horn/offset', size(kind))] : [];
    case 'tail-tooth':
      return tail ? [1, -1, 2, -2].map((by) => exact(`${by}`, '/tail/servo/horn/tooth', tail.servo.horn.tooth + by)) : [];
    case 'gyro-reversed':
      return tail?.gyro ? [exact('', '/tail/gyro/reverse', !tail.gyro.reverse)] : [];
    case 'rudder-reversed':
      return tail ? [exact('', '/transmitter/rudder/reverse', !transmitter.rudder.reverse)] : [];
  }
}

/** Two leads swapped; all three moved on is met less often. */
function swappedLeads(rig: Rig): Place[] {
  const plugged = rig.servos.map(({ output }) => output);
  const place = (name: string, order: number[], weight: number): Place => ({
    name,
    weight,
    assignments: order.flatMap((from, i) =>
      from === i ? [] : [{ path: `/servos/${i}/output`, value: plugged[from] as number }],
    ),
  });
  return [
    place('0 1', [1, 0, 2], 1),
    place('0 2', [2, 1, 0], 1),
    place('1 2', [0, 2, 1], 1),
    place('on', [1, 2, 0], 0.1),
    place('back', [2, 0, 1], 0.1),
  ];
}

const LAYOUTS_DEG = [90, 120, 135, 140];

/** The mix of another layout: another spread of the side balls, or the record's layout (or another) turned a quarter or a half. */
function otherLayouts(rig: Rig): Place[] {
  const { mix } = rig.transmitter;
  const byOutput = [...rig.servos].sort((a, b) => a.output - b.output).map(({ ball }) => ball.azimuth) as Point;
  const [first, second] = mix.azimuths ?? byOutput;
  const own = turnDeg(second - first);
  const way = own > 180 ? -1 : 1;
  const recorded = unitWeights(mix);
  const candidates: { azimuths: Point; weight: number }[] = [];
  for (const turned of [0, 90, 180, 270]) {
    for (const spread of new Set([...LAYOUTS_DEG, Math.min(own, 360 - own)])) {
      const lead = first + turned;
      candidates.push({
        azimuths: [turnDeg(lead), turnDeg(lead + way * spread), turnDeg(lead - way * spread)],
        // another spread is the common mistake; a turned layout shows at once
        weight: turned === 0 ? 1 : 0.15,
      });
    }
  }
  return candidates
    .map(({ azimuths, weight }) => ({
      azimuths,
      weight,
      weights: unitWeights({ ...mix, azimuths, weights: undefined } as never) as [Point, Point, Point],
    }))
    .filter(({ weights }) => weights.some((row, j) => row.some((w, k) => Math.abs(w - (recorded[j]?.[k] as number)) > 0.03)))
    .map(({ azimuths, weights, weight }) => ({
      name: azimuths.map((azimuth) => azimuth.toFixed(1)).join(' '),
      weight,
      assignments: [
        mix.weights
          ? { path: '/transmitter/mix/weights', value: weights }
          : { path: '/transmitter/mix/azimuths', value: azimuths },
      ],
    }));
}
