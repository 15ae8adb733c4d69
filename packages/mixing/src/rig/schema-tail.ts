/** The tail's part of the rig document, in its own axes [u, v, w]. Lengths mm, angles degrees, pulses microseconds. */
import {
  angle,
  factor,
  gyroRate,
  length,
  object,
  pair,
  place,
  pulse,
  sense,
  servoRate,
  share,
  whole,
  word,
  yesNo,
} from './quantity.ts';
import { armEnd, tailPoint } from './schema-parts.ts';

const tailServo = object(
  { words: 'tail servo', owner: true },
  {
    neutral: pulse('neutral', "microseconds: the servo's own").default(1520),
    sense: sense('sense', "+1 where a longer pulse moves the horn's ball aft, else -1").default(1),
    rate: servoRate('rate', 'degrees a microsecond').default(0.1),
    shaft: tailPoint('shaft', "where the horn's shaft stands, mm"),
    horn: object(
      { words: 'horn' },
      {
        length: length('length', 'mm from shaft to ball'),
        roll: angle('roll', 'degrees: 0 lies in the tail plane, 90 stands up').default(0),
        teeth: whole('teeth', 1, 1000, 'teeth of the spline').default(25),
        tooth: whole('tooth', -1000, 1000, 'teeth that the horn is set over').default(0),
        offset: angle('offset', 'degrees').default(0),
      },
    ),
  },
);

const gyro = object(
  { words: 'gyro', owner: true },
  {
    gain: factor('gain', 'as shown on its scale').exactOptional(),
    scale: word('scale', ['signed', 'centred'], 'centred: 0 to 100 is shown and 50 is off').default('signed'),
    reverse: yesNo('reverse', 'whether its answer is turned round').default(false),
    rate: gyroRate('rate', 'microseconds per degree a second at full gain').default(2),
    limit: share('limit', "percent of the rudder output's span").default(150),
    holdSide: sense('hold side', 'the sign of gain that holds heading, +1 or -1').default(1),
  },
);

export const tail = object(
  { words: '' },
  {
    servo: tailServo,
    lever: object(
      { words: 'tail lever', owner: true },
      { pivot: tailPoint('pivot', 'mm'), servoEnd: armEnd('servo end'), sliderEnd: armEnd('slider end') },
    ),
    rod: length('tail rod', "mm, eye to eye, from the horn's ball to the lever"),
    slider: object(
      { words: 'tail slider', owner: true },
      {
        stops: pair(
          {
            words: 'stops',
            about: 'mm of travel [least, most]; none act where left out',
            expected: '[least, most] in mm of travel, least first',
            wayOut: 'write the smaller travel first, or leave stops out',
          },
          place('least'),
          place('most'),
        ).exactOptional(),
      },
    ).prefault({}),
    grip: object(
      { words: 'tail grip', owner: true },
      {
        lead: place('lead', 'mm from the feathering axis to the arm ball'),
        height: place('height', 'mm along the shaft').default(0),
        spider: pair(
          { words: 'spider ball', about: 'mm [from the feathering axis, along the shaft] with the slider at 0' },
          place('lead'),
          place('height'),
        ),
        link: length('link', 'mm, eye to eye'),
      },
    ),
    right: sense('right', '+1 where rising tail pitch swings the nose right, else -1').default(1),
    gyro: gyro.exactOptional(),
  },
);
