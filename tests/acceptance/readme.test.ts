/** The README is true: what it says to type is typed, what it shows is run, what it links to is there. */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { transformSync } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { starterTable } from '../../src/counter/table/starter.js';
import { CAUTIONS } from '../../src/report/cautions.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { jambeam } from '../cli/jambeam.js';
import { clone, shortened } from './clone.js';
import { PAGES, ROOT, anchorsOf, blocks, flat, page } from './markdown.js';
import { C_COMPILER, isThere, shell, typed } from './typed.js';

const readme = page('README.md');
const scripts = (JSON.parse(page('package.json')) as { scripts: Record<string, string> }).scripts;

describe('the two commands that do all the set-up', () => {
  // `npm ci` would take away the modules this very test runs on, `npm test` would run this test for ever, and a build
  // would pull the compiled files from under the other tests. So the scripts are read, and what follows the build is run.
  test('are the first ones, and are what the scripts and the checks call', () => {
    expect(blocks(readme, 'sh').slice(0, 2)).toEqual(['npm ci && npm start\n', 'npm ci && npm test\n']);
    expect(scripts['test']).toMatch(/^npm run build --silent && JAMBEAM_COMPILED=1 vitest run\b/);
    expect(page('.ci/run')).toMatch(/^npm ci\b.*\n(?:.*\n)*?tests test\ntests test:rest$/m);
  });

  test('npm start runs the guesthouse after the build and prints where the report is', async () => {
    const [build, run] = (scripts['start'] ?? '').split(' && ');
    expect(build).toBe('npm run build --silent');
    const cwd = clone();
    const { code, out } = await typed(shortened((run ?? '').replace('node bin/jambeam.js', 'npx jambeam')), cwd);
    expect(code).toBe(0);
    const report = /report: (\S+)/.exec(out)?.[1] ?? '';
    expect(existsSync(join(cwd, report))).toBe(true);
  });
});

test('every other command that is meant to be typed works, in the order of the page', async () => {
  const cwd = clone();
  const cc = isThere(C_COMPILER);
  for (const block of blocks(readme, 'sh').slice(2)) {
    if (!cc && block.startsWith('cc ')) continue;
    const { code, out } = await typed(shortened(block), cwd);
    expect({ block, code }).toEqual({ block, code: 0 });
    expect(out).not.toBe('');
  }
  for (const made of ['scenario.run/report.html', 'height-0.65.run/metrics.json', 'starter.run/edges.csv'])
    expect(existsSync(join(cwd, made))).toBe(true);
});

test('the scenario it shows is a whole one', () => {
  const [text = ''] = blocks(readme, 'yaml');
  const { design, issues, cautions } = parseScenario(text, 'README.md');
  expect(issues.map(formatIssue)).toEqual([]);
  expect(cautions.map(formatIssue)).toEqual([]);
  expect(design?.doors[0]?.beams.map(({ name }) => name)).toEqual(['A', 'B']);
});

test('the library example runs, from outside the package by its name', () => {
  const cwd = clone();
  const [text = ''] = blocks(readme, 'ts');
  writeFileSync(join(cwd, 'example.mjs'), transformSync(text, { loader: 'ts' }).code);
  const { code, out, err } = shell(`'${process.execPath}' example.mjs`, cwd);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  expect(out.trimEnd().split('\n')).toHaveLength(3);
  expect(out).toMatch(/^front, first-broken: [\d.]+ wrong per 100 crossings \([\d.]+ to [\d.]+\)$/m);
});

test('every command is listed, and no other', async () => {
  const listed = [...readme.matchAll(/^\| `jambeam (\w+)/gm)].map(([, name]) => name);
  const { out } = await jambeam(['--help'], { cwd: ROOT });
  const known = [...out.matchAll(/^ {2}([a-z]+) (?:\[|<|  )/gm)].map(([, name]) => name).filter((n) => n !== 'help');
  expect(listed).toEqual(known);
});

test('the contributor’s guide shows an error as it is', () => {
  const { issues } = parseScenario(starterScenario({ width_m: 0 }), 'door.yaml', { readFile: () => starterTable() });
  expect(blocks(page('DEVELOPERS.md'), '')).toEqual([`${issues.map(formatIssue).join('\n')}\n`]);
});

test('every caution of the reports stands in it, word for word', () => {
  for (const { title, text } of CAUTIONS)
    expect(flat(readme)).toContain(`**${title}.** ${text.replace('this report does not', 'jambeam does not')}`);
});

test('the picture is a PNG of at most 250 kB', () => {
  const picture = readFileSync(join(ROOT, 'docs/report.png'));
  expect(picture.subarray(1, 4).toString('latin1')).toBe('PNG');
  expect(picture.length).toBeLessThan(250_000);
});

describe.each(PAGES)('%s', (name) => {
  const text = page(name);

  test('links lead somewhere', () => {
    const links = [...text.matchAll(/\]\(([^)\s]+)\)/g)].map(([, link]) => link as string);
    for (const link of links.filter((one) => !one.includes('://'))) {
      const [path = '', anchor] = link.split('#');
      const target = path === '' ? resolve(ROOT, name) : resolve(ROOT, dirname(name), path);
      expect({ link, there: existsSync(target) }).toEqual({ link, there: true });
      if (anchor !== undefined) expect([...anchorsOf(readFileSync(target, 'utf8'))]).toContain(anchor);
    }
  });

  test('files it names are there', () => {
    const named = [...text.matchAll(/`((?:src|tests|docs|bench|scenarios|bin|\.ci)\/[\w./-]*)`/g)].map(([, p]) => p);
    // NAME, KIND and FOLDER stand for one of the reader's own.
    for (const path of named.filter((one) => !/[A-Z]{4}/.test(one as string)))
      expect({ path, there: existsSync(join(ROOT, path as string)) }).toMatchObject({ there: true });
  });

  test('speaks of the project alone: no path of a machine, nothing of how it was made', () => {
    const strange =
      /shared\/|\/work\/|\/home\/|\/root\b|\/tmp\/|\bdesign\.md\b|\bsessions?\b|\bprompts?\b|\bassistants?\b|\blanguage model\b|issue #?\d|\bas an AI\b/gi;
    expect([...text.matchAll(strange)].map(([found]) => found)).toEqual([]);
  });
});
