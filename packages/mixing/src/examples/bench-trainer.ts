/**
 * A plain 120 degree machine of our own: three servos straight below their ring balls, two blades, no flybar, no tail.
 * Horns level, links upright and pitch arms level at mid-stick, so that a horn set wrong shows by itself.
 */
export const benchTrainer = {
  format: 'swashtrue-rig/1',
  name: 'bench trainer',
  'x-note': 'Invented for trying things out: set one horn a tooth over and see where the lean comes from.',
  transmitter: {
    flightModes: [
      { name: 'normal', pitchCurve: [-100, 100] },
      { name: 'hover', pitchCurve: [-30, 10, 35, 60, 90] },
    ],
    rates: {
      elevator: { rate: 100, expo: 0 },
      aileron: { rate: 100, expo: 0 },
      rudder: { rate: 100, expo: 0 },
    },
    mix: { azimuths: [60, 180, 300], collective: 43, elevator: 24, aileron: 24, phase: 0 },
    outputs: [
      { neutral: 1520, span: 400, travel: [100, 100], subtrim: 0, reverse: false, limits: [1100, 1940] },
      { neutral: 1520, span: 400, travel: [100, 100], subtrim: 0, reverse: false, limits: [1100, 1940] },
      { neutral: 1520, span: 400, travel: [100, 100], subtrim: 0, reverse: false, limits: [1100, 1940] },
    ],
  },
  servos: [
    {
      name: 'left front',
      output: 1,
      neutral: 1520,
      sense: 1,
      rate: 0.1,
      shaft: [24.5, 20.785, 22],
      horn: { length: 12.5, azimuth: 180, teeth: 25, tooth: 0, offset: 0 },
      link: 38,
      ball: { radius: 24, azimuth: 60, height: 0 },
    },
    {
      name: 'tail',
      output: 2,
      neutral: 1520,
      sense: 1,
      rate: 0.1,
      shaft: [-24, -12.5, 22],
      horn: { length: 12.5, azimuth: 90, teeth: 25, tooth: 0, offset: 0 },
      link: 38,
      ball: { radius: 24, azimuth: 180, height: 0 },
    },
    {
      name: 'right front',
      output: 3,
      neutral: 1520,
      sense: 1,
      rate: 0.1,
      shaft: [24.5, -20.785, 22],
      horn: { length: 12.5, azimuth: 180, teeth: 25, tooth: 0, offset: 0 },
      link: 38,
      ball: { radius: 24, azimuth: 300, height: 0 },
    },
  ],
  swash: { height: 60, guide: 180 },
  rotor: {
    rotation: 'clockwise',
    blades: 2,
    hubHeight: 110,
    driver: 0,
    ring: { radius: 21, azimuth: 90, height: 4 },
    pitchArm: { station: 0, lead: 21, height: 0 },
    links: [46, 46],
  },
};
