/** Options that several commands share. */
import type { Command } from 'commander';
import type { LogicArgument } from './logic-options.js';

/** The options that name logics on the command line. Both gather in one list: their order counts. */
export function withLogics(command: Command): Command {
  const logics: LogicArgument[] = [];
  const take =
    (option: LogicArgument['option']) =>
    (value: string): void =>
      void logics.push({ option, value });
  return command
    .option(
      '--logic <what>',
      "in place of the scenario's logics: a built-in's name, a table (.yaml) or a module (.ts, .js, .mjs); can be given again",
      take('--logic'),
    )
    .option(
      '--logic-process <command>',
      'the same with a program of your own and its arguments',
      take('--logic-process'),
    )
    .option('--logic-timeout-s <seconds>', 'how long a step or an answer of your code may take (default: 10)')
    .hook('preAction', () => void command.setOptionValue('logics', logics));
}

/** Values of an option that may be given again and again. */
export function collect(value: string, before: readonly string[] = []): readonly string[] {
  return [...before, value];
}

/** Of all commands that write a report. */
export const STATIC = ['--static', 'write a page without any script'] as const;
