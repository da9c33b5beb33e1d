/** The core is pure and its arrows go one way: read from its source, so that nobody needs to remember. */
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { transformSync } from 'esbuild';
import { describe, expect, test } from 'vitest';

const SRC = resolve(import.meta.dirname, '../../src');
/** A room may import from itself and from rooms before it. */
const CORE = ['engine', 'geometry', 'agents', 'sensors', 'counter', 'score', 'scenario', 'effort', 'simulate'];
const SHELL = ['plugins', 'fitting', 'study', 'report', 'cli'];
const ROOMS = [...CORE, ...SHELL];

/** Made of + − × ÷ sqrt, comparisons and bits: the same on every engine. */
const SAFE_MATH = new Set([
  'abs',
  'ceil',
  'clz32',
  'floor',
  'fround',
  'imul',
  'max',
  'min',
  'round',
  'sign',
  'sqrt',
  'trunc',
]);
const FORBIDDEN: readonly (readonly [RegExp, string])[] = [
  [/\*\*/, 'power operator: differs between engines'],
  [/\bDate\b/, 'wall clock'],
  [/\bIntl\b|\blocaleCompare\b|\btoLocale\w+/, 'locale'],
  [/\bperformance\b|\bsetTimeout\b|\bsetInterval\b/, 'wall clock'],
  [/\bconsole\b/, 'terminal'],
  [/\bprocess\s*\.|\bglobalThis\b|\bBuffer\b|\brequire\s*\(/, 'process'],
  [/\bcrypto\b|\bfetch\b/, 'outside world'],
  [/\bMath\b(?!\s*\.\s*[a-zA-Z])/, 'Math used other than by one named function'],
];

/** What is impure in a TypeScript source, comments and types apart. */
function impurities(source: string): string[] {
  const { code } = transformSync(source, {
    loader: 'ts',
    target: 'esnext',
    minifyWhitespace: true,
    legalComments: 'none',
  });
  const found = FORBIDDEN.filter(([pattern]) => pattern.test(code)).map(([, why]) => why);
  for (const [, name] of code.matchAll(/\bMath\s*\.\s*(\w+)/g)) {
    if (!SAFE_MATH.has(name as string)) found.push(`Math.${name}: differs between engines`);
  }
  return found;
}

/** Module names in `import`, `export … from` and `import()`, those of types too. */
function imports(source: string): string[] {
  const pattern = /(?:^|\n)\s*(?:import|export)\b[^'";]*?from\s*['"]([^'"]+)['"]|\bimport\s*\(?\s*['"]([^'"]+)['"]/g;
  return [...source.matchAll(pattern)].map(([, from, direct]) => (from ?? direct) as string);
}

const files = ROOMS.flatMap((room) => sources(join(SRC, room)).map((path) => ({ room, path })));
function sources(folder: string): string[] {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => join(folder, name));
  } catch {
    return [];
  }
}
/** What they export is the core's arithmetic: nothing else comes from that library. */
const NAME_STDLIB = ['arithmetic.ts', 'distribution-functions.ts'].map((file) => join('engine', file));
const named = files.map((file) => ({ ...file, name: relative(SRC, file.path), text: readFileSync(file.path, 'utf8') }));

describe('the core touches no file, clock, locale, process, and no function that engines disagree on', () => {
  test.each(named.filter(({ room }) => CORE.includes(room)))('$name', ({ name, text }) => {
    expect(impurities(text)).toEqual([]);
    const packages = imports(text).filter((from) => !from.startsWith('.'));
    expect(packages.filter((from) => from.startsWith('node:'))).toEqual([]);
    if (!NAME_STDLIB.includes(name)) {
      expect(packages.filter((from) => from.startsWith('@stdlib/'))).toEqual([]);
    }
  });
});

describe('imports go only to rooms further up', () => {
  test.each(named)('$name', ({ room, path, text }) => {
    const allowed = ROOMS.slice(0, ROOMS.indexOf(room) + 1);
    for (const from of imports(text).filter((specifier) => specifier.startsWith('.'))) {
      const target = relative(SRC, resolve(dirname(path), from)).split(sep)[0];
      expect(allowed, `${from} in ${relative(SRC, path)}`).toContain(target);
    }
  });
});

/** Files that import each other in a loop, or lead to such: what is left when those that import none of the rest are taken away. */
function inLoops(arrows: ReadonlyMap<string, readonly string[]>): string[] {
  const left = new Set(arrows.keys());
  const leaves = (): string[] => [...left].filter((file) => !arrows.get(file)!.some((to) => left.has(to)));
  for (let free = leaves(); free.length > 0; free = leaves()) for (const file of free) left.delete(file);
  return [...left];
}

test('no files import each other in a loop, types included', () => {
  const arrows = named.map(({ path, name, text }): [string, string[]] => {
    const own = imports(text).filter((from) => from.startsWith('.'));
    return [name, own.map((from) => relative(SRC, resolve(dirname(path), from.replace(/\.js$/, '.ts'))))];
  });
  expect(inLoops(new Map(arrows))).toEqual([]);
});

describe('the check itself', () => {
  test('finds a loop', () => {
    const loop: [string, string[]][] = [
      ['a', ['b']],
      ['b', ['c', 'd']],
      ['c', ['b']],
      ['d', []],
    ];
    expect(inLoops(new Map(loop))).toEqual(['a', 'b', 'c']);
  });

  test.each([
    'const x = Math.sin(1);',
    'const { log } = Math;',
    "const x = Math['exp'](1);",
    'const x = 2 ** 0.5;',
    'let x = 2; x **= 3;',
    'const now = new Date();',
    'names.sort((a, b) => a.localeCompare(b));',
    'const x = process.env.HOME;',
    'const draw = Math.random();',
    'console.log(1);',
  ])('finds the fault in %s', (source) => {
    expect(impurities(source)).not.toEqual([]);
  });

  test('reads code, not comments or types', () => {
    const source = '/** Never `Math.sin` or 2 ** 3. */\nconst a: Date | number = 4; // new Date()\nexport { a };';
    expect(impurities(source)).toEqual([]);
  });

  test('sees every kind of import', () => {
    const source = [
      "import a from './a.js';",
      "import type { B } from './b.js';",
      'import {\n  c,\n} from "./c.js";',
      "export { d } from './d.js';",
      "export * from './e.js';",
      "import './f.js';",
      "const g = await import('./g.js');",
    ].join('\n');
    expect(imports(source)).toEqual(['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((name) => `./${name}.js`));
  });
});
