/** Commands for describing a doorway. */
import type { Command } from 'commander';
import { collect, withLogics } from '../command-options.js';
import type { Io } from '../io.js';

export function addNew(jambeam: Command, io: Io): void {
  jambeam
    .command('new')
    .summary('write a scenario to start from')
    .description(
      'Writes a commented scenario, logics of your own to change (a table and a TypeScript module), and a schema for your editor.',
    )
    .argument('<dir>', 'folder to make')
    .option('--width_m <number>', 'clear width of the opening in metres (default: 0.9)')
    .option('--sensor <kind>', 'kind of sensor, one that `jambeam keys` lists (default: light-barrier)')
    .option('--house', 'a whole house with a family, guests and a dog instead of one doorway')
    .addHelpText(
      'after',
      `
Examples:
  jambeam new my-door --width_m 0.8
  jambeam new ranger-door --sensor ultrasonic-ranger
  jambeam new my-house --house`,
    )
    .action(async (dir, options) => (await import('../new.js')).newCommand(dir, options, io));
}

export function addCheck(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('check')
      .summary('say what a doorway can tell, before anything is built')
      .description(
        'Checks a scenario and says what follows from it: who can break which beam, how fast is too fast, what to mind, and how every other height would do.',
      )
      .argument('<scenario>', 'the scenario, a YAML file, or the report of a run; or a study, a YAML file')
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
    .action(async (file, options) => (await import('../check.js')).checkCommand(file, options, io));
}

export function addKeys(jambeam: Command, io: Io): void {
  jambeam
    .command('keys')
    .summary('list everything a scenario can say and a result can hold')
    .description(
      'Lists every key of a scenario, then kinds of walkers, passages and sensors, logics, ledgers and metrics, and the keys of a study.',
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
    .action(async (options) => (await import('../keys.js')).keysCommand(options, io));
}

export function addSources(jambeam: Command, io: Io): void {
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
    .action(async (options) => (await import('../sources.js')).sourcesCommand(options, io));
}
