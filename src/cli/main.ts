/** The command line: one file a command, each loaded only when it is asked for, so that help comes at once. */
import { Command, CommanderError } from 'commander';
import { VERSION } from '../simulate/version.js';
import { STATIC, collect, withLogics } from './command-options.js';
import { tellFailure } from './failure.js';
import { type Io, ioOf } from './io.js';
import { listenForSignals } from './signals.js';
import { addJoin, addMerge, addPick, addStudy } from './study/commands.js';

const EXAMPLES = `
With a doorway or a counting idea of your own:
  jambeam new my-door                                 a folder with a scenario and logics to change
  jambeam check my-door/scenario.yaml                 what the doorway can tell, at which height
  jambeam run my-door/scenario.yaml                   simulate it, write scenario.run/report.html
  jambeam passage scenario.run --only wrong           draw the walks that were counted wrong
  jambeam run my-door/scenario.yaml --logic my-door/my-logic.ts --out mine.run
  jambeam report scenario.run mine.run --out compare.html

With a question about many designs:
  jambeam check heights.yaml                          how many designs, how long
  jambeam study heights.yaml --time-limit 8h          run them on all cores
  jambeam study heights.yaml --resume                 go on where it stopped
  jambeam pick heights.study --want 'house.wrong_per_100 < 3'

With a report that somebody sent you:
  jambeam run report.html --out again.run             the same numbers, from the page alone
  jambeam run report.html --set 'doors.*.beams.*.height_m=1.3' --out higher.run
  jambeam sources | less                              every built-in figure, and what stands behind it

Exit codes: 0 done, a "no" included; 1 a failure of ours; 2 your input or disk; 3 some designs of a study
failed; 130, 143 after a signal.`;

/** The commands by the job they do, in the order of the work. */
const JOBS: readonly (readonly [job: string, ...add: readonly ((jambeam: Command, io: Io) => void)[]])[] = [
  ['Describe a doorway:', addNew, addCheck, addKeys, addSources],
  ['Simulate it and see why:', addRun, addReport, addPassage],
  ['Choose among many designs:', addStudy, addPick, addMerge, addJoin],
  ['Build it and test it:', addFit, addFirmware, addWalktest, addReplay],
];

/** Runs the process's command line, `args` without node and script, and sets its exit code. */
export async function main(args: readonly string[]): Promise<void> {
  const fail = (error: unknown): void => {
    process.exitCode = tellFailure(error, args, io);
  };
  const io = ioOf(process, (error) => fail(Object.assign(error, { path: 'stdout' })));
  listenForSignals();
  process.on('uncaughtException', (error) => {
    fail(error);
    process.exit();
  });
  const code = await commandLine(args, io);
  if (code !== 0) process.exitCode = code;
}

/** Runs one command line; gives its exit code. Where a command ends well with another code, it has set the process's. */
export async function commandLine(args: readonly string[], io: Io): Promise<0 | 1 | 2> {
  try {
    const completing = args[0] === 'completion' || args[0] === 'complete';
    const jambeam = program(io, completing ? (await import('./completion.js')).addCompletion : announceCompletion);
    // Who types nothing wants to know what can be typed.
    await jambeam.parseAsync(args.length > 0 ? args : ['--help'], { from: 'user' });
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    return tellFailure(error, args, io);
  }
}

/** The whole command line, every command with its options; nothing of a command is loaded yet. */
export function program(io: Io, addCompletion: (jambeam: Command) => void = announceCompletion): Command {
  const jambeam = new Command('jambeam')
    .description(
      'Will a pair of beams in your door frame count people right? Simulates doorways, sensors and counting logics.',
    )
    .version(`jambeam ${VERSION}`, '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print help')
    .addHelpText('after', EXAMPLES)
    .exitOverride()
    .showHelpAfterError('(--help shows what is possible)')
    .configureOutput({ writeOut: (text) => io.out(text), writeErr: (text) => io.err(text) });
  for (const [job, ...adds] of JOBS) {
    jambeam.commandsGroup(job);
    for (const add of adds) add(jambeam, io);
  }
  jambeam.commandsGroup('Find your way:').helpCommand('help [command]', 'print help for a command');
  addCompletion(jambeam);
  return jambeam;
}

