/** Commands for building it and testing what is built. */
import type { Command } from 'commander';
import { STATIC, collect, withLogics } from '../command-options.js';
import type { Io } from '../io.js';

export function addFit(jambeam: Command, io: Io): void {
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
    .action(async (file, options) => (await import('../fit.js')).fitCommand(file, options, io));
}

export function addFirmware(jambeam: Command, io: Io): void {
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
    .action(async (file, options) => (await import('../firmware.js')).firmwareCommand(file, options, io));
}

export function addWalktest(jambeam: Command, io: Io): void {
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
    .action(async (dir, options) => (await import('../walktest.js')).walktestCommand(dir, options, io));
}

export function addReplay(jambeam: Command, io: Io): void {
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
    .action(async (log, options) => (await import('../replay/replay.js')).replayCommand(log, options, io));
}
