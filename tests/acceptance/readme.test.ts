/** The README is true: what it says to type is typed, what it shows is run, what it links to is there. */
import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { transformSync } from 'esbuild';
import { describe, expect, test } from 'vitest';
import { starterTable } from '../../src/counter/table/starter.js';
import { CAUTIONS } from '../../src/report/cautions.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import { LAUNCHER, folder, jambeam } from '../cli/jambeam.js';
import { PAGES, ROOT, anchorsOf, blocks, flat, page } from './markdown.js';

const COMPILER = 'cc';
const LONG = process.env['JAMBEAM_LONG'] !== undefined;
const readme = page('README.md');
const scripts = (JSON.parse(page('package.json')) as { scripts: Record<string, string> }).scripts;

/** A folder that looks like a built clone from inside, and takes what commands write. */
function clone(): string {
  const cwd = folder();
  cpSync(join(ROOT, 'scenarios'), join(cwd, 'scenarios'), { recursive: true });
  if (!LONG) {
    const study = join(cwd, 'scenarios/studies/mount-height.yaml');
    const text = readFileSync(study, 'utf8');
    const shorter = text.replace(/^hours: .*$/m, 'hours: 2').replace(/^replicates: .*$/m, 'replicates: 2');
    writeFileSync(study, shorter);
  }
  symlinkSync(join(ROOT, 'docs'), join(cwd, 'docs'));
  mkdirSync(join(cwd, 'node_modules'));
  symlinkSync(ROOT, join(cwd, 'node_modules/jambeam'));
  return cwd;
}

function shell(command: string, cwd: string) {
  const { status, stdout, stderr } = spawnSync('sh', ['-euc', command], { cwd, encoding: 'utf8' });
  return { code: status, out: stdout, err: stderr };
}

/** What nothing but a shell can do, and code of the user's own: its loader must not find what other tests have loaded. */
const NEEDS_SHELL = /[>|&$]|--logic\b|--logic-process\b/;

/**
 * A line of the page, as its reader types it. One that starts jambeam and nothing else is taken apart by a shell, which
 * knows its quotes, and then run within this process.
 */
async function typed(line: string, cwd: string): Promise<{ code: number | null; out: string }> {
  const [, rest] = /^npx jambeam (.*)$/.exec(line) ?? [];
  if (rest === undefined || NEEDS_SHELL.test(rest)) return shell(withoutNpx(line), cwd);
  const { out } = shell(`printf '%s\\0' ${rest}`, cwd);
  return jambeam(out.split('\0').slice(0, -1), { cwd });
}

/** `npx jambeam` is this build's launcher, without the half second npx takes. */
function withoutNpx(command: string): string {
  return command.replaceAll('npx jambeam', `'${process.execPath}' '${LAUNCHER}'`);
}

/**
 * The same with less to simulate, for here it is enough that each run comes to its end; the long run types what the page
 * says. Of an option that is given twice the last counts.
 */
function shortened(commands: string): string {
  if (LONG) return commands;
  return commands.replace(/npx jambeam run .*/g, '$& --replicates 2 --hours 0.5');
}

describe('the two commands that do all the set-up', () => {
  // `npm ci` would take away the modules this very test runs on, `npm test` would run this test for ever, and a build
  // would pull the compiled files from under the other tests. So the scripts are read, and what follows the build is run.
  test('are the first ones, and are what the scripts and the checks call', () => {
    expect(blocks(readme, 'sh').slice(0, 2)).toEqual(['npm ci && npm start\n', 'npm ci && npm test\n']);
    expect(scripts['test']).toBe('npm run build --silent && JAMBEAM_COMPILED=1 vitest run');
    expect(page('.ci/run')).toMatch(/^npm ci\b.*\n(?:.*\n)*?npm test\b/m);
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
  // Without a C compiler what is to be compiled is left out; where checks are run for good there is one.
  const cc = process.env['CI'] !== undefined || spawnSync(COMPILER, ['--version']).status === 0;
  for (const block of blocks(readme, 'sh').slice(2)) {
    if (!cc && block.startsWith('cc ')) continue;
    let said = '';
    for (const line of shortened(block).trimEnd().split('\n')) {
      const { code, out } = await typed(line, cwd);
      expect({ line, code }).toEqual({ line, code: 0 });
      said += out;
    }
    expect(said).not.toBe('');
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