/** For the list of commands; whoever calls it gets the one that loads what it needs. */
function announceCompletion(jambeam: Command): void {
  jambeam
    .command('completion')
    .summary('print what your shell needs to complete commands and options')
    .description('Prints a script for zsh, bash, fish or powershell.')
    .argument('<shell>', 'zsh, bash, fish or powershell')
    .addHelpText(
      'after',
      `
Examples:
  source <(jambeam completion bash)                     for this shell; in ~/.bashrc for every one
  jambeam completion zsh > ~/.zsh/_jambeam              into a folder of your fpath
  jambeam completion fish > ~/.config/fish/completions/jambeam.fish`,
    );
}

function addNew(jambeam: Command, io: Io): void {
  jambeam
    .command('new')
    .summary('write a scenario to start from')
    .description(
      'Writes a commented scenario, logics of your own to change (a table and a TypeScript module), and a schema for your editor.',
    )
    .argument('<dir>', 'folder to make')
    .option('--width_m <number>', 'clear width of the opening in metres (default: 0.9)')
    .option('--sensor <kind>', 'kind of sensor (default: light-barrier)')
    .option('--house', 'a whole house with a family, guests and a dog instead of one doorway')
    .addHelpText(
      'after',
      `
Examples:
  jambeam new my-door --width_m 0.8
  jambeam new ranger-door --sensor ultrasonic-ranger
  jambeam new my-house --house`,
    )
    .action(async (dir, options) => (await import('./new.js')).newCommand(dir, options, io));
}

function addCheck(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('check')
      .summary('say what a doorway can tell, before anything is built')
      .description(
        'Checks a scenario and says what follows from it: who can break which beam, how fast is too fast, what to mind, and how every other height would do.',
      )
      .argument('<scenario>', 'the scenario, a YAML file, or the report of a run')
      .option('--set <key=value>', 'change a key of the scenario; can be given again', collect)
      .option('--plan <file.svg>', 'write the plan of the house, where the scenario has one')
      .option('--json', 'print JSON'),
  )
    .addHelpText(
      'after',
      `
Examples:
  jambeam check my-door/scenario.yaml
  jambeam check my-door/scenario.yaml --set 'doors.front.beams.*.height_m=1.3'
  jambeam check my-house/scenario.yaml --plan plan.svg
  jambeam check heights.yaml                  of a study: how many designs, how long, how big`,
    )
    .action(async (file, options) => (await import('./check.js')).checkCommand(file, options, io));
}

function addRun(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('run')
      .summary('simulate a scenario and write a report')
      .description(
        'Simulates a scenario, prints the verdict, and writes a folder: report.html, metrics.json, design.json, figures.json, passages.csv, tallies.csv.',
      )
      .argument('<scenario>', 'the scenario, a YAML file, or the report of a run')
      .option('--out <dir>', 'folder for the results (default: ./NAME.run after the scenario NAME.yaml)')
      .option('--replicates <n>', "independent repetitions, each with its own crowd (default: the scenario's)")
      .option('--hours <h>', "simulated hours of each replicate (default: the scenario's)")
      .option('--days <d>', 'the same in days')
      .option('--seed <seed>', "seed of all chance; same seed, same bytes (default: the scenario's)")
      .option('--set <key=value>', 'change a key of the scenario; can be given again', collect)
      .option('--edges', 'write edges.csv too: every change of every beam')
      .option('--title <text>', 'title of the report')
      .option('--prepared-by <name>', 'who prepared the report')
      .option(...STATIC)
      .option('--json', 'print metrics.json instead of the summary')
      .option('--force', "write into a folder that isn't this scenario's own; its other files stay as they are"),
  )
    .addHelpText(
      'after',
      `
Examples:
  jambeam run my-door/scenario.yaml
  jambeam run my-door/scenario.yaml --days 7 --replicates 50
  jambeam run my-door/scenario.yaml --set 'doors.front.beams.*.height_m=1.3' --out high.run
  jambeam run my-door/scenario.yaml --logic my-door/my-logic.ts --logic four-level
  jambeam run my-door/scenario.yaml --logic-process './my-logic --fast'
  jambeam run my-door/scenario.yaml --json | less
  jambeam run report.html                     the scenario that a report carries

A module or a program is trusted code and runs with your rights: only run code you trust.`,
    )
    .action(async (file, options) => (await import('./run.js')).runCommand(file, options, io));
}

