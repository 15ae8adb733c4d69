/** Targets and tolerances for the demo machines: invented, of the size that is common practice (no source). */
export const gentleTargets = {
  format: 'swashtrue-targets/1',
  'x-note': 'A beginner’s machine: less pitch below than above, soft cyclic, little sub-trim, corners free.',
  mode: 'normal',
  collective: [-6, 10],
  cyclic: 4,
  within: { level: 0.5, zero: 0.5, match: 0.3, subtrim: 40, corners: true },
};

export const workshopTolerances = {
  format: 'swashtrue-tolerances/1',
  'x-note': 'What a careful builder with a caliper may reckon with.',
  items: [
    ...[0, 1, 2].flatMap((i) => [
      { path: `/servos/${i}/link`, sd: '0.1 mm' },
      { path: `/servos/${i}/horn/offset`, sd: '1 deg' },
      { path: `/servos/${i}/horn/length`, plusMinus: '0.1 mm' },
      { path: `/servos/${i}/ball/radius`, plusMinus: '0.1 mm' },
    ]),
    { path: '/rotor/links/0', sd: '0.03 mm' },
    { path: '/rotor/links/1', sd: '0.03 mm' },
  ],
};
