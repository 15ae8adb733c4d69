/** What a program reads and writes: the process's own streams, or a test's. */
import type { Readable, Writable } from 'node:stream';

export interface Streams {
  stdin: Readable;
  stdout: Writable;
  stderr: Writable;
}
