/**
 * A 120 degree machine of our own with a flybar head (washout base, Bell-Hiller mixing arms) and a tail with its gyro.
 * Everything stands level and square at mid-stick: washout arms, mixing arms, paddles, tail horn and tail lever.
 */
export const flybarTrainer = {
  format: 'swashtrue-rig/1',
  name: 'flybar trainer',
  'x-note': 'Invented. Mixing arms take 6 of 10 parts of the ring to the blades, the flybar gives the rest in flight.',
  transmitter: {
    flightModes: [
      { name: 'normal', pitchCurve: [-100, 100] },
      { name: 'hover', pitchCurve: [-20, 0, 25, 55, 90] },
    ],
    mix: { azimuths: [180, 300, 60], collective: 54, elevator: 35, aileron: 35, phase: 0 },
    outputs: [
      { neutral: 1520, span: 400 },
      { neutral: 1520, span: 400 },
      { neutral: 1520, span: 400 },
    ],
    rudder: { neutral: 1520, span: 400, travel: [100, 100], subtrim: 0, reverse: false },
  },
  servos: [
    {
      name: 'tail',
      shaft: [-26, 12.5, 21],
      horn: { length: 12.5, azimuth: 270 },
      link: 39,
      ball: { radius: 26, azimuth: 180 },
    },
    {
      name: 'right front',
      shaft: [25.5, -22.517, 21],
      horn: { length: 12.5, azimuth: 180 },
      link: 39,
      ball: { radius: 26, azimuth: 300 },
    },
    {
      name: 'left front',
      shaft: [25.5, 22.517, 21],
      horn: { length: 12.5, azimuth: 180 },
      link: 39,
      ball: { radius: 26, azimuth: 60 },
    },
  ],
  swash: { height: 60, guide: 180 },
  rotor: {
    rotation: 'clockwise',
    blades: 2,
    hubHeight: 118,
    driver: 90,
    pitchArm: { station: 0, lead: 16 },
    links: [12, 12],
  },
  flybar: {
    azimuth: 90,
    height: 126,
    arm: { station: 6, lead: 13 },
    washout: {
      height: 81.5,
      pivot: { radius: 6, azimuth: 90 },
      azimuth: 180,
      flybarEnd: { length: 13, angle: 0 },
      swashEnd: { length: 10, angle: 180 },
      ring: { radius: 10, azimuth: 0, height: 4 },
      links: [18.5, 18.5],
      rods: [44.5, 44.5],
    },
    mixing: {
      pivot: { radius: 10, azimuth: 90, height: 106 },
      azimuth: 90,
      swashEnd: { length: 10, angle: 0 },
      bladeEnd: { length: 6, angle: 0 },
      ring: { radius: 20, azimuth: 90, height: 4 },
      rods: [42, 42],
    },
  },
  tail: {
    servo: { neutral: 1520, sense: -1, rate: 0.1, shaft: [-300, 0, 0], horn: { length: 10 } },
    lever: { pivot: [0, -6, 0], servoEnd: { length: 16, angle: 90 }, sliderEnd: { length: 10, angle: 0 } },
    rod: 300,
    slider: { stops: [-4.5, 4.5] },
    grip: { lead: 9.5, spider: [9.5, -7], link: 7 },
    right: 1,
    gyro: { gain: 40, scale: 'signed', reverse: false, rate: 2, limit: 110 },
  },
};
