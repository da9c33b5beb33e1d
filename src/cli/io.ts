/** Where a command's words go. No control character of a user's text gets to a terminal through here. */
import picocolors from 'picocolors';
import { CONTROLS, ISOLATES, TURNING } from '../engine/printable.js';

/** Colours for stdout or stderr; plain text where there is no terminal. */
export type Paint = ReturnType<typeof picocolors.createColors>;

export interface Io {
  /** Results. The text brings its own line breaks. */
  out(text: string): void;
  /** Everything else: what is wrong, what goes on. */
  err(text: string): void;
  /** Whether stdout shows colours: a terminal, and NO_COLOR is not set. */
  readonly colour: boolean;
  readonly paint: Paint;
  readonly errPaint: Paint;
  /** Whether stderr is a terminal, so that a progress bar can be drawn. */
  readonly errIsTerminal: boolean;
}

/** All controls but line breaks, tabs and colours; direction marks, which turn what follows. */
const UNSAFE = new RegExp(String.raw`\u001b(?!\[\d{1,3}m)|(?!\u001b)[${CONTROLS}${TURNING}${ISOLATES}]`, 'g');

/** Text fit for a terminal: what would move the cursor or hide something is shown as `\u{1b}`. */
function terminalText(text: string): string {
  return text.replace(UNSAFE, (c) => `\\u{${c.charCodeAt(0).toString(16)}}`);
}

/** A value as JSON for stdout: the same escapes, in JSON's own way, so that it stays JSON. */
export function jsonText(value: unknown): string {
  const escaped = JSON.stringify(value, null, 2).replace(UNSAFE, (c) => {
    return `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
  });
  return `${escaped}\n`;
}

/**
 * A process's own streams. A reader that has gone away, as in `jambeam keys | head`, is no error; any other trouble
 * with stdout goes to `onTrouble`.
 */
export function ioOf(
  { stdout, stderr, env }: Pick<NodeJS.Process, 'stdout' | 'stderr' | 'env'>,
  onTrouble: (error: NodeJS.ErrnoException) => void,
): Io {
  const shows = (stream: NodeJS.WriteStream) => stream.isTTY === true && !env['NO_COLOR'] && env['TERM'] !== 'dumb';
  let gone = false;
  stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (!gone && error.code !== 'EPIPE') onTrouble(error);
    gone = true;
  });
  // Nobody is left to be told.
  stderr.on('error', () => undefined);
  return {
    out: (text) => void (gone || stdout.write(terminalText(text))),
    err: (text) => void stderr.write(terminalText(text)),
    colour: shows(stdout),
    paint: picocolors.createColors(shows(stdout)),
    errPaint: picocolors.createColors(shows(stderr)),
    errIsTerminal: stderr.isTTY === true,
  };
}
