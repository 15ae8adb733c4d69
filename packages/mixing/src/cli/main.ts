/** The program on the process's own words and streams. */
import { run } from './run.ts';

// Whoever reads our lines may have seen enough (`| head`): that is no failure, and there is no one left to tell.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});
process.exitCode = await run(process.argv.slice(2), process);
