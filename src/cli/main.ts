/** A command line from its words to its exit code. */
import { CommanderError } from 'commander';
import { announceCompletion } from './commands/completion.js';
import { tellFailure } from './failure.js';
import { type Io, ioOf } from './io.js';
import { program } from './program.js';
import { listenForSignals } from './signals.js';

/** Runs the process's command line, `args` without node and script, and sets its exit code. */
export async function main(args: readonly string[]): Promise<void> {
  const fail = (error: unknown): void => {
    process.exitCode = tellFailure(error, args, io);
  };
  const io = ioOf(process, (error) => fail(Object.assign(error, { path: 'stdout' })));
  listenForSignals();
  process.on('uncaughtException', (error) => {
    fail(error);
    process.exit();
  });
  const code = await commandLine(args, io);
  if (code !== 0) process.exitCode = code;
}

/** Runs one command line; gives its exit code. Where a command ends well with another code, it has set the process's. */
export async function commandLine(args: readonly string[], io: Io): Promise<0 | 1 | 2> {
  try {
    const jambeam = program(io);
    if (args[0] === 'completion' || args[0] === 'complete')
      (await import('./completion.js')).addCompletion(jambeam, args.at(-1)!);
    else announceCompletion(jambeam);
    // Who types nothing wants to know what can be typed.
    await jambeam.parseAsync(args.length > 0 ? args : ['--help'], { from: 'user' });
    return 0;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    return tellFailure(error, args, io);
  }
}
