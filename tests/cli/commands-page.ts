/** docs/commands.md, made of the commands' own definitions, so that it can't say anything else. */
import type { Command, Option } from 'commander';
import { commandTree, helpOf } from './command-tree.js';

interface About {
  /** What files it reads and writes. */
  readonly files: string;
  /** Where more is said. */
  readonly more: readonly string[];
}

/** What no definition says. */
const ABOUT: Readonly<Record<string, About>> = {
  new: {
    files:
      'Writes `scenario.yaml`, `my-logic.yaml`, `my-logic.ts`, `scenario.schema.json` and `table.schema.json`; of a house all but the table and its schema. Nothing that is there is ever overwritten.',
    more: ['files.md#a-scenario', 'tables.md', 'own-logic.md'],
  },
  check: {
    files:
      'Reads a [scenario](files.md#a-scenario), a report, or a [study](studies.md#the-study-file). Writes the plan, if asked.',
    more: ['sensors.md', 'plan-and-effort.md', 'studies.md'],
  },
  keys: { files: 'Reads nothing, writes to the terminal only.', more: ['files.md#a-scenario', 'files.md#editors'] },
  sources: { files: 'Reads nothing, writes to the terminal only.', more: ['models.md'] },
  run: {
    files:
      "Reads a scenario or a report, tables and profiles beside it. Writes [a run's folder](files.md#a-runs-folder).",
    more: ['report.md', 'scoring.md', 'own-logic.md'],
  },
  report: {
    files:
      "Reads [a run's folder](files.md#a-runs-folder) or [a study's](studies.md#results); writes `report.html` there, or the comparison.",
    more: ['report.md', 'compare.md'],
  },
  passage: {
    files:
      "Reads a scenario, a report, or [a run's folder](files.md#a-runs-folder). Writes SVG pictures of a run's visits.",
    more: ['pictures.md'],
  },
  study: {
    files:
      "Reads a [study's file](studies.md#the-study-file) and its scenario. Writes [a study's folder](studies.md#results).",
    more: ['studies.md'],
  },
  pick: { files: "Reads [a study's folder](studies.md#results).", more: ['studies.md#which-is-best-and-how-surely'] },
  merge: { files: "Reads studies' folders, writes one.", more: ['studies.md#more-than-one-machine'] },
  join: { files: 'Reads and writes no file: cells go through the queue.', more: ['studies.md#more-than-one-machine'] },
  fit: {
    files: 'Reads [readings](fitting.md#the-file). Writes a profile (YAML) and a chart (SVG), or the capture program.',
    more: ['fitting.md'],
  },
  firmware: { files: 'Reads a scenario or a report. Writes [a folder of C99](firmware.md).', more: ['firmware.md'] },
  walktest: {
    files:
      "Reads [a run's folder](files.md#a-runs-folder), a filled-in [sheet](walktest.md#sheets), a log. Writes sheets.",
    more: ['walktest.md'],
  },
  replay: {
    files:
      "Reads [a log](replay.md#the-log), a scenario, and a list of who came. Writes [a run's folder](replay.md#with-the-truth), or only tallies and counts.",
    more: ['replay.md'],
  },
  completion: { files: 'Writes to the terminal only.', more: [] },
};

const INTRO = `# Commands

*This page is made of the commands' own definitions; \`jambeam help COMMAND\` says the same in a terminal.*

Type \`npx jambeam\` in a clone, \`jambeam\` where it is on the path. \`jambeam\` alone prints the commands by the job they do.
Options may stand before or after what a command is given. Where a SCENARIO is asked for, the report of a run will do.

| exit code | when |
| --- | --- |
| 0 | done; a "no", a target that is missed or a design that fails its target included |
| 1 | a failure of ours: it is told with the command line that repeats it |
| 2 | your input or your disk: each problem with file, line and column, what was expected, what was found, a hint |
| 3 | some designs of a study failed; the rest is done |
| 130, 143, 129 | ended by Ctrl-C, by \`kill\`, or with its terminal |

| variable of the environment | what it does |
| --- | --- |
| \`NO_COLOR\` | any text: no colours; there are none either where the output is no terminal |
| \`JAMBEAM_REDIS\` | URL of the job queue for \`--redis\` without one: other users of a machine can read command lines |
| \`JAMBEAM_DEBUG\` | \`1\`: a failure of ours comes with the place in the code |

Results go to standard output, everything else to standard error. \`--json\` is for programs. A folder of results is never half
written, and nothing that jambeam has not written is overwritten without \`--force\`. [files.md](files.md) describes every file.
`;

export function commandsPage(): string {
  const { tree } = commandTree();
  const groups = [...new Set(tree.commands.map((command) => command.helpGroup()))];
  const parts = groups.map((group) => {
    const own = tree.commands.filter((command) => command.helpGroup() === group);
    return `## ${group.replace(/:$/, '')}\n\n${own.map(section).join('\n')}`;
  });
  return `${INTRO}\n${parts.join('\n')}`;
}

function section(command: Command): string {
  const about = ABOUT[command.name()];
  if (about === undefined) throw new RangeError(`nothing is said of the files of ${command.name()}`);
  const args = command.registeredArguments.map(
    (one) =>
      `| \`${one.required ? '<' : '['}${one.name()}${one.variadic ? '...' : ''}${one.required ? '>' : ']'}\` | ${cell(one.description)} | |`,
  );
  const options = command.options.filter(({ hidden }) => !hidden).map(optionRow);
  const more = about.more.map(
    (link) =>
      `[${link
        .replace(/^(.*)\.md#?/, '$1: ')
        .replaceAll('-', ' ')
        .replace(/: $/, '')}](${link})`,
  );
  return [
    `### ${command.name()}\n`,
    `\`jambeam ${command.name()} ${command.usage()}\`\n`,
    `${command.description()} ${about.files}${more.length > 0 ? ` More: ${more.join(', ')}.` : ''}\n`,
    ...(args.length + options.length > 0
      ? ['| | what it is | default |', '| --- | --- | --- |', ...args, ...options, '']
      : []),
    exampleBlock(command.name()),
  ].join('\n');
}

/** A default stands in the description as `(default: …)`. */
function optionRow(option: Option): string {
  const [whole = '', preset = ''] = /\s*\(default(?: with --\w+)?: (.*)\)/.exec(option.description) ?? [];
  return `| \`${cell(option.flags)}\` | ${cell(option.description.replace(whole, ''))} | ${cell(preset)} |`;
}

/** A bar would end the cell. */
const cell = (text: string): string => text.replaceAll('|', '\\|');

/** What stands in the help after `Examples:`, as code; what is said below them, as text. */
function exampleBlock(name: string): string {
  const help = helpOf(name);
  const all = help.slice(help.indexOf('\nExamples:\n') + '\nExamples:\n'.length).trimEnd();
  const [lines = '', ...below] = all.split('\n\n');
  return ['```', lines.replace(/^ {2}/gm, ''), '```', '', ...below.flatMap((text) => [text, ''])].join('\n');
}
