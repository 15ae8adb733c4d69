/**
 * Values from outside, typed from the project's list of sources. `READ` is a text that was read, `COMP` a number computed
 * independently of this project (50 digits or double precision, without sight of its code), `MEM` a citation from memory,
 * still to be confirmed. Angles are degrees, lengths as each source has them.
 */

/**
 * Hooke or Cardan joint: out - in where tan(out) = cos(tilt) tan(in). The relation READ in a general simulation tool's
 * manual and in R. Puetter's note "Universal Joint" (ticalc.org); MEM: Shigley and Uicker, Theory of Machines and
 * Mechanisms. Numbers COMP.
 */
export const CARDAN = {
  in: [15, 30, 45, 60, 75],
  rows: [
    { tilt: 2, outLessIn: [-0.008726, -0.015116, -0.017457, -0.01512, -0.008731], most: 0.017457, mostAt: 45.00873 },
    { tilt: 5, outLessIn: [-0.054521, -0.094499, -0.109222, -0.094679, -0.054701], most: 0.109222, mostAt: 45.05461 },
    { tilt: 8, outLessIn: [-0.13949, -0.242035, -0.28016, -0.243221, -0.140677], most: 0.280164, mostAt: 45.14008 },
    { tilt: 10, outLessIn: [-0.217834, -0.378348, -0.438549, -0.381255, -0.220741], most: 0.438561, mostAt: 45.21928 },
    { tilt: 12, outLessIn: [-0.313468, -0.545115, -0.632915, -0.55117, -0.319524], most: 0.632954, mostAt: 45.31648 },
    { tilt: 15, outLessIn: [-0.489181, -0.852574, -0.992973, -0.867478, -0.50409], most: 0.993122, mostAt: 45.49656 },
    { tilt: 20, outLessIn: [-0.867277, -1.518762, -1.780821, -1.566704, -0.915266], most: 1.781682, mostAt: 45.89084 },
  ],
} as const;

/** Yaw of a plate on a ball whose pin stays in a plane through the mast, tilted `tilt` toward `azimuth` from that plane. COMP. */
export const PLATE_YAW = [
  { tilt: 10, azimuth: 30, yaw: 0.378348124805 },
  { tilt: 10, azimuth: 45, yaw: 0.438548586742 },
  { tilt: 8, azimuth: 60, yaw: 0.243221078808 },
  { tilt: 12, azimuth: 20, yaw: 0.403425798995 },
] as const;

/**
 * The pin on x in the x-z plane is R = Ry(pitch) Rx(roll): its normal at pitch 7, roll 5, and what Rx Ry would give
 * instead. COMP.
 */
export const PIN_ORDER = {
  pitch: 7,
  roll: 5,
  normal: [0.12140559376, -0.08715574275, 0.98876921388],
  otherOrder: [0.12186934341, -0.08650609706, 0.98876921388],
} as const;

/**
 * Four-bars (ground d, input a, coupler b, output c, input angle th2): coupler and output angles, open and crossed. MEM:
 * R. L. Norton, Design of Machinery, table P4-1 and example 4-1 (its printed 57.33, -98.01, 20.30, -60.98); recomputed,
 * COMP, by Freudenstein's equation (READ: Trans. ASME 77, 1955, 853-861, title and nomenclature).
 */
export const FOUR_BARS = [
  { row: 'example 4-1', d: 100, a: 40, b: 120, c: 80, th2: 40, open: [20.297883, 57.32488], crossed: [-60.977967, -98.004964] },
  { row: 'a', d: 6, a: 2, b: 7, c: 9, th2: 30, open: [88.837241, 117.286068], crossed: [-115.210812, -143.659639] },
  { row: 'c', d: 3, a: 10, b: 6, c: 8, th2: 45, open: [-53.132032, 16.491215], crossed: [173.270871, 103.647624] },
  { row: 'e', d: 8, a: 5, b: 8, c: 6, th2: 75, open: [7.497339, 78.212425], crossed: [-79.020616, -149.735703] },
  { row: 'g', d: 6, a: 8, b: 8, c: 9, th2: 25, open: [-16.314891, 7.23605], crossed: [155.720485, 132.169545] },
  { row: 'i', d: 4, a: 5, b: 2, c: 5, th2: 80, open: [-1.546603, 103.090955], crossed: [-113.539509, 141.822934] },
  { row: 'k', d: 4, a: 6, b: 10, c: 7, th2: 88, open: [-13.275174, 31.909605], crossed: [-102.126586, -147.311365] },
  { row: 'm', d: 9, a: 7, b: 11, c: 8, th2: 50, open: [-3.490143, 35.914919], crossed: [-96.497651, -135.902713] },
  // READ geometry: Nikravesh's textbook four-bar as stored in a listing "Example 5.2"; angles COMP, to 1e-6.
  { row: 'Nikravesh 5.2', d: 0.2, a: 0.1, b: 0.3, c: 0.22, th2: 45, open: [15.591599, 43.46635], crossed: [-72.941699, -100.81645] },
] as const;

/**
 * Offset slider-crank: crank a, rod b, offset c, crank angle th2, slider x (open). MEM: Norton, example 4-2 (printed
 * 126.84); COMP.
 */
export const SLIDER_CRANKS = [
  { a: 40, b: 120, c: -20, th2: 60, x: 126.838005 },
  { a: 1.4, b: 4, c: 1, th2: 45, x: 4.989937 },
  { a: 3, b: 8, c: 2, th2: -30, x: 9.791823 },
] as const;

