/** Small machines for tests, as a person would write them: our own numbers, every default left out. */

export const directMachine = () => ({
  format: 'swashtrue-rig/1',
  name: 'three sticks',
  transmitter: { mix: { azimuths: [0, 120, 240], collective: 50, elevator: 40, aileron: 41 } },
  servos: [
    { shaft: [25, -13, 17], horn: { length: 13, azimuth: 90 }, link: 41, ball: { radius: 25, azimuth: 0 } },
    { shaft: [-1, 28, 16], horn: { length: 13.5, azimuth: 210 }, link: 42, ball: { radius: 25, azimuth: 120 } },
    { shaft: [-24, -15, 15], horn: { length: 14, azimuth: 330 }, link: 43, ball: { radius: 25, azimuth: 240 } },
  ],
  swash: { height: 58, guide: 180 },
  rotor: {
    rotation: 'clockwise',
    blades: 2,
    hubHeight: 108,
    ring: { radius: 21, azimuth: 75 },
    pitchArm: { station: 6, lead: 20 },
    links: [50, 50.5],
  },
});

export const tailOf = () => ({
  servo: { shaft: [-300, 0, 0], horn: { length: 10 } },
  lever: { pivot: [0, -6, 0], servoEnd: { length: 16, angle: 90 }, sliderEnd: { length: 10, angle: 0 } },
  rod: 300,
  grip: { lead: 9.5, spider: [9.5, -7], link: 7 },
});

/** A document with one value put at a place, given as tokens; undefined takes the key away. */
export function spoiled(document: unknown, path: (string | number)[], value: unknown): unknown {
  const copy: unknown = structuredClone(document);
  let holder = copy as Record<string | number, unknown>;
  for (const token of path.slice(0, -1)) holder = holder[token] as Record<string | number, unknown>;
  const last = path.at(-1) ?? '';
  if (value === undefined) delete holder[last];
  else holder[last] = value;
  return copy;
}
