/** A prepared machine and a place in, what stands there out, without an instrument. */
import { cosDeg, radOf, sinDeg } from '../quantities/angles.ts';
import { makePose, type Pose, poseRing, setHorns, setSticks } from '../rig/pose.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { headReading, reachOf, ringReading, servoReading, tailReading } from './probe.ts';
import type { ReadingPlace } from './readings.ts';

/** Reads one place off one machine without an instrument; NaN where it cannot be reached. Poses are kept between places. */
export class Reader {
  private readonly pose: Pose;
  private stuck = '';

  constructor(private readonly prepared: PreparedRig) {
    this.pose = makePose(prepared);
  }

  read(place: ReadingPlace): number {
    const { prepared, pose } = this;
    const { measure, of, sticks } = place;
    const reach = reachOf(measure);
    if (reach === 'none') return Number.NaN;
    if (reach === 'tail') {
      const { tail, transmitter } = prepared;
      return tail ? tailReading(transmitter, tail, measure, sticks.rudder, place.yawRate) : Number.NaN;
    }
    const modes = prepared.transmitter.modes;
    const mode = Math.max(0, place.mode === undefined ? 0 : modes.findIndex(({ name }) => name === place.mode));
    const at = `${mode} ${sticks.collective} ${sticks.elevator} ${sticks.aileron}`;
    if (at !== this.stuck) {
      setSticks(prepared, pose, mode, sticks.collective, sticks.elevator, sticks.aileron);
      setHorns(prepared, pose);
      this.closed = poseRing(prepared, pose);
      this.stuck = at;
    }
    if (reach === 'servo') return servoReading(prepared, pose, measure, of);
    if (!this.closed) return Number.NaN;
    if (reach === 'ring') return ringReading(prepared, pose, measure);
    const head = { psiCos: cosDeg(place.azimuth), psiSin: sinDeg(place.azimuth), teeterRad: radOf(place.teeter) };
    return headReading(prepared, pose, head, measure, of);
  }
  private closed = false;
}
