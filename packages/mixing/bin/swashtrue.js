#!/usr/bin/env node
// Starts the built program. It is under version control because a package manager links a bin only if it is there
// at install time, and the program itself is built after that.
import { existsSync } from 'node:fs';
import module from 'node:module';

const program = new URL('../dist/program/swashtrue.js', import.meta.url);
if (existsSync(program)) {
  module.enableCompileCache?.(); // Node 22 and later: a second start skips compiling
  await import(program.href);
} else {
  process.stderr.write(
    'swashtrue: got no built program in packages/mixing/dist, expected one; run `npm run setup` at the top of the clone\n',
  );
  process.exitCode = 3;
}
