/** docs/library.md and docs/api: the program that is shown runs, and everything that is exported is described. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { transformSync } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { type Design, defineLogic, parseScenario, simulate, withOwnLogics } from '../../src/index.js';
import { reportOf } from '../../src/report/index.js';
import { starterTable } from '../../src/counter/table/starter.js';
import { folderWithDoor, jambeam } from '../cli/jambeam.js';
import { LONG } from '../how-many.js';
import { clone } from './clone.js';
import { shell } from './typed.js';
import { ROOT, blocks, page } from './markdown.js';

describe('the program of docs/library.md', () => {
  // `npm run typecheck` reads docs/examples, so what is equal to it is well typed.
  const shown = blocks(page('docs/library.md'), 'ts');
  test('is the file of the examples', () => expect(shown).toEqual([page('docs/examples/library.ts')]));

  // Less to simulate than is shown, but in the long run.
  const text = LONG ? shown[0]! : shown[0]!.replace("'replicates=4', 'hours=2'", "'replicates=2', 'hours=0.25'");

  test('runs from outside the package by its name, and says what it found', () => {
    const cwd = clone();
    writeFileSync(join(cwd, 'example.mjs'), transformSync(text, { loader: 'ts' }).code);
    const { code, out, err } = shell(`'${process.execPath}' example.mjs`, cwd);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    const heights = [...out.matchAll(/^([\d.]+) m: ([\d.]+) wrong per 100 crossings \([\d.]+ to [\d.]+\)$/gm)];
    expect(heights.map(([, height]) => height)).toEqual(['0.3', '0.65', '1']);
    // Shins are counted one by one, which the lesson of that name is about.
    expect(Number(heights[0]![2])).toBeGreaterThan(2 * Number(heights[2]![2]));
    expect(out).toMatch(/^last-cleared: [\d.]+\nfour-level: /m);
    expect(readFileSync(join(cwd, 'report.html'), 'utf8')).toMatch(/^<!doctype html>/);
  });
});

test('the report is the very page of the command line', async () => {
  const cwd = folderWithDoor((text) => text.replace('hours: 1 ', 'hours: 0.25 '));
  expect((await jambeam(['run', 'door.yaml', '--static'], { cwd })).code).toBe(0);
  const text = readFileSync(join(cwd, 'door.yaml'), 'utf8');
  const design = parseScenario(text, 'door.yaml', { readFile: () => starterTable() }).design!;
  expect(await reportOf(design, simulate(design))).toBe(readFileSync(join(cwd, 'door.run/report.html'), 'utf8'));
});

describe('logics of a program', () => {
  const short = { sets: ['replicates=2', 'hours=0.5', 'logics=[first-broken]'] };
  const design = parseScenario(page('scenarios/starter.yaml'), 's.yaml', { ...short, readFile: starterTable })
    .design as Design;
  // First-broken order as one would write it by oneself; without a timeout, which nobody needs in a quiet hour.
  const mine = defineLogic<{ readonly first: 'forward' | 'backward' | null; readonly both: boolean }>({
    beams: 2,
    initial: () => ({ first: null, both: false }),
    step({ first, both }, { levels: [a, b] }) {
      if (a === 0 && b === 0) return { state: { first: null, both: false }, tallies: both && first ? [first] : [] };
      const began = first ?? (a === 1 && b === 0 ? 'forward' : a === 0 && b === 1 ? 'backward' : null);
      const seen = first !== null && (both || (began === 'forward' ? b === 1 : a === 1));
      return { state: { first: began, both: seen }, tallies: [] };
    },
  });

  test('come first, and are judged on the same people as the others', () => {
    const own = withOwnLogics(design, { mine });
    const { doors, house } = simulate(own.design, {}, own.outside).metrics;
    expect(house.logic).toBe('mine');
    expect(doors.map(({ logic }) => logic)).toEqual(['mine', 'first-broken']);
    expect(doors[0]!.person_crossings).toBe(doors[1]!.person_crossings);
    // Rare kinds are looked at more closely for the first logic only; what was counted is the same.
    const { confusion, wrong_per_100 } = simulate(design).metrics.doors[0]!;
    expect(doors[1]).toMatchObject({ confusion, wrong_per_100 });
  });

  test('are refused with a taken name or another number of beams', () => {
    expect(() => withOwnLogics(design, { 'first-broken': mine })).toThrow('two logics are called first-broken');
    expect(() => withOwnLogics(design, { mine: { ...mine, beams: 4 } })).toThrow(
      'mine expects 4 beams, door front has 2',
    );
  });
});

describe.each([
  ['src/index.ts', 'docs/api/index.md'],
  ['src/report/index.ts', 'docs/api/report.md'],
])('%s', (entry, api) => {
  const source = readFileSync(join(ROOT, entry), 'utf8');
  const from = [...source.matchAll(/^export (?:type )?\{ (.*) \} from '(.*)\.js';$/gm)].flatMap(([, names, file]) =>
    names!.split(', ').map((name) => ({ name, file: resolve(ROOT, dirname(entry), `${file}.ts`) })),
  );
  const here = [...source.matchAll(/^export (?:async )?(?:function|interface) (\w+)/gm)].map(([, name]) => ({
    name: name!,
    file: join(ROOT, entry),
  }));
  const exported = [...from, ...here];
  const described = [...page(api).matchAll(/^### (\w+)/gm)].map(([, name]) => name!);

  test('all that it exports has a page of its own, and nothing else has', () => {
    expect(exported.length).toBeGreaterThan(2);
    expect([...described].sort()).toEqual(exported.map(({ name }) => name).sort());
  });

  test.each(exported)('$name has a docstring', ({ name, file }) => {
    const text = existsSync(file) ? readFileSync(file, 'utf8') : '';
    const words = `(?:async )?(?:function|interface|type|class|const) ${name}\\b`;
    expect(text).toMatch(new RegExp(`^export ${words}`, 'm'));
    expect(text).toMatch(new RegExp(`\\*/\\nexport ${words}`));
  });
});

test('nothing of a machine or of a host stands in the pages of the library', () => {
  for (const name of ['README', 'index', 'report'])
    expect(page(`docs/api/${name}.md`)).not.toMatch(/https?:|\/src\/|file:\/\//);
});
