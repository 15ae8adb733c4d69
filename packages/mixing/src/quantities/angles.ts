/**
 * The border between degrees (documents, command line, screen) and radians (everything inside).
 * Nothing else in the library multiplies by pi/180.
 */

export const RAD_PER_DEG = Math.PI / 180;
export const DEG_PER_RAD = 180 / Math.PI;

/** Degrees to radians. */
export function radOf(angleDeg: number): number {
  return angleDeg * RAD_PER_DEG;
}

/** Radians to degrees. */
export function degOf(angleRad: number): number {
  return angleRad * DEG_PER_RAD;
}

/**
 * The cosine of an angle in degrees, exact at the quarter turns, so that a ball at azimuth 90 has x = 0 and a level,
 * symmetric machine stays symmetric to the last bit.
 */
export function cosDeg(angleDeg: number): number {
  return sinDeg(angleDeg + 90);
}

/** The sine of an angle in degrees, exact at the multiples of 90 degrees. */
export function sinDeg(angleDeg: number): number {
  const turn = angleDeg < 360 && angleDeg > -360 ? angleDeg : angleDeg % 360;
  const quarters = turn / 90;
  if (quarters !== Math.floor(quarters)) return Math.sin(turn * RAD_PER_DEG);
  if (quarters === 1 || quarters === -3) return 1;
  return quarters === 3 || quarters === -1 ? -1 : 0;
}

/** The same direction in [0, 360) degrees: the way azimuths are written in causes and changes. */
export function turnDeg(angleDeg: number): number {
  const turn = angleDeg % 360;
  return turn < 0 ? turn + 360 : turn + 0;
}

/** The same direction in (-pi, pi] radians. */
export function wrapRad(angleRad: number): number {
  const wrapped = angleRad - 2 * Math.PI * Math.round(angleRad / (2 * Math.PI));
  return wrapped === -Math.PI ? Math.PI : wrapped;
}
