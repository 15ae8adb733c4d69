/**
 * The program's commands, their arguments and help. Each command's work stands in a file of its own, loaded when it
 * runs; adding a command is adding a file and a block here. An action gives the exit status.
 */
import { Argument, Command, Option } from 'commander';
import type { Streams } from './streams.ts';

const JSON_OPTION = () => new Option('--json', 'print only JSON, to be piped and checked');
const RIG = 'the rig document: a path, or - for standard input';
const RECORD = 'the record of the machine: a path, or - for standard input';
const READINGS = 'the readings document: a path, or - for standard input';
const collect = (value: string, before: string[] | undefined) => [...(before ?? []), value];

/** `done` takes the exit status of the command that ran. */
export function program(version: string, streams: Streams, done: (status: number) => void): Command {
  const top = new Command('swashtrue')
    .description('The three-servo swashplate of a model helicopter: from sticks to blades, and what moves that should not.')
    .version(version, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print this help')
    .helpCommand('help [command]', 'print the help of a command')
    .configureHelp({ helpWidth: 100 })
    .configureOutput({
      writeOut: (text) => void streams.stdout.write(text),
      writeErr: (text) => void streams.stderr.write(text),
    })
    .addHelpText(
      'after',
      `
Lengths are millimetres, angles degrees, pulses microseconds; sticks go from -1 to +1.
Exit status: 0 done; 1 done, and the answer is no; 2 the input cannot be used; 3 the program failed.`,
    );

  top
    .command('predict')
    .summary('pulses, horns, swashplate, blades and tail at given sticks')
    .description('Follows each case from the sticks to the blades and the tail. Without a case: mid-stick.')
    .argument('<rig>', RIG)
    .option('--case <json>', 'a case, as \'{"elevator": 1, "azimuth": 90}\'; may be repeated', collect)
    .option('--cases <file>', 'cases, one a line: a path, or - for standard input')
    .addOption(JSON_OPTION())
    .action(async (rig: string, options: { case?: string[]; cases?: string; json?: boolean }) => {
      done(await (await import('./predict.ts')).runPredict(rig, options, streams));
    });

  top
    .command('coupling')
    .summary('what each stick moves that it should not')
    .description('How far each stick moves swashplate and blades, straight and across, at one stick position.')
    .argument('<rig>', RIG)
    .option('--at <json>', 'the stick position, as \'{"collective": 0.5}\'; mid-stick where left out')
    .addOption(JSON_OPTION())
    .action(async (rig: string, options: { at?: string; json?: boolean }) => {
      done(await (await import('./coupling.ts')).runCoupling(rig, options, streams));
    });

  top
    .command('tail')
    .summary('the tail: ways, ends, equal sides, and what to turn')
    .description('Whether rudder and gyro go the right way, where the ends bind, and what makes both sides equal.')
    .argument('<rig>', RIG)
    .addOption(JSON_OPTION())
    .action(async (rig: string, options: { json?: boolean }) => {
      done(await (await import('./tail.ts')).runTail(rig, options, streams));
    });

  top
    .command('diagnose')
    .summary('what is wrong, by readings taken at the bench')
    .description('Causes by their probability, which of them no reading tells apart, and what to read next.')
    .argument('<rig>', RECORD)
    .argument('<readings>', READINGS)
    .addOption(JSON_OPTION())
    .action(async (rig: string, readings: string, options: { json?: boolean }) => {
      done(await (await import('./diagnose.ts')).runDiagnose(rig, readings, options, streams));
    });

  top
    .command('plan')
    .summary('what to turn, in which order, and what the gauge then shows')
    .description('The changes that most likely meet all targets, over everything that the readings leave open.')
    .argument('<rig>', RECORD)
    .argument('<readings>', READINGS)
    .option('--targets <file>', 'the targets document; the usual ones where left out')
    .addOption(JSON_OPTION())
    .action(async (rig: string, readings: string, options: { targets?: string; json?: boolean }) => {
      done(await (await import('./plan.ts')).runPlan(rig, readings, options, streams));
    });

  top
    .command('report')
    .summary('a sheet to print and keep')
    .description('Settings, lengths, readings, coupling, what was turned, hand tests and cautions, as one HTML file.')
    .argument('<rig>', RECORD)
    .argument('[readings]', READINGS)
    .requiredOption('--out <file>', 'the HTML file to write')
    .addOption(JSON_OPTION())
    .action(async (rig: string, readings: string | undefined, options: { out: string; json?: boolean }) => {
      done(await (await import('./report.ts')).runReport(rig, readings, options, streams));
    });

  top
    .command('measure')
    .summary('what to measure of a machine whose record is not known')
    .description(
      'Dimensions of a draft record in the order in which measuring pays, how well each is measured, and what it costs unknown. A draft is an example of a like head, with every number that is known put right.',
    )
    .argument('<rig>', 'the draft: a path, or - for standard input')
    .addOption(JSON_OPTION())
    .action(async (rig: string, options: { json?: boolean }) => {
      done(await (await import('./measure.ts')).runMeasure(rig, options, streams));
    });

  top
    .command('view')
    .summary('the machine in 3D, in a browser')
    .description('Serves the page on this machine alone and prints its address; ends when interrupted.')
    .argument('[rig]', `${RIG}; the demo machine where left out`)
    .option('--port <number>', 'the port; any free one where left out')
    .addOption(JSON_OPTION())
    .action(async (rig: string | undefined, options: { port?: string; json?: boolean }) => {
      done(await (await import('./view.ts')).runView(rig, options, streams));
    });

  top
    .command('example')
    .summary('the demo documents')
    .description('Prints a demo document, to be saved and changed. Without a name: the first.')
    .argument('[name]', 'which one; see --list')
    .option('--list', 'tell the names instead')
    .addOption(JSON_OPTION())
    .action(async (name: string | undefined, options: { list?: boolean; json?: boolean }) => {
      done(await (await import('./example.ts')).runExample(name, options, streams));
    });

  top
    .command('schema')
    .summary('the JSON Schema of a document')
    .description('Prints the JSON Schema (2020-12) of a document.')
    .addArgument(new Argument('<document>', 'which document').choices(['rig', 'readings', 'targets', 'tolerances']))
    .addOption(JSON_OPTION())
    .action(async (kind: 'rig' | 'readings' | 'targets' | 'tolerances', options: { json?: boolean }) => {
      done(await (await import('./schema.ts')).runSchema(kind, options, streams));
    });

  return top;
}
