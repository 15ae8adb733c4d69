/** What `npm start` runs once everything is built: the demo's story, then the page until it is interrupted. */
import { examples } from '../examples/examples.ts';
import { readRig } from '../rig/read.ts';
import { demoStory } from './demo-story.ts';
import { portFrom, ServeError, servePage } from './serve.ts';

const read = readRig(examples[0].document);
if (!read.ok)
  throw new Error(
    `the demo document: ${read.faults.map(({ pointer, got, expected }) => `${pointer}: got ${got}, expected ${expected}`).join('; ')}`,
  );
process.stdout.write(`\n${demoStory(read.rig)}\n\n`);

try {
  const server = await servePage({ port: portFrom(process.env.PORT) });
  process.stdout.write(`The page is at ${server.address} on this machine (Ctrl+C ends it).\n`);
  const end = (): void => void server.close();
  process.on('SIGINT', end).on('SIGTERM', end);
} catch (error) {
  if (!(error instanceof ServeError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 1;
}
