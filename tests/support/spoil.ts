/**
 * Seeded damage to a valid document, for tests of refusal: the copy must be refused with a pointer at (or above) the
 * place that was damaged. The document given stays as it was.
 */
import { seededRandom } from './random.ts';

/** One piece of damage: where (JSON Pointer), and what was done in plain words. */
export interface Damage {
  pointer: string;
  what: string;
}

type Container = Record<string, unknown> | unknown[];

/** A damaged deep copy of `document`, and what was done to it. */
export function spoil(document: object, seed: number): { document: unknown; damage: Damage } {
  const random = seededRandom(seed * 8 + 6);
  const copy = structuredClone(document) as Record<string, unknown>;
  const places = placesOf(copy);
  const numbers = places.filter(({ value }) => typeof value === 'number');
  const containers = places.filter(({ value }) => typeof value === 'object' && value !== null);
  const lengths = numbers.filter(({ pointer }) => /\/(link|pushrod|links\/\d|rods\/\d|rod|length)$/.test(pointer));
  const kind = random.whole(0, 9);

  if (kind <= 1) {
    const place = random.pick(numbers);
    const wrong = random.pick([null, true, 'long', '', 'NaN', {}, [], [1, 2, 3, 4, 5]]);
    return replaced(copy, place, wrong, `a number replaced by ${JSON.stringify(wrong)}`);
  }
  if (kind === 2) {
    const wrong = random.pick([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]);
    return replaced(copy, random.pick(numbers), wrong, `a number replaced by ${wrong}`);
  }
  if (kind === 3) {
    const wrong = random.pick([null, 7, 'servo', false]);
    return replaced(copy, random.pick(containers), wrong, `an object or list replaced by ${JSON.stringify(wrong)}`);
  }
  if (kind === 4) {
    const objects = [{ pointer: '', value: copy as unknown }, ...containers].filter(({ value }) => !Array.isArray(value));
    const place = random.pick(objects);
    const key = random.pick(['lenght', 'azimut', 'offest', 'colour', 'X-not-lower']);
    (place.value as Record<string, unknown>)[key] = 1;
    return { document: copy, damage: { pointer: `${place.pointer}/${key}`, what: 'an unknown key' } };
  }
  if (kind === 5) {
    const wrong = random.pick([0, -0, -random.between(0.1, 40)]);
    return replaced(copy, random.pick(lengths), wrong, `a length of ${wrong}`);
  }
  if (kind === 6) {
    const required = places.filter(({ pointer }) => REQUIRED.test(pointer));
    const place = random.pick(required);
    const { parent, key } = parentOf(copy, place.pointer);
    delete (parent as Record<string, unknown>)[key];
    return { document: copy, damage: { pointer: place.pointer, what: 'a required key missing' } };
  }
  if (kind === 7) {
    const lists = places.filter(({ pointer }) =>
      /^\/(servos|transmitter\/outputs|rotor\/links|flybar\/washout\/(rods|links)|servos\/\d\/shaft)$/.test(pointer),
    );
    const place = random.pick(lists);
    const list = place.value as unknown[];
    if (random.chance(0.5)) list.pop();
    else list.push(structuredClone(list[0]));
    return { document: copy, damage: { pointer: place.pointer, what: `a list of ${list.length}, one too many or too few` } };
  }
  if (kind === 8)
    return replaced(
      copy,
      at(copy, '/format'),
      random.pick(['swashtrue-rig/2', 'swashtrue-rig', 'swashtrue-readings/1', '', 1]),
      'another format',
    );
  const [pointer, wrong] = random.pick<[string, unknown]>([
    ['/rotor/rotation', 'left'],
    ['/rotor/blades', 2.5],
    ['/rotor/blades', 0],
    ['/servos/1/sense', 0],
    ['/servos/1/output', 4],
    ['/servos/2/horn/teeth', 0],
    ['/transmitter/outputs/0/reverse', 'yes'],
    ['/servos/0/horn/tooth', 0.5],
  ]);
  return replaced(copy, at(copy, pointer), wrong, `${JSON.stringify(wrong)} where it means nothing`);
}

/** Keys without a default in the document's definition, wherever they stand. */
const REQUIRED =
  /^\/(format|servos|swash|rotor|transmitter|swash\/(height|guide)|rotor\/(rotation|blades|hubHeight|pitchArm|links)|rotor\/pitchArm\/(station|lead)|servos\/\d\/(shaft|horn|link|ball)|servos\/\d\/horn\/(length|azimuth)|servos\/\d\/ball\/(radius|azimuth)|transmitter\/mix|transmitter\/mix\/(collective|elevator|aileron)|flybar\/(azimuth|height|arm|washout|mixing)|flybar\/mixing\/pivot\/height|tail\/(servo|lever|rod|grip))$/;

function replaced(copy: Record<string, unknown>, place: { pointer: string }, value: unknown, what: string) {
  const { parent, key } = parentOf(copy, place.pointer);
  (parent as Record<string, unknown>)[key] = value;
  return { document: copy as unknown, damage: { pointer: place.pointer, what } };
}

function at(copy: Record<string, unknown>, pointer: string): { pointer: string } {
  parentOf(copy, pointer);
  return { pointer };
}

function parentOf(copy: Record<string, unknown>, pointer: string): { parent: Container; key: string } {
  const keys = pointer.split('/').slice(1);
  const key = keys.pop() ?? '';
  let parent: unknown = copy;
  for (const step of keys) parent = (parent as Record<string, unknown>)[step];
  if (typeof parent !== 'object' || parent === null)
    throw new RangeError(`${pointer}: got no parent, expected one in the document`);
  return { parent: parent as Container, key };
}

/** Every value of the document but its root, with its JSON Pointer (no key here needs escaping). */
export function placesOf(value: unknown, pointer = ''): { pointer: string; value: unknown }[] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, entry]) => [
    { pointer: `${pointer}/${key}`, value: entry as unknown },
    ...placesOf(entry, `${pointer}/${key}`),
  ]);
}
