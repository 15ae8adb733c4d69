/** Placeholder of this commit: the first-order mix values stand until predict() can refine them. */
import type { MachineDocument } from './machines.ts';

export function trimMix(_document: MachineDocument): void {}