/**
 * Spatial slider-crank: crank 0.08 m about +x with its centre at (0, 0.1, 0.12), up at angle 0, rod 0.3 m, slider on x.
 * READ: the IFToMM multibody benchmark as coded in EXUDYN, sliderCrank3Dtest, with its slider velocity of 0.24 m/s at 6
 * rad/s. Positions in metres COMP.
 */
export const SPATIAL_SLIDER_CRANK = {
  crank: 0.08,
  rod: 0.3,
  centre: [0.1, 0.12],
  positions: [
    [0, 0.2],
    [30, 0.2248828856],
    [60, 0.2519055507],
    [90, 0.274226184],
    [120, 0.2875002721],
    [180, 0.28],
    [240, 0.2344004982],
    [270, 0.2078460969],
  ],
  /** m/s at crank angle 0 and 6 rad/s */
  velocity: 0.24,
  speed: 6,
} as const;

/**
 * Horn, link and rocker on skew axes (RSSR). Closed form MEM: Hartenberg and Denavit 1964; numbers COMP. Horn pivot (-12,
 * 20, -40), axis (0, -1, 0), 12 long along +x at 0; rocker pivot at the origin, axis +x, 20 long along +y at 0; link 40.
 */
export const RSSR = [
  [-40, -23.0923615085],
  [-20, -11.8677679569],
  [0, 0],
  [20, 11.8161788902],
  [40, 22.2927918252],
] as const;

/** Bell-crank, two equal 10 mm arms at 90 degrees, two 60 mm rods square to them at neutral: input travel mm, arm angle. COMP. */
export const BELL_CRANK = [
  [-3, -17.4682483151],
  [-1, -5.7392910586],
  [1, 5.7390499162],
  [3, 17.4470098279],
] as const;

/**
 * Flapping lag in degrees by gamma (Lock number) and nu (flap frequency per revolution): atan2(gamma / 8, nu^2 - 1). MEM:
 * Johnson; COMP.
 */
export const FLAP_LAG = [
  { gamma: 4, nu: [1, 1.02, 1.05, 1.1, 1.15], lag: [90, 85.3805, 78.4149, 67.2176, 57.178] },
  { gamma: 6, nu: [1, 1.02, 1.05, 1.1, 1.15], lag: [90, 86.9166, 82.2178, 74.3578, 66.7323] },
  { gamma: 8, nu: [1, 1.02, 1.05, 1.1, 1.15], lag: [90, 87.6865, 84.1476, 78.1402, 72.1255] },
] as const;

/**
 * A whole machine, sticks to blades, worked out by others without sight of this code. COMP. Servo balls at azimuth 60,
 * 180, 300 and radius 20, horns 12 along (-sin, cos), links 40 upright at neutral; pin on the x axis. Forward rows: horn
 * angles, height above neutral, pitch (front down), roll (left up), tilt. Blade: anticlockwise, axis 30 above neutral,
 * ball 12 ahead and sqrt(18^2 - 12^2) out, ring ball radius 18 below it, driver opposite.
 */
export const WHOLE_CHAIN = {
  forward: [
    { horns: [10, 10, 10], height: 2.083362682, pitch: 0, roll: 0, tilt: 0 },
    { horns: [10, -5, 20], height: 1.7125448251, pitch: -7.9289403458, roll: -3.3699732238, tilt: 8.6111676738 },
    { horns: [-15, 25, 5], height: 0.993303528, pitch: 11.7128638132, roll: -7.0496693952, tilt: 13.6452952399 },
    { horns: [30, 30, 30], height: 5.967678395, pitch: 0, roll: 0, tilt: 0 },
  ],
  inverse: [
    { pose: [2, 0, 0], horns: [9.5957745962, 9.5957745962, 9.5957745962] },
    { pose: [0, 6, 0], horns: [-4.9966360093, 10.0356980071, -4.9971544685] },
    { pose: [0, 0, 6], horns: [8.6784664584, 0, -8.6751024193] },
    { pose: [2, 6, -4], horns: [-1.1767598862, 19.9643277859, 10.3565766009] },
  ],
  /** theta0, theta1c, theta1s and theta at psi 0, 90, 180, 270 */
  blade: [
    { pose: [2, 0, 0], harmonics: [9.59179683, 0, 0], at: [9.59179683, 9.59179683, 9.59179683, 9.59179683] },
    { pose: [0, 6, 0], harmonics: [-0.00076038, 6.72590845, -5.99938609], at: [6.71031213, -6, -6.71226133, 6] },
    { pose: [0, 0, 6], harmonics: [-0.00076038, -5.99938609, -6.72590845], at: [-6, -6.71226133, 6, 6.71031213] },
    { pose: [2, 6, -4], harmonics: [9.67209144, 10.86867127, -1.51283878], at: [20.61656065, 8.10912649, -1.1237027, 11.08278455] },
  ],
  /** second harmonic (cosine, sine) of the last row above */
  second: [0.0752431, -0.02392621],
  /** theta1c, theta1s of the same machine with a clockwise rotor */
  clockwise: [
    { pose: [0, 6, 0], harmonics: [6.72590845, -5.99938609] },
    { pose: [0, 0, 6], harmonics: [5.99938609, 6.72590845] },
    { pose: [2, 6, -4], harmonics: [2.7499045, -10.62331029] },
  ],
} as const;
