/** The command for shells, as help shows it. What it does is in ../completion.ts, which loads much and is loaded late. */
import type { Command } from 'commander';

/** For the list of commands alone: who calls the command gets the one that does something. */
export function announceCompletion(jambeam: Command): void {
  describeCompletion(jambeam.command('completion').argument('<shell>', 'zsh, bash, fish or powershell'));
}

/** Summary, description and examples. */
export function describeCompletion(completion: Command): void {
  completion
    .summary('print what your shell needs to complete what you type')
    .description(
      'Prints a script for your shell. With it, the tabulator key completes commands, options, their values and files.',
    )
    .addHelpText(
      'after',
      `
Examples:
  source <(jambeam completion bash)                     for this shell; in ~/.bashrc for every one
  jambeam completion zsh > ~/.zsh/_jambeam              into a folder of your fpath
  jambeam completion fish > ~/.config/fish/completions/jambeam.fish

In bash, the package bash-completion must be there.`,
    );
}
