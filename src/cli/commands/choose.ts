/** Commands for choosing among many designs. */
import type { Command } from 'commander';
import { STATIC, collect, withLogics } from '../command-options.js';
import type { Io } from '../io.js';

export function addStudy(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('study')
      .summary('compare many designs under the same crowds')
      .description(
        'Runs every design of a study, a file that names a scenario and what varies, on all cores. Every replicate that is done is kept; a study that was stopped goes on with --resume.',
      )
      .argument('<study>', 'the study, a YAML file')
      .option('--out <dir>', 'folder for the study (default: ./NAME.study after the study NAME.yaml)')
      .option('--workers <n>', 'threads (default: as many as there are cores)')
      .option('--resume', 'go on with a study that was stopped')
      .option('--extend', 'go on with a study that has changed: cells that both share are kept')
      .option('--time-limit <time>', 'pause after this time: 8h, 90min, 30s')
      .option('--slice <n/of>', 'run only every OF-th design, from the N-th; `jambeam merge` joins slices')
      .option(
        '--redis [url]',
        'put the cells on a job queue, for `jambeam join` on any number of machines; without a URL that of JAMBEAM_REDIS',
      )
      .option(...STATIC)
      .option('--quiet', 'no progress')
      .option('--json', 'print study.json instead of the summary')
      .option('--force', "throw a study's cells away and begin anew"),
  )
    .addHelpText(
      'after',
      `
Examples:
  jambeam check heights.yaml
  jambeam study heights.yaml --time-limit 8h
  jambeam study heights.yaml --resume
  jambeam study heights.yaml --slice 3/16 --out slice-3.study`,
    )
    .action(async (file, options) => (await import('../study/study.js')).studyCommand(file, options, io));
}

export function addPick(jambeam: Command, io: Io): void {
  jambeam
    .command('pick')
    .summary("name a study's cheapest design that meets a target")
    .description(
      'Names the cheapest design of a study that meets what is wanted with 95 % confidence, held for all of its designs at once, or says that none does.',
    )
    .argument('<dir>', 'folder of a study')
    .option('--want <condition>', "'METRIC < NUMBER' or 'METRIC > NUMBER'; can be given again", collect)
    .option('--least <what>', 'cost, holes, cable_m or hours (default: cost)')
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      `
Examples:
  jambeam pick heights.study --want 'house.wrong_per_100 < 3'
  jambeam pick heights.study --want 'house.wrong_per_100 < 3' --want 'house.missed_per_100 < 1' --least holes`,
    )
    .action(async (dir, options) => (await import('../study/pick.js')).pickCommand(dir, options, io));
}

export function addMerge(jambeam: Command, io: Io): void {
  jambeam
    .command('merge')
    .summary('join slices of a study')
    .description('Joins the folders of slices of one study, and writes its results when all cells are there.')
    .argument('<dir...>', 'folders of slices')
    .option('--out <dir>', 'folder for the whole study')
    .option(...STATIC)
    .option('--force', "throw away a study's cells that are in that folder")
    .addHelpText(
      'after',
      `
Examples:
  jambeam study heights.yaml --slice 1/2 --out slice-1.study       here, 2/2 on another machine
  jambeam merge slice-1.study slice-2.study --out heights.study`,
    )
    .action(async (dirs, options) => (await import('../study/merge.js')).mergeCommand(dirs, options, io));
}

export function addJoin(jambeam: Command, io: Io): void {
  withLogics(
    jambeam
      .command('join')
      .summary("work at other machines' studies")
      .description(
        'Takes cells of studies from a job queue, on all cores, until the studies have ended; it may leave at any time, and what it had begun is done by others.',
      )
      .option('--redis [url]', 'redis://HOST:PORT or rediss://…; without a URL that of JAMBEAM_REDIS')
      .option('--workers <n>', 'threads (default: as many as there are cores)')
      .option('--quiet', 'no words'),
  )
    .addHelpText(
      'after',
      `
Examples:
  jambeam study heights.yaml --redis redis://study-server:6379     here, and on other machines:
  jambeam join --redis redis://study-server:6379
  jambeam join --redis redis://study-server:6379 --workers 3`,
    )
    .action(async (options) => (await import('../study/join.js')).joinCommand(options, io));
}
