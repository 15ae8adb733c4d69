/**
 * Machines as they are met, and what a mechanic reads off them: the other side of the diagnosis, written apart from it.
 *
 * A healthy record (tests/support/machines.ts), every part off by the scatter that the model tells, faults drawn as the
 * default priors say (kinds equally, then places), each reading by the library's `predict`, with noise, a step, a zero of
 * the gauge, a leaning bench, and now and then a wild one. Nothing here imports packages/mixing/src/diagnosis but types
 * and the list of what is read.
 */
import type { Reading, ReadingPlace, ReadingsDocument } from '../../packages/mixing/src/diagnosis/readings.ts';
import { applyChanges, type Change, valueAt } from '../../packages/mixing/src/rig/changes.ts';
import { predict } from '../../packages/mixing/src/rig/predict.ts';
import { type PreparedRig, prepare } from '../../packages/mixing/src/rig/prepare.ts';
import { readRig } from '../../packages/mixing/src/rig/read.ts';
import type { Rig } from '../../packages/mixing/src/rig/rig.ts';
import { type Kind, randomRig } from '../../tests/support/machines.ts';
import { type Random, seededRandom } from '../../tests/support/random.ts';

export interface DrawnFault {
  kind: string;
  changes: { path: string; to: unknown }[];
}

export interface DrawOptions {
  /** faults, 0 to 3; drawn evenly where left out */
  faults?: number;
  tail?: boolean;
  /** degrees, one standard deviation: the gauge's zero, and the mast's lean both ways */
  zeroSd?: number;
  leanSd?: number;
  /** the chance that a reading is wild */
  wild?: number;
  places: (rig: Rig) => ReadingPlace[];
  /** read the first gauge reading once more with the gauge turned end for end */
  flip?: boolean;
}

export interface Drawn {
  record: Rig;
  machine: Rig;
  faults: DrawnFault[];
  readings: ReadingsDocument;
  /** places of wild readings */
  wild: number[];
}

export const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random.between(0, 1))) * Math.cos(random.between(0, 2 * Math.PI));

export function recordOf(seed: number, kind: Kind, tail: boolean): Rig {
  const read = readRig(randomRig(seed, kind, { tail }));
  if (!read.ok) throw new Error(`machine ${seed} ${kind}: ${JSON.stringify(read.faults[0])}`);
  return read.rig;
}

/** A machine drawn from its seed, or undefined where its readings cannot all be taken (it jams). */
export function drawMachine(seed: number, kind: Kind, options: DrawOptions): Drawn | undefined {
  const random = seededRandom(seed * 31 + 7);
  const record = recordOf(seed, kind, options.tail ?? false);
  const count = options.faults ?? random.whole(0, 3);
  const faults = drawFaults(random, record, count);
  const machine = scattered(
    random,
    applyChanges(
      record,
      faults.flatMap(({ changes }) => changes),
    ),
  );
  const taken = readMachine(random, machine, options);
  return taken && { record, machine, faults, ...taken };
}

const by = (random: Random, low: number, high: number) => random.sign() * random.between(low, high);