function addReport(jambeam: Command, io: Io): void {
  jambeam
    .command('report')
    .summary('write the report of a finished run or of a study again, or compare runs')
    .description(
      'Writes report.html again: of a finished run from design.json, metrics.json and figures.json; of a study, finished or not, from its cells. Of several runs it writes one page that compares them, pair by pair where they met the same crowds; the first is what the others are compared with.',
    )
    .argument('<dir...>', 'folder of a run or of a study; or folders of several runs')
    .option('--out <file.html>', 'of several runs: the page to write')
    .option('--force', "write over a file that isn't a comparison of runs")
    .option('--title <text>', 'title of this page, in place of the one it has')
    .option('--prepared-by <name>', 'who prepared this page')
    .option(...STATIC)
    .addHelpText(
      'after',
      `
Examples:
  jambeam report scenario.run
  jambeam report scenario.run --title 'Front door' --prepared-by 'A. Builder'
  jambeam report low.run high.run --out compare.html`,
    )
    .action(async (dirs, options) => (await import('./report.js')).reportCommand(dirs, options, io));
}

function addPassage(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('passage')
      .summary('follow one walk through a doorway')
      .description(
        'Follows one walk through a doorway instant by instant: levels of the beams, states of the logics, tallies. Of a finished run it draws visits: where each part of a body was along the walk, what the beams saw, what the logic made of it.',
      )
      .argument('<scenario>', 'the scenario, a YAML file, or the report of a run; or the folder of a run')
      .option('--who <walker>', 'who walks, as in the mix (default: adult)')
      .option('--kind <kind>', 'what they do in the doorway (default: through)')
      .option('--door <name>', 'which door (default: the first)')
      .option('--direction <forward|backward>', 'where they come from (default: forward)')
      .option(
        '--number <n>',
        'the n-th such passage: another person, another pace (default: 1); of a run, number of the visit',
      )
      .option('--replicate <n>', 'of a run: which replicate (default: 1)')
      .option('--of <logic>', 'of a run: which of its logics (default: the first)')
      .option('--only <wrong>', 'of a run: the most telling visits that went wrong')
      .option('--limit <n>', 'with --only: how many (default: 12)')
      .option(
        '--out <file>',
        'of a run: the picture to write, with --only the folder (default: passage.svg, or pictures)',
      )
      .option('--set <key=value>', 'change a key of the scenario; can be given again', collect)
      .option('--json', 'print JSON'),
  )
    .addHelpText(
      'after',
      `
Examples:
  jambeam passage my-door/scenario.yaml --who child --kind through --number 3
  jambeam passage scenario.run --only wrong --limit 12
  jambeam passage scenario.run --door front --number 192 --replicate 3`,
    )
    .action(async (file, options) => (await import('./passage.js')).passageCommand(file, options, io));
}

function addReplay(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('replay')
      .summary('count from a real log instead of a simulation')
      .description(
        'Sends a log of edges or readings through switching, logics and ledgers, as a simulated house would go; with the truth beside it, through score and report too. `-` reads standard input and tells each tally as it comes.',
      )
      .argument('<log>', 'the log, a CSV file: time_us, beam, and level or distance_mm; - for standard input')
      .option('--scenario <file>', 'the scenario with the doors, beams, sensors, logics and ledgers, or a report')
      .option('--door <name>', 'whose log it is, where the log does not say')
      .option('--truth <file>', 'who truly came: passages.csv, or a list of time and direction')
      .option('--replicate <n>', 'of a log with several: which (default: 1)')
      .option('--time-unit <s|ms|us>', 'what a bare number in a column time counts (default: s)')
      .option('--hours <h>', 'how long the log is (default: measured; of standard input as the scenario says)')
      .option(...STATIC)
      .option('--watch', 'tell each tally as it comes')
      .option('--out <dir>', 'folder for the results (default with --truth: NAME.run after the log)')
      .option('--set <key=value>', 'change a key of the scenario; can be given again', collect)
      .option('--json', 'print JSON')
      .option('--force', "write into a folder that isn't this scenario's own; its other files stay as they are"),
  )
    .addHelpText(
      'after',
      `
Examples:
  jambeam replay bench.csv --scenario my-door/scenario.yaml
  cat /dev/ttyACM0 | jambeam replay - --scenario my-door/scenario.yaml
  jambeam replay edges.csv --scenario my-door/scenario.yaml --truth passages.csv`,
    )
    .action(async (log, options) => (await import('./replay/replay.js')).replayCommand(log, options, io));
}

