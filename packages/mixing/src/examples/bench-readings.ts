/**
 * What a pitch gauge, a leveller and the eye showed on the bench trainer, whose left front horn stood some degrees high.
 * Invented: made from the machine with that horn set over and a little scatter in every part, read with a gauge that
 * shows 0.4 degree too much, and rounded as a person rounds. The first gauge readings are a flip check.
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
    { measure: 'horn-angle', of: 1, value: 8 },
    { measure: 'horn-angle', of: 2, value: -2 },
    { measure: 'horn-angle', of: 3, value: 2 },
    { measure: 'fore-aft-tilt', value: -1 },
    { measure: 'side-tilt', value: 2.2 },
    gauge(0, 4.1),
    gauge(0, -3.2, { flipped: true }),
    gauge(180, 3.9, { of: 2 }),
    gauge(270, 1.1),
    gauge(0, 13.8, { sticks: { collective: 1 } }),
    gauge(180, 13.9, { of: 2, sticks: { collective: 1 } }),
    { measure: 'horn-angle', of: 1, sticks: { collective: 1 }, value: 24 },
    { measure: 'horn-angle', of: 2, sticks: { collective: 1 }, value: 18 },
    { measure: 'horn-angle', of: 3, sticks: { collective: 1 }, value: 17 },
    gauge(0, -6.4, { sticks: { collective: -1 } }),
    gauge(270, 5.8, { sticks: { elevator: 1 } }),
    gauge(90, -1.9, { sticks: { elevator: 1 } }),
    gauge(270, -3.9, { sticks: { elevator: -1 } }),
    gauge(90, 8.2, { sticks: { elevator: -1 } }),
    { measure: 'fore-aft-tilt', sticks: { elevator: 1 }, value: 3.4 },
    gauge(0, 8.9, { sticks: { aileron: 1 } }),
    gauge(180, -4.9, { sticks: { aileron: 1 } }),
    gauge(0, -1.2, { sticks: { aileron: -1 } }),
    gauge(180, 5, { sticks: { aileron: -1 } }),
    { measure: 'side-tilt', sticks: { aileron: 1 }, value: 7.3 },
  ],
};
