/** Plain vectors and 3 x 3 matrices of the second model: fresh arrays everywhere, written to be read and not to be fast. */
export type Vec = [number, number, number];
export type Mat = [Vec, Vec, Vec];

export const DEG = Math.PI / 180;
export const UP: Vec = [0, 0, 1];

export const add = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
export const sub = (a: Vec, b: Vec): Vec => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (k: number, a: Vec): Vec => [k * a[0], k * a[1], k * a[2]];
export const dot = (a: Vec, b: Vec): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const cross = (a: Vec, b: Vec): Vec => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
export const norm = (a: Vec): number => Math.hypot(a[0], a[1], a[2]);
export const apply = (m: Mat, v: Vec): Vec => [dot(m[0], v), dot(m[1], v), dot(m[2], v)];
export const transpose = (m: Mat): Mat => [
  [m[0][0], m[1][0], m[2][0]],
  [m[0][1], m[1][1], m[2][1]],
  [m[0][2], m[1][2], m[2][2]],
];
export const product = (a: Mat, b: Mat): Mat => {
  const columns = transpose(b);
  const row = (r: Vec): Vec => [dot(r, columns[0]), dot(r, columns[1]), dot(r, columns[2])];
  return [row(a[0]), row(a[1]), row(a[2])];
};

/** Horizontal unit vector at a machine azimuth in radians, counter-clockwise from the nose. */
export const toward = (azimuth: number): Vec => [Math.cos(azimuth), Math.sin(azimuth), 0];

/** Rodrigues: the rotation by |w| radians about w. */
export function rotation(w: Vec): Mat {
  const angle = norm(w);
  // Below 1e-8 rad the series is exact to double precision, and the quotients would be 0/0 at zero.
  const s = angle < 1e-8 ? 1 : Math.sin(angle) / angle;
  const c = angle < 1e-8 ? 0.5 : (1 - Math.cos(angle)) / angle ** 2;
  const [x, y, z] = w;
  const k: Mat = [
    [0, -z, y],
    [z, 0, -x],
    [-y, x, 0],
  ];
  const k2 = product(k, k);
  const row = (i: 0 | 1 | 2): Vec => [
    (i === 0 ? 1 : 0) + s * k[i][0] + c * k2[i][0],
    (i === 1 ? 1 : 0) + s * k[i][1] + c * k2[i][1],
    (i === 2 ? 1 : 0) + s * k[i][2] + c * k2[i][2],
  ];
  return [row(0), row(1), row(2)];
}
