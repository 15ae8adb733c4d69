/**
 * The rig, in full: the document of one machine with every default filled in.
 * Lengths in millimetres, angles in degrees, pulses in microseconds, mix, travel and curve values in percent,
 * exactly as the document writes them; `prepare()` converts to radians once. The keys are the document's keys, so a
 * JSON Pointer into the document is a pointer into this object too.
 * Frame: x forward, y left, z up along the mast (the axes of REP-103); azimuths counter-clockwise seen from above,
 * from the nose.
 */

/** A ball fixed on a ring: radius mm, azimuth degrees, height mm along the ring's axis from its centre. */
export interface RingBall {
  radius: number;
  azimuth: number;
  height: number;
}

/** One end of a lever or arm: length mm from its pivot, angle degrees above the horizontal at arm angle zero. */
export interface ArmEnd {
  length: number;
  angle: number;
}

/** A point on the machine, [x, y, z] mm (the tail uses its own [u, v, w]). */
export type Point = [number, number, number];

export interface PitchCurveMode {
  name: string;
  /** 2 to 17 values in percent at equally spaced collective stick positions from -1 to +1. */
  pitchCurve: number[];
}

export interface StickRate {
  /** percent */
  rate: number;
  /** percent; positive softens the centre */
  expo: number;
}

export interface Mix {
  /** Degrees: where the transmitter believes the three balls are. Absent only where `weights` stands. */
  azimuths?: [number, number, number];
  /** One row [collective, elevator, aileron] an output, in place of the weights that the azimuths give. */
  weights?: [Point, Point, Point];
  /** percent, signed */
  collective: number;
  elevator: number;
  aileron: number;
  /** Degrees by which the commanded tilt is turned in the direction of rotation. */
  phase: number;
  /** percent of full stick; absent: no limit */
  cyclicLimit?: number;
}

export interface Output {
  /** microseconds */
  neutral: number;
  /** microseconds for a command of 1 at 100 percent travel */
  span: number;
  /** percent, [below, above] the neutral command */
  travel: [number, number];
  /** microseconds */
  subtrim: number;
  reverse: boolean;
  /** microseconds [least, most]; absent: no limit */
  limits?: [number, number];
}

export interface Transmitter {
  flightModes: PitchCurveMode[];
  rates: { elevator: StickRate; aileron: StickRate; rudder: StickRate };
  mix: Mix;
  outputs: [Output, Output, Output];
  rudder: Output;
}

export interface Horn {
  length: number;
  /** degrees: the vertical plane in which the horn turns */
  azimuth: number;
  teeth: number;
  tooth: number;
  /** degrees */
  offset: number;
}

export interface Lever {
  azimuth: number;
  pivot: Point;
  servoEnd: ArmEnd;
  swashEnd: ArmEnd;
}

export interface Servo {
  name: string;
  /** 1 to 3: the output its lead is plugged into */
  output: number;
  /** microseconds: the servo's own neutral */
  neutral: number;
  /** +1 where a longer pulse raises the horn's ball, else -1 */
  sense: 1 | -1;
  /** degrees a microsecond */
  rate: number;
  shaft: Point;
  horn: Horn;
  /** mm, eye to eye: from the horn's (or the lever's) ball to the ring's */
  link: number;
  ball: RingBall;
  lever?: Lever;
  /** mm, eye to eye: from the horn's ball to the lever's servo end; stands exactly where `lever` stands */
  pushrod?: number;
}

export interface Rotor {
  rotation: 'clockwise' | 'counterclockwise';
  blades: number;
  hubHeight: number;
  driver: number;
  /** Absent only on a flybar head, whose mixing arms take its place. */
  ring?: RingBall;
  pitchArm: { station: number; lead: number; height: number };
  links: number[];
}

export interface Flybar {
  azimuth: number;
  height: number;
  arm: { station: number; lead: number; height: number };
  washout: {
    height: number;
    pivot: RingBall;
    azimuth: number;
    flybarEnd: ArmEnd;
    swashEnd: ArmEnd;
    ring: RingBall;
    links: [number, number];
    rods: [number, number];
  };
  mixing: {
    /** here `height` is the machine height at zero teeter, and is required */
    pivot: RingBall;
    azimuth: number;
    swashEnd: ArmEnd;
    bladeEnd: ArmEnd;
    ring: RingBall;
    rods: [number, number];
  };
}

export interface Gyro {
  /** as shown on its scale: -100 to 100 `signed`, 0 to 100 with 50 off `centred` */
  gain: number;
  scale: 'signed' | 'centred';
  reverse: boolean;
  /** microseconds per degree a second at full gain */
  rate: number;
  /** percent of the rudder output's span */
  limit: number;
  holdSide: 1 | -1;
}

export interface Tail {
  servo: {
    neutral: number;
    sense: 1 | -1;
    rate: number;
    /** [u, v, w] mm in the tail's own axes */
    shaft: Point;
    horn: { length: number; roll: number; teeth: number; tooth: number; offset: number };
  };
  lever: { pivot: Point; servoEnd: ArmEnd; sliderEnd: ArmEnd };
  rod: number;
  slider: { stops?: [number, number] };
  grip: { lead: number; height: number; spider: [number, number]; link: number };
  right: 1 | -1;
  gyro?: Gyro;
}

/** How well a value of the record is known: one standard deviation in the value's own unit. */
export interface Known {
  path: string;
  sd: number;
}

/** The step in which a link can be turned (mm), or that it cannot be. */
export type LinkStep = { path: string; step: number } | { path: string; fixed: true };

export interface Rig {
  format: 'swashtrue-rig/1';
  name: string;
  transmitter: Transmitter;
  servos: [Servo, Servo, Servo];
  swash: { height: number; guide: number };
  rotor: Rotor;
  flybar?: Flybar;
  tail?: Tail;
  /** mm */
  linkStep: number;
  steps: LinkStep[];
  known: Known[];
  /** mm from one hole of a horn to the next */
  holeStep: number;
  /** microseconds: the makers' neutral pulses that a servo can have */
  neutrals: number[];
}

/** One question: where the sticks are, where blade 1 is, and how the flybar and the machine turn. */
export interface Case {
  /** sticks, -1 to +1 */
  collective?: number;
  elevator?: number;
  aileron?: number;
  rudder?: number;
  /** a flight mode by name; the first where left out */
  mode?: string;
  /** degrees: blade 1's psi, from the tail in the direction of rotation */
  azimuth?: number;
  /** degrees, flybar held; not together with `settled` */
  teeter?: number;
  /** the flybar follows its paddles, as in flight */
  settled?: boolean;
  /** degrees a second, positive counter-clockwise from above */
  yawRate?: number;
}

/** What does not reach: the length by its JSON Pointer, and by how many millimetres it is short. */
export interface Unreachable {
  path: string;
  short: number;
}
