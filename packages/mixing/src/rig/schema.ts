/**
 * The rig document: every key, its kind, its default and its name in words of the trade. What must agree between
 * places (counts, a layout or weights, balls in one line) stands in `rules.ts`.
 */
import { z } from 'zod';
import {
  angle,
  length,
  list,
  named,
  object,
  pathText,
  place,
  pulse,
  sense,
  servoRate,
  spread,
  text,
  whole,
  word,
} from './quantity.ts';
import { flybar } from './schema-flybar.ts';
import { armBall, armEnd, point, ringBall } from './schema-parts.ts';
import { tail } from './schema-tail.ts';
import { transmitter } from './schema-transmitter.ts';

export const RIG_FORMAT = 'swashtrue-rig/1';

const horn = object(
  { words: 'horn' },
  {
    length: length('length', 'mm from shaft to ball'),
    azimuth: angle('azimuth', 'degrees: the vertical plane in which the horn turns'),
    teeth: whole('teeth', 1, 1000, 'teeth of the spline').default(25),
    tooth: whole('tooth', -1000, 1000, 'teeth that the horn is set over').default(0),
    offset: angle('offset', 'degrees; positive raises the ball').default(0),
  },
);

const lever = object(
  { words: 'lever', about: 'a bell crank between the horn and the ring; it needs a pushrod' },
  {
    azimuth: angle('azimuth', 'degrees: the vertical plane in which it turns'),
    pivot: point('pivot', 'mm on the machine'),
    servoEnd: armEnd('servo end'),
    swashEnd: armEnd('swashplate end'),
  },
);

const servo = object(
  { words: 'servo {n}{name}', owner: true },
  {
    name: text('name', 'name it by its place, as "left rear"').exactOptional(),
    output: whole(
      'lead',
      1,
      3,
      'the output, 1 to 3, that its lead is plugged into; its own place where left out',
    ).exactOptional(),
    neutral: pulse('neutral', "microseconds: the servo's own").default(1520),
    sense: sense('sense', "+1 where a longer pulse raises the horn's ball, else -1").default(1),
    rate: servoRate('rate', 'degrees a microsecond').default(0.1),
    shaft: point('shaft', "where the horn's shaft stands, mm"),
    horn,
    link: length('link', "mm, eye to eye, from the horn's or the lever's ball to the ring's"),
    ball: ringBall('ball', 'on the stationary ring'),
    lever: lever.exactOptional(),
    pushrod: length('pushrod', "mm, eye to eye, from the horn's ball to the lever's servo end").exactOptional(),
  },
);

const rotor = object(
  { words: '' },
  {
    rotation: word('rotation', ['clockwise', 'counterclockwise'], 'seen from above'),
    blades: whole('number of blades', 1, 16),
    hubHeight: place('hub height', 'mm on the machine, of the feathering axes'),
    driver: angle('driver azimuth', 'degrees, relative to blade 1').default(0),
    ring: ringBall("blade's ring ball", 'on the rotating ring; azimuth ahead of its blade').exactOptional(),
    pitchArm: armBall('pitch arm', "the ball of the blade's pitch arm at zero pitch"),
    links: list(
      {
        words: 'blade links',
        about: 'mm, eye to eye, from ring ball (or mixing arm) to pitch arm; one a blade',
        expected: 'one length in mm for each blade',
        wayOut: 'give as many links as there are blades',
      },
      length('blade {n} link', 'mm, eye to eye'),
      1,
      16,
    ),
  },
);

const linkStep = object(
  { words: 'step {n}', about: 'either the step of one link or that it cannot be turned' },
  {
    path: pathText('the link'),
    step: length('step', 'mm').exactOptional(),
    fixed: named(z.literal(true), {
      words: 'fixed',
      expected: 'true',
      wayOut: 'leave it out where the link can be turned',
      about: 'true for a moulded link, which cannot be turned',
    }).exactOptional(),
  },
);

const known = object(
  { words: 'known {n}', about: "how well one value of the record is known; sd is in the value's own unit" },
  { path: pathText('the value'), sd: spread() },
);

export const rigSchema = object(
  { words: 'rig', about: 'lengths mm, angles degrees, pulses microseconds, mix, travel and curve values percent' },
  {
    format: named(z.literal(RIG_FORMAT), {
      words: 'format',
      expected: JSON.stringify(RIG_FORMAT),
      wayOut: `write "format": ${JSON.stringify(RIG_FORMAT)} at the head of the document`,
    }),
    name: text('name', 'name the machine'),
    transmitter,
    servos: list(
      {
        words: 'servos',
        expected: 'exactly three servos',
        wayOut: 'three servos carry the ring; a head carried by fewer or more is another mechanism',
      },
      servo,
      3,
      3,
    ),
    swash: object(
      { words: 'swashplate', owner: true },
      {
        height: place('height', 'mm: the designed centre height with the ring level'),
        guide: angle('guide azimuth', 'degrees: the ring direction that a guide keeps in its vertical plane'),
      },
    ),
    rotor,
    flybar: flybar.exactOptional(),
    tail: tail.exactOptional(),
    linkStep: length('link step', 'mm by which a link turns at least').default(0.2),
    steps: list({ words: 'steps', about: 'links with a step of their own' }, linkStep).default([]),
    known: list({ words: 'known', about: 'values whose scatter is known' }, known).default([]),
    holeStep: length('hole step', 'mm from one hole of a horn to the next').default(2.5),
    neutrals: list(
      {
        words: 'neutrals',
        about: 'microseconds: neutral pulses that a servo can have',
        expected: 'at least one pulse in microseconds',
      },
      pulse('neutral {n}'),
      1,
    ).default([1500, 1520]),
  },
);
