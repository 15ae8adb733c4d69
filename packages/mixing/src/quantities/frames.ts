/**
 * The letters of the frames, listed once. Where a vector is declared, its comment says the letter of the frame it is
 * written in: "lower eyes of the links in G". All lengths mm, all angles rad.
 *
 *   F  machine: x forward (nose), y left, z up along the mast, origin on the mast axis (REP-103's axes)
 *   G  guide: F turned about the mast so that x points along the swashplate's guide; z as in F
 *   R  rotor: x outward along a blade, y the way that blade goes, z up. Right-handed on a counter-clockwise rotor and
 *      its mirror image on a clockwise one, so that every rotor formula stands once (mirroring the machine leaves its
 *      harmonics unchanged). Each blade has its own, R_k.
 *   C  carrier: R of blade 1 turned to the flybar (x toward paddle 1) and tipped with teeter
 *   T  tail: u aft along the boom, v along the tail shaft away from the gear case, w up
 *
 * Rotor azimuth psi runs from the tail in the direction of rotation: the machine azimuth is 180 + psi on a
 * counter-clockwise rotor and 180 - psi on a clockwise one.
 */

/** +1 where the rotor turns counter-clockwise seen from above, -1 where it turns clockwise. */
export type RotationSign = 1 | -1;

export function rotationSign(rotation: 'clockwise' | 'counterclockwise'): RotationSign {
  return rotation === 'counterclockwise' ? 1 : -1;
}
