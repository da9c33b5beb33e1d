/** How a command ends when something went wrong: in words, with the right exit code, without a stack trace. */
import { VERSION } from '../simulate/version.js';
import type { Io } from './io.js';
import { UserProblem, systemWords } from './problem.js';
import { shellWord } from '../report/shell-word.js';

/** Exit code: 2 for the user's input or disk, 1 for a failure of ours. Prints what there is to say. */
export function tellFailure(error: unknown, args: readonly string[], io: Io): 1 | 2 {
  if (error instanceof UserProblem) {
    io.err(`${error.placed ? '' : `${io.errPaint.red('error:')} `}${error.message}\n`);
    return 2;
  }
  const words = systemWords(error);
  if (words !== undefined) {
    const path = (error as NodeJS.ErrnoException).path;
    io.err(`${io.errPaint.red('error:')} ${path === undefined ? 'the system refused' : path}: ${words}\n`);
    return 2;
  }
  const message = error instanceof Error ? error.message : String(error);
  io.err(
    [
      `${io.errPaint.red('jambeam failed, and the fault is ours, not yours:')} ${message}`,
      `Please report it, with this line, which repeats it, and the files it names (jambeam ${VERSION}, Node ${process.version}):`,
      `  ${commandLine(args)}`,
      ...(process.env['JAMBEAM_DEBUG'] === '1' && error instanceof Error
        ? [error.stack ?? '']
        : ['JAMBEAM_DEBUG=1 in front of it shows where it happened.']),
      '',
    ].join('\n'),
  );
  return 1;
}

/** The command as it can be pasted into a shell again. */
function commandLine(args: readonly string[]): string {
  // A password in a URL is nobody's business but the user's.
  const open = args.map((arg) => arg.replace(/\/\/[^/@\s]*@/g, '//…@'));
  return ['jambeam', ...open.map(shellWord)].join(' ');
}
