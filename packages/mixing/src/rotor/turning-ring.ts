/**
 * The turning half of the swashplate, seen in a blade's own frame R (x out along the blade, y the way it goes, z up).
 *
 * It shares centre (height z) and normal n with the stationary half. Its driver keeps the ring's own direction at
 * azimuth D in the vertical plane through the mast at D, with d = (cos D, sin D, 0):
 *
 *   e1 = (n_z d - (n . d) z) / m,   m = hypot(n_z, n . d),   e2 = n x e1
 *
 * and a ball {radius, azimuth, height} on it stands at  z + radius (cos(A) e1 + sin(A) e2) + height n,  A = azimuth - D.
 */
import { cosDeg, sinDeg } from '../quantities/angles.ts';
import type { RingBall } from '../rig/rig.ts';

/** A ball on the turning ring, prepared for the frame in which `driverDeg` and its azimuth are given. */
export interface PreparedTurningBall {
  driverCos: number;
  driverSin: number;
  /** radius times cosine and sine of the ball's azimuth from the driver, mm */
  along: number;
  across: number;
  heightMm: number;
}

export function prepareTurningBall(ball: RingBall, driverDeg: number): PreparedTurningBall {
  return {
    driverCos: cosDeg(driverDeg),
    driverSin: sinDeg(driverDeg),
    along: ball.radius * cosDeg(ball.azimuth - driverDeg),
    across: ball.radius * sinDeg(ball.azimuth - driverDeg),
    heightMm: ball.height,
  };
}

/** The ball's place in R, into `out[at .. at + 2]`, mm, for the ring's height and its normal in R. */
export function turningBall(
  ball: PreparedTurningBall,
  heightMm: number,
  nx: number,
  ny: number,
  nz: number,
  out: Float64Array,
  at: number,
): void {
  const c = ball.driverCos;
  const s = ball.driverSin;
  const nd = nx * c + ny * s;
  const perM = 1 / Math.sqrt(nz * nz + nd * nd);
  const along = ball.along * perM;
  const across = ball.across * perM;
  const nz2 = nz * nz;
  out[at] = along * nz * c - across * (ny * nd + nz2 * s) + ball.heightMm * nx;
  out[at + 1] = along * nz * s + across * (nz2 * c + nx * nd) + ball.heightMm * ny;
  out[at + 2] = heightMm - along * nd + across * nz * (nx * s - ny * c) + ball.heightMm * nz;
}

/**
 * How the ball's place in R moves as the normal (nx, ny, nz) does by (dx, dy, dz), into `out[0 .. 2]`, mm per unit of what
 * the normal is moved by: the derivatives of the formula above, in its order.
 */
export function turningBallSlope(
  ball: PreparedTurningBall,
  nx: number,
  ny: number,
  nz: number,
  dx: number,
  dy: number,
  dz: number,
  out: Float64Array,
): void {
  const c = ball.driverCos;
  const s = ball.driverSin;
  const nd = nx * c + ny * s;
  const dd = dx * c + dy * s;
  const perM2 = 1 / (nz * nz + nd * nd);
  const perM = Math.sqrt(perM2);
  const shrink = (nz * dz + nd * dd) * perM2;
  const along = ball.along * perM;
  const across = ball.across * perM;
  const nz2 = nz * nz;
  const dz2 = 2 * nz * dz;
  out[0] =
    along * c * (dz - shrink * nz) - across * (dy * nd + ny * dd + dz2 * s - shrink * (ny * nd + nz2 * s)) + ball.heightMm * dx;
  out[1] =
    along * s * (dz - shrink * nz) + across * (dz2 * c + dx * nd + nx * dd - shrink * (nz2 * c + nx * nd)) + ball.heightMm * dy;
  out[2] =
    -along * (dd - shrink * nd) + across * ((dz - shrink * nz) * (nx * s - ny * c) + nz * (dx * s - dy * c)) + ball.heightMm * dz;
}

/**
 * The ring's normal in R of a blade at psi 0 (over the tail), from its normal in G, into `out[at .. at + 2]`; for a blade at
 * psi it turns by psi. `guideCos` and `guideSin` are those of G's azimuth in the machine frame.
 */
export function normalOverTail(
  guideCos: number,
  guideSin: number,
  rotation: number,
  nx: number,
  ny: number,
  nz: number,
  out: Float64Array,
  at: number,
): void {
  out[at] = -(nx * guideCos - ny * guideSin);
  out[at + 1] = -rotation * (nx * guideSin + ny * guideCos);
  out[at + 2] = nz;
}
