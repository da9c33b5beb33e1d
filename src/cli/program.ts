/** The whole command line: every command with its options, by the job it does; of a command itself nothing is loaded yet. */
import { Command } from 'commander';
import { VERSION } from '../simulate/version.js';
import { addFirmware, addFit, addReplay, addWalktest } from './commands/build.js';
import { addJoin, addMerge, addPick, addStudy } from './commands/choose.js';
import { addCheck, addKeys, addNew, addSources } from './commands/describe.js';
import { addPassage, addReport, addRun } from './commands/simulate.js';
import type { Io } from './io.js';

const EXAMPLES = `
With a doorway or a counting idea of your own:
  jambeam new my-door                                 a folder with a scenario and logics to change
  jambeam check my-door/scenario.yaml                 what the doorway can tell, at which height
  jambeam run my-door/scenario.yaml                   simulate it, write scenario.run/report.html
  jambeam passage scenario.run --only wrong           draw the walks that were counted wrong
  jambeam run my-door/scenario.yaml --logic my-door/my-logic.ts --out mine.run
  jambeam report scenario.run mine.run --out compare.html

With a question about many designs, in a file as docs/studies.md says:
  jambeam check heights.yaml                          how many designs, how long
  jambeam study heights.yaml --time-limit 8h          run them on all cores
  jambeam study heights.yaml --resume                 go on where it stopped
  jambeam pick heights.study --want 'house.wrong_per_100 < 3'

With a report that somebody sent you:
  jambeam run report.html --out again.run             the same numbers, from the page alone
  jambeam run report.html --set 'doors.*.beams.*.height_m=1.3' --out higher.run
  jambeam sources | less                              every built-in figure, and what stands behind it

Exit codes: 0 done, a "no" included; 1 a failure of ours; 2 your input or disk; 3 some designs of a study
failed; 129, 130, 143 after a signal.`;

/** The commands by the job they do, in the order of the work. */
const JOBS: readonly (readonly [job: string, ...add: readonly ((jambeam: Command, io: Io) => void)[]])[] = [
  ['Describe a doorway:', addNew, addCheck, addKeys, addSources],
  ['Simulate it and see why:', addRun, addReport, addPassage],
  ['Choose among many designs:', addStudy, addPick, addMerge, addJoin],
  ['Build it and test it:', addFit, addFirmware, addWalktest, addReplay],
];

/** All but the command that is told of all the others. */
export function program(io: Io): Command {
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
  return jambeam;
}
