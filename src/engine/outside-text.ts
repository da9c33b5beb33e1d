/** A text file from outside before any parser sees it: its line ends, characters no text holds, and depth no parser survives. */

export type Oddity = 'binary' | 'control character' | 'not UTF-8';

/** In words, for whoever reads the file. */
export const ODDITY_WORDS: Readonly<Record<Oddity, { readonly text: string; readonly hint?: string }>> = {
  binary: { text: 'expected a text file, found binary data' },
  'control character': {
    text: 'expected one line of plain text, found a control character',
    hint: 'take the character out',
  },
  'not UTF-8': { text: 'expected text in UTF-8, found other bytes', hint: 'save the file as UTF-8' },
};

/**
 * Without a byte-order mark, which is no part of the first line; and a carriage return alone as a line feed: it ends a line
 * too (YAML 1.2.2, section 5.4 Line Break Characters), and the parser doesn't know.
 */
export function plainLines(text: string): string {
  const unmarked = text.startsWith('\ufeff') ? text.slice(1) : text;
  return unmarked.includes('\r') ? unmarked.replace(/\r(?!\n)/g, '\n') : unmarked;
}

/** The first character no text file holds: NUL, another control, or what decoding puts for bytes that are not UTF-8. */
export function oddCharacter(text: string): { readonly offset: number; readonly why: Oddity } | undefined {
  // oxlint-disable-next-line no-control-regex -- they are what is looked for
  const offset = text.search(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f\ufffd]/);
  if (offset < 0) return undefined;
  if (text.includes('\u0000')) return { offset: text.indexOf('\u0000'), why: 'binary' };
  return { offset, why: text[offset] === '\ufffd' ? 'not UTF-8' : 'control character' };
}

/**
 * Deeper than this nothing is given to the YAML parser, which takes memory without bound for a text of brackets, or of
 * dashes and question marks in one line, and ends the process. Quotes and comments are not told apart: no text that means
 * anything has a thousand brackets more opened than closed.
 */
const MOST_OPEN = 1000;

/** Where a text of YAML goes deeper than any parser should have to; undefined: nowhere. */
export function tooDeepAt(text: string): number | undefined {
  let open = 0;
  let marks = 0;
  for (let at = 0; at < text.length; at++) {
    const c = text[at];
    if (c === ' ' || c === '\t') continue;
    const isMark = (c === '-' || c === '?' || c === ':') && /\s/.test(text[at + 1] ?? ' ');
    marks = isMark ? marks + 1 : 0;
    if (c === '[' || c === '{') open++;
    else if (c === ']' || c === '}') open = Math.max(0, open - 1);
    if (open > MOST_OPEN || marks > MOST_OPEN) return at;
  }
  return undefined;
}

/** Line and column of an offset, from 1. */
export function placeIn(text: string, offset: number): { readonly line: number; readonly column: number } {
  const before = text.slice(0, offset);
  return { line: before.split('\n').length, column: offset - before.lastIndexOf('\n') };
}

/**
 * Runs a parser that makes an error of each thing it stumbles over, half a million of them in a bad text: without their
 * stack traces, which nobody is shown, they fit into memory.
 */
export function withoutTraces<T>(parse: () => T): T {
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return parse();
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}