function addWalktest(jambeam: Command, io: Io): void {
  jambeam
    .command('walktest')
    .summary('check the built door against its prediction by walking')
    .description(
      'Says how many walks of which kinds confirm or refute what a finished run predicts of a door, writes a sheet for them, and reads it back.',
    )
    .argument('<dir>', 'folder of a run')
    .option('--sheet <file>', 'FILE.html: write a sheet to print; FILE.csv: write one to fill in, or read it back')
    .option('--log <file.csv>', "the controller's log of tallies: a column of times and one of directions")
    .option('--door <name>', 'which door (default: the first)')
    .option('--logic <name>', 'which logic was built (default: the first)')
    .option('--walks <n>', 'most walks to plan (default: 300)')
    .option('--offset-s <seconds>', "added to the log's times, where its clock is another")
    .option('--force', 'write over a sheet that is there')
    .addHelpText(
      'after',
      `
Examples:
  jambeam walktest scenario.run
  jambeam walktest scenario.run --sheet walks.html
  jambeam walktest scenario.run --sheet walks.csv
  jambeam walktest scenario.run --sheet walks.csv --log tallies.csv`,
    )
    .action(async (dir, options) => (await import('./walktest.js')).walktestCommand(dir, options, io));
}

function addFit(jambeam: Command, io: Io): void {
  jambeam
    .command('fit')
    .summary('make a profile of your own ranger from readings at a table')
    .description(
      'Fits a ranger to readings at true distances: curve, noise, strays and drop-outs, each with its standard error. Writes a profile and a chart.',
    )
    .argument(
      '[readings]',
      'CSV with a header: true_m, true_cm or true_mm, and reading_m, reading_mm, echo_us, adc_counts or volts',
    )
    .option('--kind <kind>', 'ultrasonic-ranger, triangulation-ranger or time-of-flight-ranger')
    .option('--out <file>', 'the profile to write, a YAML file')
    .option('--chart <file>', 'the chart to write (default: beside the profile, .svg)')
    .option('--adc-bits <n>', 'bits of the converter behind adc_counts (default: 10)')
    .option('--adc-reference-v <volts>', 'its reference (default: 5)')
    .option(
      '--temperature-c <degrees>',
      'air at the bench: what an ultrasonic ranger takes for granted follows from it',
    )
    .option('--force', 'write over a profile or chart that is there')
    .option('--logger <dir>', 'write a capture program in C to finish and a page on how to measure; fits nothing')
    .addHelpText(
      'after',
      `
Examples:
  jambeam fit --logger bench
  jambeam fit bench/readings.csv --kind ultrasonic-ranger --temperature-c 21 --out my-ranger.yaml`,
    )
    .action(async (file, options) => (await import('./fit.js')).fitCommand(file, options, io));
}

function addFirmware(jambeam: Command, io: Io): void {
  jambeam
    .command('firmware')
    .summary("write C99 for a door's controller")
    .description(
      "Writes a door's logic, its rangers' switching and its controller's turns as C99 source, with a test for your computer and a page on wiring and calls.",
    )
    .argument('<scenario>', 'the scenario, a YAML file, or the report of a run')
    .option('--door <name>', 'which door (default: the only one)')
    .option('--logic <name>', 'which of its logics, or a table in a file of its own (default: the only one)')
    .option('--out <dir>', 'folder to write')
    .option('--set <key=value>', 'change a key of the scenario; can be given again', collect)
    .option('--force', "write into a folder that isn't this door's own, or over files that were changed")
    .addHelpText(
      'after',
      `
Examples:
  jambeam firmware my-door/scenario.yaml --door front --logic four-level --out firmware
  jambeam firmware my-door/scenario.yaml --door front --logic my-door/my-logic.yaml --out mine
  jambeam firmware report.html --logic four-level --out firmware`,
    )
    .action(async (file, options) => (await import('./firmware.js')).firmwareCommand(file, options, io));
}

function addKeys(jambeam: Command, io: Io): void {
  jambeam
    .command('keys')
    .summary('list everything a scenario can say and a result can hold')
    .description(
      'Lists every key of a scenario, then kinds of walkers, passages and sensors, logics, ledgers and metrics.',
    )
    .option('--schema <file>', 'print the JSON Schema of a file you write: scenario, study, table or profile')
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      `
Examples:
  jambeam keys | less
  jambeam keys | grep -A1 height
  jambeam keys --schema table > table.schema.json     for your editor`,
    )
    .action(async (options) => (await import('./keys.js')).keysCommand(options, io));
}

function addSources(jambeam: Command, io: Io): void {
  jambeam
    .command('sources')
    .summary('list every built-in figure with where it comes from')
    .description(
      'Lists every built-in figure: value, unit, where it is used, citation, and what the citation is worth.',
    )
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      `
Examples:
  jambeam sources | less
  jambeam sources | grep -B3 assumption
  jambeam sources --json`,
    )
    .action(async (options) => (await import('./sources.js')).sourcesCommand(options, io));
}
