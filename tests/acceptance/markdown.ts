/** What the tests of the docs read out of Markdown. */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';

export const ROOT = resolve(import.meta.dirname, '../..');

/** What a newcomer reads. */
export const PAGES = [
  'README.md',
  'DEVELOPERS.md',
  'CHANGELOG.md',
  'docs/browser.md',
  'docs/compare.md',
  'docs/faults.md',
  'docs/files.md',
  'docs/firmware.md',
  'docs/fitting.md',
  'docs/household.md',
  'docs/logics.md',
  'docs/models.md',
  'docs/own-logic.md',
  'docs/plan-and-effort.md',
  'docs/scoring.md',
  'docs/sensors.md',
  'docs/tables.md',
  'docs/walktest.md',
] as const;

export function page(name: string): string {
  return readFileSync(resolve(ROOT, name), 'utf8');
}

/** The fenced blocks of a language, in order. */
export function blocks(markdown: string, language: string): string[] {
  return [...markdown.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)].flatMap(([, tongue, text]) =>
    tongue === language ? [text as string] : [],
  );
}

/** One line of spaces, for sentences that are broken differently. */
export function flat(text: string): string {
  return text.replace(/\s+/g, ' ');
}

/** Cells of every table row of a page, first and last bar left out. */
export function rowsOf(markdown: string): string[][] {
  return [...markdown.matchAll(/^\| (.*) \|$/gm)].map(([, row]) => (row as string).split(' | '));
}

/** Names that a page sets in type: `like this`. */
export function codes(markdown: string): Set<string> {
  return new Set([...markdown.matchAll(/`([^`\n]+)`/g)].map(([, code]) => code as string));
}

/** As headings are linked to: lower case, spaces to hyphens, punctuation out. */
export function anchorsOf(markdown: string): Set<string> {
  return new Set(
    [...markdown.matchAll(/^#+ (.*)$/gm)].map(([, heading]) =>
      (heading as string)
        .toLowerCase()
        .replace(/[^\p{L}\p{N} -]/gu, '')
        .replaceAll(' ', '-'),
    ),
  );
}
