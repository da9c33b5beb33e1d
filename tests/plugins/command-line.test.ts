/** `--logic` and `--logic-process`, as they are typed. */
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { folderWithDoor, jambeam, start } from '../cli/jambeam.js';

const cwd = folderWithDoor();
const STILL = 'initial: () => 0, step: (state) => ({ state, tallies: [] })';
const file = (name: string, text: string) => writeFileSync(join(cwd, name), text);
const at = (name: string) => join(cwd, name);
file('still.mjs', `export default { beams: 2, defeated_by: 'Everybody.', ${STILL} };`);
const before = readdirSync(cwd).sort();

describe('in place of the scenario’s logics, in their order', async () => {
  file(
    'echo.cjs',
    "require('node:readline').createInterface({ input: process.stdin }).on('line', (line) => {\n  if (line === 'ready') console.log('jambeam-logic 1\\nready');\n  if (line.startsWith('flush')) console.log(line);\n});\n",
  );
  const args = [
    '--logic',
    'still.mjs',
    '--logic-process',
    'node echo.cjs',
    '--logic',
    'first-broken',
    '--logic',
    'my-logic.yaml',
    '--logic',
    'still.mjs',
  ];
  const said = await jambeam(['run', 'door.yaml', '--hours', '0.5', '--out', 'own.run', ...args], { cwd });

  test('names are unique, code by its file, and the first gives the headline', () => {
    expect(said).toMatchObject({ code: 0 });
    const design = JSON.parse(readFileSync(at('own.run/design.json'), 'utf8')) as { logics: object[] };
    const sha256 = expect.stringMatching(/^[0-9a-f]{64}$/) as unknown;
    const still = { use: 'module', file: 'still.mjs', defeated_by: 'Everybody.', sha256 };
    expect(design.logics).toEqual([
      { ...still, name: 'still' },
      { use: 'process', name: 'echo', command: 'node echo.cjs', sha256 },
      { use: 'first-broken', name: 'first-broken', timeout_ms: 4000 },
      { use: 'table', name: 'my-table', file: 'my-logic.yaml' },
      { ...still, name: 'still-2' },
    ]);
    const metrics = JSON.parse(readFileSync(at('own.run/metrics.json'), 'utf8')) as { house: { logic: string } };
    expect(metrics.house.logic).toBe('still');
  });

  test('the report says what they are, and is written again without running them', async () => {
    const text = () => readFileSync(at('own.run/report.html'), 'utf8').replace(/[\u2068\u2069]/g, '');
    expect(text()).toMatch(/A module, still\.mjs \(SHA-256 [0-9a-f]{12}…\)\. What defeats it: Everybody\./);
    expect(text()).toMatch(/A program, started as node echo\.cjs \(SHA-256/);
    const first = text();
    expect((await jambeam(['report', 'own.run'], { cwd })).code).toBe(0);
    expect(text()).toBe(first);
  });

  test('passage and check take them too', async () => {
    const passage = await jambeam(['passage', 'door.yaml', '--logic', 'still.mjs', '--json'], { cwd });
    expect(passage).toMatchObject({ code: 0, err: '' });
    expect(JSON.parse(passage.out)).toMatchObject({ logics: [{ logic: 'still', start: '0', of_nobody: 0 }] });
    const check = await jambeam(['check', 'door.yaml', '--logic', 'still.mjs'], { cwd });
    expect(check).toMatchObject({ code: 0, err: '' });
    expect(check.out).toContain('still: Everybody.');
  });
});

describe('what never returns is ended', () => {
  test.each([
    [
      'a step',
      'step.mjs',
      '1',
      `export default { beams: 2, initial: () => 0, step() { for (;;); } };`,
      /^error: step\.mjs: step has not returned within 1 s\n {2}in step, at [\d.]+ s of the clock, door front\n/,
    ],
    ['loading', 'load.ts', '0.3', 'for (;;);', /^error: load\.ts: loading it has not ended within 0\.3 s\n/],
    [
      'the process itself',
      'exit.mjs',
      '10',
      `export default { beams: 2, initial: () => process.exit(0), step: () => 0 };`,
      /^error: exit\.mjs: it ended the simulation\n {2}in initial, before the first input, door front\n/,
    ],
  ])('%s', async (_what, name, limit_s, text, message) => {
    file(name, text);
    const args = ['run', 'door.yaml', '--logic', name, '--logic-timeout-s', limit_s, '--out', 'x.run'];
    const said = await jambeam(args, { cwd });
    expect(said).toMatchObject({ code: 2, out: '' });
    expect(said.err).toMatch(message);
    expect(readdirSync(cwd)).not.toContain('x.run');
  });

  test.skipIf(process.platform === 'win32')('a program, when Ctrl-C ends the run: nothing of it is left', async () => {
    file('hang.cjs', "require('node:fs').writeFileSync('pid', String(process.pid));\nfor (;;);\n");
    const { child, ended } = start(['run', 'door.yaml', '--logic-process', 'node hang.cjs', '--out', 'x.run'], cwd);
    const pid = await until(() => (readdirSync(cwd).includes('pid') ? Number(readFileSync(at('pid'), 'utf8')) : 0));
    child.kill('SIGINT');
    expect(await ended).toMatchObject({ code: 130, err: expect.stringContaining('nothing was written') as string });
    // It was killed; the system takes a moment to clear it away.
    await until(() => !isRunning(pid));
    expect(readdirSync(cwd).filter((name) => name.includes('x.run'))).toEqual([]);
  });
});

describe('refused, all at once, before anything runs', () => {
  const refused = async (...args: string[]) => {
    const { code, err } = await jambeam(['run', 'door.yaml', ...args, '--out', 'x.run'], { cwd });
    expect(code).toBe(2);
    return err;
  };

  test('a name, a file, a command and a limit that are none', async () => {
    const err = await refused(
      '--logic',
      'four-levl',
      '--logic',
      'stil.mjs',
      '--logic',
      'a.out',
      '--logic-process',
      "a 'b",
      '--logic-timeout-s',
      '0',
    );
    expect(err).toContain('--logic four-levl: expected one of');
    expect(err).toContain('--logic stil.mjs: there is no such file\n  hint: did you mean still.mjs?');
    expect(err).toContain('--logic a.out: expected a built-in logic, a table (.yaml) or a module');
    expect(err).toContain("--logic-process a 'b: expected a program and its arguments\n  hint: is a quote left open?");
    expect(err).toContain('--logic-timeout-s: expected 0.1 to 3600 seconds, found "0"');
    expect(err).toContain('5 problems');
  });

  test('a table with a fault has its place, as seen from here', async () => {
    file('bad.yaml', 'format: 1\nname: x\nbeams: [A, B]\nstart: nowhere\nstates: {}\n');
    expect(await refused('--logic', 'bad.yaml')).toMatch(/^bad\.yaml:5:9: /m);
  });

  test('a table for three beams at a door with two', async () => {
    const states = 'states:\n  rest:\n    - { stay: other }\n';
    file('three.yaml', `format: 1\nname: three\nbeams: [A, B, C]\nstart: rest\n${states}`);
    expect(await refused('--logic', 'three.yaml')).toContain('three expects 3 beams at every door, found 2');
  });

  test('code that a scenario or --set names: that is for the command line alone', async () => {
    const named = folderWithDoor((text) => text.replace(/^logics:$/m, 'logics:\n  - { use: module, file: still.mjs }'));
    const { code, err } = await jambeam(['check', 'door.yaml'], { cwd: named });
    expect(code).toBe(2);
    expect(err).toContain(
      'hint: a scenario is data and runs no code; code is named where a run is started: --logic my-logic.ts',
    );
    expect(await refused('--set', 'logics.four-level={use: module, name: x, file: still.mjs}')).toContain(
      '--set logics: code of your own is not named by --set',
    );
  });

  test('nothing was written but what the tests wrote', () => {
    expect(readdirSync(cwd).filter((name) => name.startsWith('.'))).toEqual([]);
    expect(readdirSync(cwd)).toEqual(expect.arrayContaining(before));
  });
});

function isRunning(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch {
    return false;
  }
}

async function until<T>(found: () => T): Promise<T> {
  for (let tries = 0; tries < 1200; tries++) {
    const what = found();
    if (what) return what;
    await new Promise((next) => setTimeout(next, 50));
  }
  throw new Error('it never came');
}
