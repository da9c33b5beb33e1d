/** What a shell offers after the tabulator key: commands, options, the values of those that have few, files. Loaded only for that. */
import { readdirSync } from 'node:fs';
import tab from '@bomb.sh/tab/commander';
import type { Command } from 'commander';
import { BUILT_IN_WALKERS, MIX_KINDS } from '../agents/schema.js';
import { BARE_LOGICS } from '../counter/schema.js';
import { FIT_KINDS } from '../fitting/bench.js';
import { SENSOR_KINDS } from '../sensors/schema.js';
import { describeCompletion } from './commands/completion.js';
import { EDITOR_SCHEMAS } from './editor-schemas.js';
import { DIRECTIONS, LEAST, TIME_UNITS } from './option-values.js';

/** Which files an argument or an option's value may be, by its name in the help; a folder may always lead to one. */
const FILES: readonly (readonly [name: RegExp, file: RegExp])[] = [
  [/^scenario$/, /\.(?:ya?ml|html)$/],
  [/^study$/, /\.ya?ml$/],
  [/^(?:log|readings)$/, /\.csv$/],
  [/^dir$/, /\/$/],
  [/^file\.(?:csv|svg|html)$/, /\.(?:csv|svg|html)$/],
  [/^file$/, /./],
];

/** Options with few values, each as command and option. */
const VALUES: Readonly<Record<string, readonly string[]>> = {
  'new --sensor': SENSOR_KINDS,
  'fit --kind': FIT_KINDS,
  'passage --kind': MIX_KINDS,
  'passage --who': Object.keys(BUILT_IN_WALKERS),
  'passage --direction': DIRECTIONS,
  'passage --only': ['wrong'],
  'pick --least': LEAST,
  'replay --time-unit': TIME_UNITS,
  'keys --schema': Object.keys(EDITOR_SCHEMAS),
};

/** A built-in's name, a table or a module; the others' `--logic` is a name in a run. */
const LOGIC_OR_FILE = ['check', 'run', 'passage', 'study', 'join', 'replay', 'firmware'];
const LOGIC_FILE = /\.(?:ya?ml|[cm]?[jt]s)$/;

/**
 * For bash, behind the library's script: bash makes three words of `--logic=ho` and puts what is chosen in place of the last
 * one. Without the equals sign they are what `--logic ho` is.
 */
const EQUALS_IN_BASH = `
__jambeam_complete_values() {
    local i words=()
    for ((i = 0; i <= COMP_CWORD; i++)); do
        if [[ \${COMP_WORDS[i]} != = ]]; then
            words+=("\${COMP_WORDS[i]}")
        elif ((i == COMP_CWORD)); then
            words+=("")
        fi
    done
    COMP_WORDS=("\${words[@]}")
    COMP_CWORD=$((\${#words[@]} - 1))
    COMP_LINE="\${words[*]}"
    COMP_POINT=\${#COMP_LINE}
    __jambeam_complete "$@"
}
complete -F __jambeam_complete_values jambeam`;

/**
 * Adds `completion`, which prints a shell's script, and `complete`, which the script calls; all others must be there already.
 *
 * @param word the word that is to be completed
 * @throws {RangeError} when a list above names what no command has
 */
export function addCompletion(jambeam: Command, word: string): void {
  const { commands } = tab(jambeam, { completionCommandName: 'completion' });
  const completion = jambeam.commands.find((command) => command.name() === 'completion')!;
  describeCompletion(completion);
  completion.hook('postAction', (_, { args: [shell] }) => {
    if (shell === 'bash') console.log(EQUALS_IN_BASH);
  });
  // Of `--logic=ho` only the value is completed; the shell keeps what stands before it.
  const typed = word.replace(/^--[\w-]+=/, '');
  for (const command of jambeam.commands) {
    const offered = commands.get(command.name());
    for (const argument of command.registeredArguments) {
      const of = offered?.arguments.get(argument.name());
      if (of) of.handler ??= (say) => filesFor(typed, argument.name()).forEach((file) => say(file, ''));
    }
    for (const { long, flags } of command.options) {
      const of = offered?.options.get(long?.slice(2) ?? '');
      const name = /[<[](.*)[>\]]/.exec(flags)?.[1];
      // `--scenario <file>`: the option says more than its value's name.
      if (of && name) of.handler = (say) => filesFor(typed, long!.slice(2), name).forEach((file) => say(file, ''));
    }
  }
  for (const [where, values] of Object.entries(VALUES)) offer(where, () => values);
  for (const command of LOGIC_OR_FILE)
    offer(`${command} --logic`, () => [...BARE_LOGICS, ...filesAt(typed, LOGIC_FILE)]);

  function offer(where: string, values: () => readonly string[]): void {
    const [command, option] = where.split(' --') as [string, string];
    const found = commands.get(command)?.options.get(option);
    if (!found) throw new RangeError(`no ${where} to complete`);
    found.handler = (say) => values().forEach((value) => say(value, ''));
  }
}

/** By the first of the names that says which files are meant. */
function filesFor(typed: string, ...names: readonly string[]): string[] {
  const ending = names.map((name) => FILES.find(([of]) => of.test(name))?.[1]).find((one) => one !== undefined);
  return ending === undefined ? [] : filesAt(typed, ending);
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
