/** Commands for simulating it and seeing why. */
import type { Command } from 'commander';
import { STATIC, collect, withLogics } from '../command-options.js';
import type { Io } from '../io.js';

export function addRun(jambeam: Command, io: Io): void {
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
    .action(async (file, options) => (await import('../run.js')).runCommand(file, options, io));
}

export function addReport(jambeam: Command, io: Io): void {
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
    .action(async (dirs, options) => (await import('../report.js')).reportCommand(dirs, options, io));
}

export function addPassage(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('passage')
      .summary('follow one walk through a doorway')
      .description(
        'Follows one walk through a doorway instant by instant: levels of the beams, states of the logics, tallies. Of a finished run it draws visits: where each part of a body was along the walk, what the beams saw, what the logic made of it.',
      )
      .argument('<scenario>', 'the scenario, a YAML file, or the report of a run; or the folder of a run')
      .option(
        '--who <walker>',
        'who walks: a walker that `jambeam keys` lists, or one of the scenario (default: adult)',
      )
      .option('--kind <kind>', 'what they do in the doorway, as `jambeam keys` lists it (default: through)')
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
    .action(async (file, options) => (await import('../passage.js')).passageCommand(file, options, io));
}
