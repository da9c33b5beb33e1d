/**
 * Follows a tutorial as a reader does. Its fenced blocks are taken in order:
 *
 * - `sh` is typed;
 * - `text` quotes the output of the block that was typed last, line by line, or the page named at the end of the line before;
 * - whatever else is a file, to be written under the name that stands at the end of the line before.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect } from 'vitest';
import { type Fence, fences, flat } from './markdown.js';
import { C_COMPILER, isThere, typed } from './typed.js';

/** Programs that a reader may be without. */
const OPTIONAL = [C_COMPILER, 'python3'];

/** Types, writes and compares all that a tutorial says, in an empty folder. */
export async function follow(markdown: string, cwd: string): Promise<void> {
  const absent = OPTIONAL.filter((program) => !isThere(program));
  let out: string | null = null;
  for (const fence of fences(markdown)) {
    const { language, text } = fence;
    const file = fileBefore(markdown, fence);
    if (language === 'sh') {
      if (absent.some((program) => new RegExp(`\\b${program} `).test(text))) {
        out = null;
        continue;
      }
      const said = await typed(text, cwd);
      expect({ typed: text, code: said.code, err: said.code === 0 ? '' : said.err }).toEqual({
        typed: text,
        code: 0,
        err: '',
      });
      out = said.out;
    } else if (language !== 'text') {
      if (file === null) expect.fail(`no line before names the file to write:\n${text}`);
      mkdirSync(dirname(join(cwd, file)), { recursive: true });
      writeFileSync(join(cwd, file), text);
    } else if (file !== null) {
      expectWords(text, wordsOfPage(readFileSync(join(cwd, file), 'utf8')));
    } else if (out !== null) {
      expectLines(text, out);
    }
  }
}

/** The last words before a block, where they are the name of a file and a colon. */
function fileBefore(markdown: string, { at }: Fence): string | null {
  return /`([\w./-]+)`:\n+$/.exec(markdown.slice(0, at))?.[1] ?? null;
}

/** Whole lines, in their order; others may stand between them. Blanks that don't break are blanks to who types a page. */
function expectLines(quote: string, out: string): void {
  const lines = out.replaceAll('\u00a0', ' ').split('\n');
  let from = 0;
  for (const line of linesOf(quote)) {
    const found = lines.indexOf(line, from);
    const near = `quoted, but not printed, or not in this order:\n${line}\nprinted was:\n${out.slice(0, 5000)}`;
    if (found < 0) expect.fail(near);
    from = found + 1;
  }
}

/** Pieces of a page's text, in their order. */
function expectWords(quote: string, words: string): void {
  let from = 0;
  for (const line of linesOf(quote)) {
    const found = words.indexOf(flat(line), from);
    if (found < 0) expect.fail(`quoted, but not on the page (or not in this order):\n${line}`);
    from = found + line.length;
  }
}

/** What somebody reads who is shown the page without its drawings; characters that only steer the direction of writing are no words. */
function wordsOfPage(html: string): string {
  const bare = html.replace(/<(script|style|svg)\b[\s\S]*?<\/\1>/g, ' ').replace(/<[^>]*>/g, ' ');
  return flat(bare.replace(/[\u2068\u2069]/g, ''));
}

function linesOf(text: string): string[] {
  return text.trimEnd().split('\n');
}

/**
 * Numbers that stand in a tutorial's sentences, or in a page of results that it writes, without having been typed,
 * written or quoted before. Links and what is set in type are no sentences.
 */
export function numbersFromNowhere(markdown: string): string[] {
  const known = new Set<string>();
  const strange: string[] = [];
  const look = (text: string): void => {
    strange.push(...numbersIn(text.replace(/`[^`]*`|\]\([^)]*\)/g, ' ')).filter((number) => !known.has(number)));
  };
  let from = 0;
  for (const { language, text, at } of fences(markdown)) {
    look(markdown.slice(from, at));
    if (language === 'markdown') look(text);
    for (const number of numbersIn(text)) known.add(number);
    from = at + '```'.length + language.length + 1 + text.length + '```'.length;
  }
  look(markdown.slice(from));
  return strange;
}

function numbersIn(text: string): string[] {
  return text.match(/\d+(?:[.,]\d+)*/g) ?? [];
}
