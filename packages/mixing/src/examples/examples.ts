/**
 * The demo documents, by name, all of our own invention: machines that are healthy as recorded, and what goes with the
 * first of them at the bench.
 */
import { benchReadings } from './bench-readings.ts';
import { gentleTargets, workshopTolerances } from './bench-targets.ts';
import { benchTrainer } from './bench-trainer.ts';
import { flybarTrainer } from './flybar-trainer.ts';
import { leverTrainer } from './lever-trainer.ts';

export interface Example {
  name: string;
  /** in a line */
  about: string;
  /** as a person would write it; read it like any other document */
  document: unknown;
}

/** Rig documents; the first is the one shown first. */
export const examples: readonly [Example, ...Example[]] = [
  { name: 'bench-trainer', about: 'a plain 120 degree machine, two blades', document: benchTrainer },
  { name: 'lever-trainer', about: 'a 135 degree machine with a lever at the nose, three blades', document: leverTrainer },
  { name: 'flybar-trainer', about: 'a 120 degree machine with a flybar head, a tail and its gyro', document: flybarTrainer },
];

/** Readings, targets and tolerances for the first machine. */
export const benchExamples: readonly Example[] = [
  { name: 'bench-readings', about: 'readings of the bench trainer with a horn set high', document: benchReadings },
  { name: 'gentle-targets', about: 'targets for a beginner’s machine', document: gentleTargets },
  { name: 'workshop-tolerances', about: 'how far a builder’s parts may scatter', document: workshopTolerances },
];
