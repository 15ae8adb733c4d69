/**
 * The parts that several places of the rig document share: ring balls, arm ends, arm balls, points.
 * Lengths mm, angles degrees.
 */
import { angle, distanceMm, length, object, place, three } from './quantity.ts';

/** A ball on a ring. */
export const ringBall = (words: string, about: string) =>
  object(
    { words, about },
    {
      radius: length('radius', 'mm from the axis to the ball'),
      azimuth: angle('azimuth', 'degrees'),
      height: place('height', 'mm along the axis from the centre').default(0),
    },
  );

/** A pivot that turns with the hub; `height` is asked for where nothing says that it is 0. */
export const hubPivot = (words: string, about: string) =>
  object(
    { words, about },
    {
      radius: distanceMm('radius', 'mm from the mast axis'),
      azimuth: angle('azimuth', 'degrees, relative to blade 1'),
      height: place('height', 'mm').default(0),
    },
  );

export const hubPivotWithHeight = (words: string, about: string) =>
  object(
    { words, about },
    {
      radius: distanceMm('radius', 'mm from the mast axis'),
      azimuth: angle('azimuth', 'degrees, relative to blade 1'),
      height: place('height', 'mm, on the machine, at zero teeter'),
    },
  );

/** One end of a lever or arm. */
export const armEnd = (words: string) =>
  object(
    { words, about: 'an end of an arm, seen from its pivot' },
    {
      length: length('length', 'mm from pivot to ball'),
      angle: angle('angle', 'degrees above the horizontal at arm angle zero'),
    },
  );

/** The ball of a blade's pitch arm or of a flybar's control arm. */
export const armBall = (words: string, about: string) =>
  object(
    { words, about },
    {
      station: place('station', 'mm out along the blade or flybar from the mast axis'),
      lead: place('lead', 'mm ahead of the axis that it turns about'),
      height: place('height', 'mm above that axis').default(0),
    },
  );

/** A place on the machine. */
export const point = (words: string, about: string) =>
  three(
    { words, about, expected: 'a place [x, y, z] in mm' },
    place('x', 'mm forward'),
    place('y', 'mm left'),
    place('z', 'mm up'),
  );

/** A place in the tail's own axes. */
export const tailPoint = (words: string, about: string) =>
  three(
    { words, about, expected: 'a place [u, v, w] in mm' },
    place('u', 'mm along the boom, aft'),
    place('v', 'mm along the tail shaft, away from the gear case'),
    place('w', 'mm up'),
  );
