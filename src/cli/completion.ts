/** What a shell offers after the tabulator key: commands, options, the values of those that have few, files. Loaded only for that. */
import { readdirSync } from 'node:fs';
import tab from '@bomb.sh/tab/commander';
import type { Command } from 'commander';
import { BUILT_IN_WALKERS, PASSAGE_KINDS } from '../agents/schema.js';
import { logicSchema } from '../counter/schema.js';
import { SENSOR_KINDS } from '../sensors/schema.js';
import { EDITOR_SCHEMAS } from './editor-schemas.js';

/** Which files an argument or an option's value may be, by its name in the help; a folder may always lead to one. */
const FILES: readonly (readonly [name: RegExp, file: RegExp])[] = [
  [/^scenario$/, /\.(?:ya?ml|html)$/],
  [/^study$/, /\.ya?ml$/],
  [/^(?:log|readings)$/, /\.csv$/],
  [/^dir$/, /\/$/],
  [/^file\.(?:csv|svg|html)$/, /\.(?:csv|svg|html)$/],
  [/^file$/, /./],
];
const LOGICS = logicSchema.options
  .map(({ shape }) => [...shape.use.values][0] as string)
  .filter((use) => use !== 'table');

/** Options with few values, wherever a command has them. */
const VALUES: Readonly<Record<string, readonly string[]>> = {
  'new --sensor': SENSOR_KINDS,
  'fit --kind': SENSOR_KINDS.filter((kind) => kind.endsWith('-ranger')),
  'passage --kind': PASSAGE_KINDS,
  'passage --who': Object.keys(BUILT_IN_WALKERS),
  'passage --direction': ['forward', 'backward'],
  'passage --only': ['wrong'],
  'pick --least': ['cost', 'holes', 'cable_m', 'hours'],
  'replay --time-unit': ['s', 'ms', 'us'],
  'keys --schema': Object.keys(EDITOR_SCHEMAS),
};
/** Commands whose `--logic` is a built-in's name or a file; of others it is a name in a run. */
const LOGIC_OR_FILE = ['check', 'run', 'passage', 'study', 'join', 'replay', 'firmware'];

/** Adds `completion`, which prints a shell's script, and `complete`, which the script calls; all others must be there already. */
export function addCompletion(jambeam: Command): void {
  const { commands } = tab(jambeam, { completionCommandName: 'completion' });
  const typed = process.argv.at(-1) ?? '';
  for (const command of jambeam.commands) {
    const offered = commands.get(command.name());
    for (const argument of command.registeredArguments) {
      const of = offered?.arguments.get(argument.name());
      if (of) of.handler ??= (say) => filesFor(argument.name(), typed).forEach((file) => say(file, ''));
    }
    for (const option of command.options) {
      const of = offered?.options.get(option.long?.slice(2) ?? '');
      const name = /[<[](.*)[>\]]/.exec(option.flags)?.[1];
      if (!of || name === undefined) continue;
      const files = filesFor(option.attributeName(), typed, name);
      const values = VALUES[`${command.name()} ${option.long}`];
      const logic = option.long === '--logic' && LOGIC_OR_FILE.includes(command.name());
      const all = values ?? (logic ? [...LOGICS, ...filesAt(typed, /\.(?:ya?ml|ts|js|mjs)$/)] : files);
      of.handler = (say) => all.forEach((value) => say(value, ''));
    }
  }
}

/** By the first of the names that says which files are meant. */
function filesFor(name: string, typed: string, otherwise = name): string[] {
  const pattern = (FILES.find(([of]) => of.test(name)) ?? FILES.find(([of]) => of.test(otherwise)))?.[1];
  return pattern === undefined ? [] : filesAt(typed, pattern);
}

/** Files that end so, and folders, whose path begins with what is typed, but hidden ones: a folder with a slash at its end. */
function filesAt(typed: string, ending: RegExp): string[] {
  const folder = typed.slice(0, typed.lastIndexOf('/') + 1);
  try {
    return readdirSync(folder || '.', { withFileTypes: true })
      .filter(({ name }) => !name.startsWith('.'))
      .map((entry) => `${folder}${entry.name}${entry.isDirectory() ? '/' : ''}`)
      .filter((path) => path.startsWith(typed) && (path.endsWith('/') || ending.test(path)));
  } catch {
    return []; // No such folder: nothing to offer.
  }
}
