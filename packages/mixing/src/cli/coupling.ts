/** `coupling`: what each stick moves that it should not, at one stick position. */
import { coupling, type Matrix3 } from '../coupling/coupling.ts';
import { describePath } from '../rig/describe.ts';
import { prepare } from '../rig/prepare.ts';
import { caseFrom, readRigFile } from './input.ts';
import { LineWriter } from './lines.ts';
import { refusingCases } from './refusal.ts';
import type { Streams } from './streams.ts';
import { caseInWords, fixed, signed, table } from './words.ts';

export interface CouplingOptions {
  at?: string;
  json?: boolean;
}

/** Gives the exit status: 1 where the pose, or one of its neighbours, cannot be reached. */
export async function runCoupling(file: string, options: CouplingOptions, streams: Streams): Promise<number> {
  const at = caseFrom(options.at ?? '{}', '--at');
  const rig = await readRigFile(file, streams);
  const found = refusingCases('--at', () => coupling(prepare(rig), at));
  const out = new LineWriter(streams.stdout);
  const reached = !('unreachable' in found);
  if (options.json === true) out.line(JSON.stringify(found));
  else {
    out.line(caseInWords(at));
    if (!reached) {
      const { path, short } = found.unreachable;
      out.line(`  cannot be reached: ${describePath(rig, path)} (${path}) is out by ${fixed(short, 3)} mm`);
    } else {
      const { swash, blade, cross, standing, healthy } = found;
      out.line(
        table([
          ['per unit of stick', 'collective', 'elevator', 'aileron', ''],
          ...slopes(swash, ['swashplate height', 'swashplate fore-aft tilt', 'swashplate side tilt'], ['mm', 'deg', 'deg']),
          ...slopes(blade, ['blades collective', 'blades longitudinal', 'blades lateral'], ['deg', 'deg', 'deg']),
        ]),
      );
      out.line('');
      out.line(
        table([
          ['cross-axis coupling', 'swashplate', 'blades', ''],
          ...(
            [
              ['elevator: side per fore-aft', 'elevator'],
              ['aileron: fore-aft per side', 'aileron'],
              ['collective: fore-aft', 'collectiveForeAft'],
              ['collective: side', 'collectiveSide'],
            ] as const
          ).map(([words, key]) => [words, percent(cross.swash[key]), percent(cross.blade[key]), '%']),
        ]),
      );
      out.line('');
      out.line('  before a stick moves');
      out.line(`  swashplate fore-aft ${signed(standing.foreAft, 3)}, side ${signed(standing.side, 3)} deg`);
      out.line(`  blades longitudinal ${signed(standing.longitudinal, 3)}, lateral ${signed(standing.lateral, 3)} deg`);
      out.line(
        healthy
          ? '  healthy: level, zero, match and cross coupling are within the usual targets'
          : '  not healthy: level, zero, match or cross coupling is outside the usual targets',
      );
    }
  }
  await out.end();
  return reached ? 0 : 1;
}

const percent = (value: number | null) => (value === null ? 'none' : signed(value, 2));

const slopes = (matrix: Matrix3, names: readonly string[], units: readonly string[]) =>
  matrix.map((row, i) => [names[i] ?? '', ...row.map((value) => signed(value, 3)), units[i] ?? '']);
