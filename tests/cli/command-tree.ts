/** The commands as they are defined, without running any: for the page about them, and for the examples of the help. */
import type { Command } from 'commander';
import { announceCompletion } from '../../src/cli/commands/completion.js';
import { program } from '../../src/cli/program.js';
import { ioOf } from '../../src/cli/io.js';

const PLAIN = ioOf(process, () => {});

/** The whole command line, and what it printed so far. */
export function commandTree(): { readonly tree: Command; readonly said: () => string } {
  let text = '';
  const words = (more: string): void => void (text += more);
  const tree = program({ ...PLAIN, out: words, err: words });
  announceCompletion(tree);
  return { tree, said: () => text };
}

/** Help as it is printed, with what stands after the options. */
export function helpOf(name?: string): string {
  const { tree, said } = commandTree();
  const command = name === undefined ? tree : tree.commands.find((one) => one.name() === name)!;
  command.outputHelp();
  return said();
}

/** Lines of a help that can be typed: what a user types, without the words behind it. */
export function examplesIn(help: string): string[] {
  const after = help.slice(help.indexOf('\nOptions:'));
  return [...after.matchAll(/^ {2}((?:source <\()?jambeam [a-z].*)$/gm)].map(([, line]) =>
    (line as string).replace(/ {3,}\S.*$/, '').trim(),
  );
}
