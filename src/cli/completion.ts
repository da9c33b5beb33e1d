/** What a shell offers after the tabulator key: commands, options, the values of those that have few, files. Loaded only for that. */
import { readdirSync } from 'node:fs';
import tab from '@bomb.sh/tab/commander';
import type { Command } from 'commander';
import { SENSOR_KINDS } from '../sensors/schema.js';

/**
 * Adds `completion`, which prints a shell's script, and `complete`, which the script calls; all others must be there already.
 *
 * @param typed the word that is to be completed
 */
export function addCompletion(jambeam: Command, typed: string): void {
  const { commands } = tab(jambeam, { completionCommandName: 'completion' });
  offer('new', 'sensor', SENSOR_KINDS);
  offer(
    'fit',
    'kind',
    SENSOR_KINDS.filter((kind) => kind.endsWith('-ranger')),
  );
  offer('replay', 'time-unit', ['s', 'ms', 'us']);
  for (const command of commands.values())
    for (const argument of command.arguments.values())
      argument.handler ??= (say) => filesAt(typed).forEach((file) => say(file, ''));

  function offer(command: string, option: string, values: readonly string[]): void {
    const found = commands.get(command)?.options.get(option);
    if (!found) throw new RangeError(`no --${option} of ${command} to complete`);
    found.handler = (say) => values.forEach((value) => say(value, ''));
  }
}

/** Files and folders whose path begins with what is typed, but hidden ones: a folder with a slash at its end. */
function filesAt(typed: string): string[] {
  const folder = typed.slice(0, typed.lastIndexOf('/') + 1);
  try {
    return readdirSync(folder || '.', { withFileTypes: true })
      .filter(({ name }) => !name.startsWith('.'))
      .map((entry) => `${folder}${entry.name}${entry.isDirectory() ? '/' : ''}`)
      .filter((path) => path.startsWith(typed));
  } catch {
    return []; // No such folder: nothing to offer.
  }
}
