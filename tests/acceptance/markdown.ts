/** What the tests of the docs read out of Markdown. */
import { readFileSync, readdirSync } from 'node:fs';
import { resolve } from 'node:path';

export const ROOT = resolve(import.meta.dirname, '../..');

/** What a newcomer reads, and every page that is in docs. */
export const PAGES: readonly string[] = [
  'README.md',
  'DEVELOPERS.md',
  'CHANGELOG.md',
  ...readdirSync(resolve(ROOT, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`)
    .sort(),
];

export function page(name: string): string {
  return readFileSync(resolve(ROOT, name), 'utf8');
}

export interface Fence {
  readonly language: string;
  readonly text: string;
  /** Where its first line begins in the page. */
  readonly at: number;
}

/** All fenced blocks, in order. */
export function fences(markdown: string): Fence[] {
  return [...markdown.matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)].map(({ 1: language, 2: text, index }) => ({
    language: language as string,
    text: text as string,
    at: index,
  }));
}

/** The fenced blocks of a language, in order. */
export function blocks(markdown: string, language: string): string[] {
  return fences(markdown).flatMap((fence) => (fence.language === language ? [fence.text] : []));
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
  const anchors = new Set<string>();
  for (const [, heading] of markdown.matchAll(/^#+ (.*)$/gm)) {
    const base = heading!
      .toLowerCase()
      .replace(/[^\p{L}\p{N} -]/gu, '')
      .replaceAll(' ', '-');
    let anchor = base;
    for (let again = 1; anchors.has(anchor); again++) anchor = `${base}-${again}`;
    anchors.add(anchor);
  }
  return anchors;
}
