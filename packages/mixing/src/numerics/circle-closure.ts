/**
 * A ball on an arm that turns about a fixed axis, tied by a straight link to a given ball: the one closure that a
 * lever, a blade's pitch arm, a mixing arm, the tail's lever and the tail's grip all share.
 *
 * The arm's ball runs on a circle of radius r about the axis. With q the other ball seen from the circle's centre,
 * (x, y) in the circle's plane and n out of it, and t the ball's angle on the circle:
 *
 *   r^2 + |q|^2 - 2 r (x cos t + y sin t) = length^2
 *   x cos t + y sin t = C,  C = (r^2 + |q|^2 - length^2) / (2 r)
 *
 * which closes in two places, mirror images in the direction of (x, y), as long as |C| <= hypot(x, y).
 * Freudenstein's equation is this with n = 0 (F. Freudenstein, Trans. ASME 77, 1955, 853-861).
 */

/**
 * The closure on one side: writes cos t and sin t into `out[at]`, `out[at + 1]`.
 * `side` +1 is the closure counter-clockwise of (x, y), -1 the one clockwise of it.
 * Returns false, and writes nothing, where the link cannot reach.
 */
export function closeOnSide(
  radius: number,
  x: number,
  y: number,
  n: number,
  length: number,
  side: number,
  out: Float64Array,
  at: number,
): boolean {
  const reach2 = x * x + y * y;
  const c = (radius * radius + reach2 + n * n - length * length) / (2 * radius);
  const room = reach2 - c * c;
  if (!(room >= 0) || reach2 === 0) return false;
  const s = side * Math.sqrt(room);
  out[at] = (x * c - y * s) / reach2;
  out[at + 1] = (y * c + x * s) / reach2;
  return true;
}

/**
 * How far an arm stands from dead centre, where its two closures meet and the link no longer says which way it turns: the
 * sine of the angle between the arm (cos t, sin t) and the other ball's direction (x, y), 0 at dead centre, 1 square to it.
 * The arm turns by 1/sine times what it would turn square to the link, for a given error of the link.
 */
export function overCentreSine(x: number, y: number, cosT: number, sinT: number): number {
  return Math.abs(x * sinT - y * cosT) / Math.sqrt(x * x + y * y);
}

/** Which side of (x, y) an arm's ball at angle (cos t, sin t) lies on: +1 counter-clockwise, -1 clockwise. */
export function sideOf(x: number, y: number, cosT: number, sinT: number): 1 | -1 {
  return x * sinT - y * cosT >= 0 ? 1 : -1;
}

/**
 * The closure nearer zero rotation of an arm whose ball stands at (lead, height) before it turns: gives tan(t/2) of
 * the rotation t, or NaN where the link cannot reach.
 *
 *   A cos t + B sin t = C,  A = lead x + height y,  B = lead y - height x
 *   (A + C) T^2 - 2 B T + (C - A) = 0 with T = tan(t/2); the root of smaller size is (C - A)/(B +- sqrt(A^2+B^2-C^2)),
 *   the sign being B's, which also is the form that cancels no digits.
 */
export function halfTangentNearZero(lead: number, height: number, x: number, y: number, n: number, length: number): number {
  const a = lead * x + height * y;
  const b = lead * y - height * x;
  const c = (lead * lead + height * height + x * x + y * y + n * n - length * length) / 2;
  const room = a * a + b * b - c * c;
  if (!(room >= 0)) return Number.NaN;
  const root = Math.sqrt(room);
  const over = b < 0 ? b - root : b + root;
  // Nought over nought is dead centre at no rotation; anything else over nought is half a turn.
  return (c - a) / (over === 0 ? Number.MIN_VALUE : over);
}

/**
 * By how many millimetres a link misses its arm's ball at the nearest pose: positive where the link is too short,
 * negative where it is too long, 0 where it reaches.
 */
export function missMm(radius: number, x: number, y: number, n: number, length: number): number {
  const inPlane = Math.hypot(x, y);
  const nearest = Math.hypot(inPlane - radius, n);
  const farthest = Math.hypot(inPlane + radius, n);
  return length < nearest ? nearest - length : length > farthest ? farthest - length : 0;
}
