/**
 * SHA-256 of code of the user's own, so that a design says which it was.
 *
 * Of a module it covers the file and whatever that reaches by relative imports; of a program those words of its command
 * that are files. Installed packages, interpreters and what else a program reads are not covered.
 */
import { createHash } from 'node:crypto';
import { readFileSync, statSync } from 'node:fs';
import { dirname, relative, resolve, sep } from 'node:path';
import type { Code, ModuleCode } from './code.js';

const MOST_FILES = 1000;
const MOST_BYTES = 256 * 1_048_576;

/** 64 hexadecimal digits; undefined where nothing of it is a file that can be read. */
export function digestOf(code: Code): string | undefined {
  const files = code.use === 'module' ? reachedFrom(code) : code.words.filter(isFile).map((word) => resolve(word));
  if (files.length === 0) return undefined;
  const base = code.use === 'module' ? dirname(code.path) : '.';
  const hash = createHash('sha256');
  for (const file of files) {
    const bytes = readFileSync(file);
    // The name and the length keep two files apart from one with the text of both.
    hash.update(`${relative(base, file).split(sep).join('/')}\n${bytes.length}\n`).update(bytes);
  }
  return hash.digest('hex');
}

function isFile(path: string): boolean {
  try {
    const stats = statSync(path);
    return stats.isFile() && stats.size <= MOST_BYTES;
  } catch {
    return false;
  }
}

/** Specifiers that begin with a dot, after `from`, `import` or `require`; one in a comment does no harm. */
const RELATIVE = /\b(?:from|import|require)\s*\(?\s*(['"])(\.{1,2}\/[^'"\n]+)\1/g;
const ENDINGS = ['', '.ts', '.js', '.mts', '.mjs', '.cts', '.cjs', '.json', '/index.ts', '/index.js', '/index.mjs'];

/** The module and what it reaches, in order of their paths. */
function reachedFrom({ path }: ModuleCode): string[] {
  const reached = new Set([path]);
  for (const file of reached) {
    for (const [, , specifier = ''] of readFileSync(file, 'utf8').matchAll(RELATIVE)) {
      const bare = resolve(dirname(file), specifier);
      // TypeScript writes .js for what is a .ts file.
      const found = [...ENDINGS.map((ending) => bare + ending), bare.replace(/js$/, 'ts')].find(isFile);
      if (found !== undefined && reached.size < MOST_FILES) reached.add(found);
    }
  }
  return [...reached].sort();
}
