/**
 * The program in a few files with only the code it uses: importing mathjs whole takes half a second, the parts used
 * start in a tenth. What a command alone needs stays in its own file, loaded when that command runs.
 */
import { defineConfig } from 'rolldown';

export default defineConfig({
  input: { swashtrue: 'src/cli/main.ts', start: 'src/cli/start.ts' },
  platform: 'node',
  output: { dir: 'dist/program', format: 'esm', minify: false, sourcemap: false },
});
