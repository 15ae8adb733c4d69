/**
 * What a pitch gauge, a leveller and the eye showed on the bench trainer, whose left front horn stood some degrees high.
 * Invented: made from the machine with that horn set over and a little scatter in every part, read with a gauge that
 * shows 0.4 degree too much, and rounded as a person rounds. The standard set, with a flip check after its first gauge
 * reading.
 */
const gauge = (azimuth: number, value: number, rest: object = {}) => ({
  measure: 'blade-pitch',
  azimuth,
  value,
  instrument: 'pitch gauge',
  ...rest,
});

export const benchReadings = {
  format: 'swashtrue-readings/1',
  'x-note': 'Invented readings of the bench trainer; one horn stands high.',
  instruments: [{ name: 'pitch gauge', reference: 'gravity', zeroSd: 0.5, step: 0.1, sd: 0.25 }],
  lean: { foreAftSd: 0, sideSd: 0 },
  readings: [
    { seen: { path: '/transmitter/outputs/0/reverse', value: false } },
    { moves: { sticks: { collective: 1 }, part: 'swash', way: 'up' } },
    { measure: 'horn-angle', of: 1, value: 7 },
    { measure: 'horn-angle', of: 2, value: -2 },
    { measure: 'horn-angle', of: 3, value: 0 },
    { measure: 'fore-aft-tilt', value: -1.4 },
    { measure: 'side-tilt', value: 2.6 },
    gauge(0, 3.9),
    gauge(0, -3, { flipped: true }),
    gauge(0, -0.4, { of: 2 }),
    gauge(180, 3.8, { of: 2 }),
    gauge(180, -0.4),
    { measure: 'fore-aft-tilt', sticks: { collective: 1 }, value: -1 },
    { measure: 'side-tilt', sticks: { collective: 1 }, value: 1.3 },
    gauge(0, 13.5, { sticks: { collective: 1 } }),
    gauge(0, 10.3, { of: 2, sticks: { collective: 1 } }),
    { measure: 'fore-aft-tilt', sticks: { collective: -1 }, value: -1.4 },
    { measure: 'side-tilt', sticks: { collective: -1 }, value: 2.6 },
    gauge(180, -6.5, { of: 2, sticks: { collective: -1 } }),
    gauge(180, -10.7, { sticks: { collective: -1 } }),
    { measure: 'fore-aft-tilt', sticks: { elevator: 1 }, value: 3.6 },
    { measure: 'side-tilt', sticks: { elevator: 1 }, value: 2 },
    gauge(270, 4.9, { sticks: { elevator: 1 } }),
    gauge(0, 3.5, { sticks: { elevator: 1 } }),
    gauge(180, 3.4, { of: 2, sticks: { elevator: -1 } }),
    { measure: 'fore-aft-tilt', sticks: { aileron: 1 }, value: -1.2 },
    { measure: 'side-tilt', sticks: { aileron: 1 }, value: 6.8 },
    gauge(0, 8.2, { sticks: { aileron: 1 } }),
    gauge(270, 0.3, { sticks: { aileron: 1 } }),
    gauge(90, 0.2, { of: 2, sticks: { aileron: -1 } }),
  ],
};
