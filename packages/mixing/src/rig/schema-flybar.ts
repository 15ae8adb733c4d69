/** The flybar head's part of the rig document. Lengths mm, angles degrees; azimuths relative to blade 1. */
import { angle, length, list, object, place } from './quantity.ts';
import { armBall, armEnd, hubPivot, hubPivotWithHeight, ringBall } from './schema-parts.ts';

const two = (words: string, item: string, about: string) =>
  list(
    { words, about, expected: 'two lengths in mm', wayOut: 'give one for each side, as [first, second]' },
    length(item, 'mm, eye to eye'),
    2,
    2,
  );

export const flybar = object(
  { words: '', about: 'a Bell-Hiller head; two blades' },
  {
    azimuth: angle('flybar azimuth', "degrees, paddle 1's end"),
    height: place('flybar height', 'mm on the machine'),
    arm: armBall('flybar control arm', "the control-arm ball of paddle 1's side"),
    washout: object(
      { words: 'washout' },
      {
        height: place('base height', 'mm on the machine, as designed'),
        pivot: hubPivot('arm pivot', 'height above the base'),
        azimuth: angle('arm azimuth', "degrees: the direction of the arm's vertical plane"),
        flybarEnd: armEnd('arm flybar end'),
        swashEnd: armEnd('arm swashplate end'),
        ring: ringBall('ring ball', 'on the rotating ring'),
        links: two('links', 'link {n}', 'from arm to ring ball'),
        rods: two('rods', 'rod {n}', 'from arm to the control-arm ball of the same side'),
      },
    ),
    mixing: object(
      { words: 'mixing' },
      {
        pivot: hubPivotWithHeight('arm pivot', 'height on the machine at zero teeter'),
        azimuth: angle('arm azimuth', "degrees: the direction of the arm's vertical plane"),
        swashEnd: armEnd('arm swashplate end'),
        bladeEnd: armEnd('arm blade end'),
        ring: ringBall('ring ball', 'on the rotating ring'),
        rods: two('rods', 'rod {n}', 'from ring ball to arm'),
      },
    ),
  },
);