export function drawFaults(random: Random, rig: Rig, count: number): DrawnFault[] {
  const servo = () => random.whole(0, 2);
  const one = (path: string, to: unknown): DrawnFault['changes'] => [{ path, to }];
  const add = (path: string, amount: number) => one(path, (valueAt(rig, path) as number) + amount);
  const value = (path: string) => valueAt(rig, path) as number;
  const mix = () => `/transmitter/mix/${random.pick(['collective', 'elevator', 'aileron'])}`;
  const kinds: Record<string, () => DrawnFault['changes']> = {
    'horn-tooth': () => add(`/servos/${servo()}/horn/tooth`, random.pick([1, -1, 2, -2])),
    'horn-offset': () => add(`/servos/${servo()}/horn/offset`, by(random, 5, 12)),
    'horn-hole': () => add(`/servos/${servo()}/horn/length`, random.sign() * rig.holeStep),
    'link-length': () => add(`/servos/${servo()}/link`, by(random, 0.4, 2)),
    'output-reversed': () => {
      const path = `/transmitter/outputs/${servo()}/reverse`;
      return one(path, !valueAt(rig, path));
    },
    'leads-swapped': () => {
      const [a, b] = random.pick([
        [0, 1],
        [0, 2],
        [1, 2],
      ] as const);
      return [
        ...one(`/servos/${a}/output`, value(`/servos/${b}/output`)),
        ...one(`/servos/${b}/output`, value(`/servos/${a}/output`)),
      ];
    },
    'mix-sign': () => {
      const path = mix();
      return one(path, -value(path));
    },
    'mix-value': () => {
      const path = mix();
      return add(path, (value(path) * by(random, 20, 40)) / 100);
    },
    layout: () => {
      const azimuths = rig.transmitter.mix.azimuths as [number, number, number];
      const own = (azimuths[1] - azimuths[0] + 720) % 360;
      const way = own > 180 ? -1 : 1;
      const spread = random.pick([90, 120, 135, 140].filter((s) => Math.abs(s - Math.min(own, 360 - own)) > 3));
      const others = [azimuths[0], azimuths[0] + way * spread, azimuths[0] - way * spread].map((a) => (a + 720) % 360);
      if (!rig.transmitter.mix.weights) return one('/transmitter/mix/azimuths', others);
      const rad = Math.PI / 180;
      return one(
        '/transmitter/mix/weights',
        others.map((a) => [1, -Math.cos(a * rad), Math.sin(a * rad)]),
      );
    },
    phase: () => add('/transmitter/mix/phase', by(random, 10, 30)),
    'sub-trim': () => add(`/transmitter/outputs/${servo()}/subtrim`, random.between(-60, 60)),
    travel: () => add(`/transmitter/outputs/${servo()}/travel/${random.whole(0, 1)}`, by(random, 12, 35)),
    'servo-neutral': () => {
      const i = servo();
      return one(`/servos/${i}/neutral`, value(`/servos/${i}/neutral`) === 1500 ? 1520 : 1500);
    },
    'blade-link': () => add(`/rotor/links/${random.whole(0, 1)}`, by(random, 0.2, 1)),
  };
  if (rig.flybar) {
    kinds['washout'] = () => add(`/flybar/washout/${random.pick(['links', 'rods'])}/${random.whole(0, 1)}`, by(random, 0.4, 2));
    kinds['mixing-arm'] = () => add(`/flybar/mixing/rods/${random.whole(0, 1)}`, by(random, 0.4, 2));
  }
  if (rig.tail) {
    kinds['tail-rod'] = () => add('/tail/rod', by(random, 0.4, 2));
    kinds['tail-horn'] = () => add('/tail/servo/horn/offset', by(random, 5, 12));
    kinds['tail-tooth'] = () => add('/tail/servo/horn/tooth', random.pick([1, -1, 2, -2]));
    kinds['rudder-reversed'] = () => one('/transmitter/rudder/reverse', !rig.transmitter.rudder.reverse);
    if (rig.tail.gyro && rig.tail.gyro.gain !== (rig.tail.gyro.scale === 'centred' ? 50 : 0)) {
      kinds['gyro-reversed'] = () => one('/tail/gyro/reverse', !(rig.tail?.gyro?.reverse ?? false));
    }
  }
  const faults: DrawnFault[] = [];
  const used = new Set<string>();
  while (faults.length < count) {
    const kind = random.pick(Object.keys(kinds));
    const changes = (kinds[kind] as () => DrawnFault['changes'])();
    if (changes.some(({ path }) => used.has(path))) continue;
    for (const { path } of changes) used.add(path);
    faults.push({ kind, changes });
  }
  return faults;
}

/** Every part off by what model.md says that every machine's parts are. */
export function scattered(random: Random, rig: Rig): Rig {
  const changes: Change[] = [];
  const add = (path: string, sd: number) => changes.push({ path, by: sd * normal(random) });
  rig.servos.forEach((servo, i) => {
    add(`/servos/${i}/rate`, 0.02 * servo.rate);
    add(`/servos/${i}/horn/offset`, 1);
    add(`/servos/${i}/horn/azimuth`, 1);
    add(`/servos/${i}/link`, 0.1);
    add(`/servos/${i}/ball/radius`, 0.1);
    add(`/servos/${i}/ball/azimuth`, 0.5);
    if (servo.lever)
      for (const part of ['pushrod', 'lever/servoEnd/length', 'lever/swashEnd/length']) add(`/servos/${i}/${part}`, 0.1);
  });
  rig.rotor.links.forEach((_, k) => add(`/rotor/links/${k}`, 0.03));
  if (rig.flybar) {
    for (const part of ['flybarEnd/length', 'swashEnd/length', 'links/0', 'links/1', 'rods/0', 'rods/1'])
      add(`/flybar/washout/${part}`, 0.1);
    for (const part of ['swashEnd/length', 'bladeEnd/length', 'rods/0', 'rods/1']) add(`/flybar/mixing/${part}`, 0.1);
  }
  if (rig.tail) {
    add('/tail/servo/rate', 0.02 * rig.tail.servo.rate);
    add('/tail/servo/horn/offset', 1);
    for (const part of ['rod', 'lever/servoEnd/length', 'lever/sliderEnd/length', 'grip/link']) add(`/tail/${part}`, 0.1);
  }
  return applyChanges(rig, changes);
}

