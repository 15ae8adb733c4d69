/** The demo documents, by name: machines of our own invention, healthy as recorded. The first is the one shown first. */
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

export const examples: readonly [Example, ...Example[]] = [
  { name: 'bench-trainer', about: 'a plain 120 degree machine, two blades', document: benchTrainer },
  { name: 'lever-trainer', about: 'a 135 degree machine with a lever at the nose, three blades', document: leverTrainer },
  { name: 'flybar-trainer', about: 'a 120 degree machine with a flybar head, a tail and its gyro', document: flybarTrainer },
];
