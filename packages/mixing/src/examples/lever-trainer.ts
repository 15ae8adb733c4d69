/**
 * A 135 degree machine of our own with three blades: the nose ball is reached through a lever, whose servo lies low in
 * the frame, the two others directly. The lever turns the motion round and gains on it: its servo is mounted the other
 * way and has the shorter horn.
 */
export const leverTrainer = {
  format: 'swashtrue-rig/1',
  name: 'lever trainer',
  'x-note': 'Invented. The nose servo pushes a lever: 10 mm of horn and 15 over 12 mm of lever make 12.5 mm at the ring.',
  transmitter: {
    flightModes: [{ name: 'normal', pitchCurve: [-100, -50, 0, 50, 100] }],
    mix: { azimuths: [0, 135, 225], collective: 44, elevator: 26, aileron: 26, phase: 0, cyclicLimit: 100 },
    outputs: [
      { neutral: 1500, span: 400 },
      { neutral: 1500, span: 400 },
      { neutral: 1500, span: 400 },
    ],
  },
  servos: [
    {
      name: 'nose',
      neutral: 1500,
      sense: -1,
      shaft: [53, -10, -12],
      horn: { length: 10, azimuth: 90 },
      pushrod: 34,
      lever: {
        azimuth: 180,
        pivot: [41, 0, 22],
        servoEnd: { length: 12, angle: 180 },
        swashEnd: { length: 15, angle: 0 },
      },
      link: 36,
      ball: { radius: 26, azimuth: 0 },
    },
    {
      name: 'left rear',
      neutral: 1500,
      shaft: [-30.885, 18.385, 20],
      horn: { length: 12.5, azimuth: 0 },
      link: 38,
      ball: { radius: 26, azimuth: 135 },
    },
    {
      name: 'right rear',
      neutral: 1500,
      shaft: [-30.885, -18.385, 20],
      horn: { length: 12.5, azimuth: 0 },
      link: 38,
      ball: { radius: 26, azimuth: 225 },
    },
  ],
  swash: { height: 58, guide: 180 },
  rotor: {
    rotation: 'counterclockwise',
    blades: 3,
    hubHeight: 112,
    ring: { radius: 22, azimuth: 90, height: 5 },
    pitchArm: { station: 0, lead: 22 },
    links: [49, 49, 49],
  },
};
