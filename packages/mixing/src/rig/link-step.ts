/** How far a link can be turned: its own step where `steps` names it, else the document's. */
import type { Rig } from './rig.ts';

/** The step in mm of the link at a path, or undefined where it cannot be turned. */
export function linkStepOf(rig: Rig, path: string): number | undefined {
  const own = rig.steps.find((entry) => entry.path === path);
  if (own === undefined) return rig.linkStep;
  return 'fixed' in own ? undefined : own.step;
}

/**
 * Turns of a link for a change in mm, positive longer. The document's link step is half a turn of its thread (0.2 mm of
 * an M2, pitch 0.4 mm, ISO 261), whatever part of a turn a link's own step allows.
 */
export function turnsOf(rig: Rig, byMm: number): number {
  return byMm / (2 * rig.linkStep);
}