/** What the machine gives at a place, without any instrument; undefined where it cannot be read. */
export function trueValue(prepared: PreparedRig, place: ReadingPlace): number | undefined {
  const p = predict(prepared, { ...place.sticks, azimuth: place.azimuth, teeter: place.teeter, yawRate: place.yawRate });
  switch (place.measure) {
    case 'horn-angle':
      return p.servos?.[place.of - 1]?.horn;
    case 'lever-angle':
      return p.servos?.[place.of - 1]?.lever;
    case 'swash-height':
      return p.swash?.height;
    case 'fore-aft-tilt':
      return p.swash?.foreAft;
    case 'side-tilt':
      return p.swash?.side;
    case 'blade-pitch':
      return p.blades?.[place.of - 1]?.pitch;
    case 'washout-height':
      return p.flybar?.washout;
    case 'washout-arm':
      return p.flybar?.washoutArms[place.of - 1];
    case 'mixing-arm':
      return p.flybar?.mixingArms[place.of - 1];
    case 'paddle-pitch':
      return p.flybar?.paddle;
    case 'tail-horn-angle':
      return p.tail?.horn;
    case 'slider':
      return p.tail?.slider;
    case 'tail-pitch':
      return p.tail && 'pitch' in p.tail ? p.tail.pitch : undefined;
    case 'blade-play':
      return 0;
  }
}

const USUAL: Record<string, [sd: number, step: number]> = {
  'horn-angle': [1.5, 1],
  'lever-angle': [2, 1],
  'swash-height': [0.2, 0.1],
  'fore-aft-tilt': [0.3, 0.1],
  'side-tilt': [0.3, 0.1],
  'blade-pitch': [0.25, 0.1],
  'washout-height': [0.2, 0.1],
  'washout-arm': [2, 1],
  'mixing-arm': [2, 1],
  'paddle-pitch': [0.5, 0.1],
  'tail-horn-angle': [1.5, 1],
  slider: [0.2, 0.1],
  'tail-pitch': [0.5, 0.1],
};

export function readMachine(
  random: Random,
  machine: Rig,
  options: DrawOptions,
): { readings: ReadingsDocument; wild: number[] } | undefined {
  const prepared = prepare(machine);
  const places = options.places(machine);
  const gauge = places.find(({ measure }) => measure === 'blade-pitch');
  if (options.flip && gauge) places.splice(places.indexOf(gauge) + 1, 0, { ...gauge, flipped: true });
  const withInstruments = (options.zeroSd ?? 0) > 0 || (options.leanSd ?? 0) > 0;
  const zero = { 'blade-pitch': (options.zeroSd ?? 0) * normal(random), tilt: 0 };
  const lean = { foreAft: (options.leanSd ?? 0) * normal(random), side: (options.leanSd ?? 0) * normal(random) };
  const wild: number[] = [];
  const readings: Reading[] = [];
  for (const place of places) {
    const exact = trueValue(prepared, place);
    if (exact === undefined) return undefined;
    const [sd, step] = USUAL[place.measure] as [number, number];
    let stands = exact;
    const turn = machine.rotor.rotation === 'counterclockwise' ? 1 : -1;
    if (place.measure === 'blade-pitch' || place.measure === 'paddle-pitch') {
      const ahead =
        place.measure === 'paddle-pitch' ? (machine.flybar?.azimuth ?? 0) : (360 / machine.rotor.blades) * (place.of - 1);
      const psi = ((place.azimuth + ahead) * Math.PI) / 180;
      stands -= lean.foreAft * Math.sin(psi) + turn * lean.side * Math.cos(psi);
    } else if (place.measure === 'fore-aft-tilt') stands += lean.foreAft;
    else if (place.measure === 'side-tilt') stands += lean.side;
    const onGauge = place.measure === 'blade-pitch';
    const shown = (onGauge ? zero['blade-pitch'] : 0) + (place.flipped ? -stands : stands) + sd * normal(random);
    let value = Math.round(shown / step) * step;
    if (random.chance(options.wild ?? 0)) {
      wild.push(readings.length);
      value = random.chance(0.5) ? -value + by(random, 2, 4) : value + by(random, 3, 12);
    }
    readings.push({ ...place, value, sd, ...(withInstruments && onGauge ? { instrument: 0 } : {}) });
  }
  return {
    wild,
    readings: {
      format: 'swashtrue-readings/1',
      instruments: withInstruments ? [{ name: 'pitch gauge', reference: 'gravity', zeroSd: options.zeroSd ?? 0, step: 0.1 }] : [],
      lean: { foreAftSd: options.leanSd ?? 0, sideSd: options.leanSd ?? 0 },
      readings: readings.map((reading) => ({ kind: 'reading', reading })),
    },
  };
}
