/** `jambeam firmware` as its user meets it: what is written, what is refused, and what is never written over. */
import { appendFileSync, existsSync, mkdirSync, readFileSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type FirmwareOptions, firmwareCommand } from '../../src/cli/firmware.js';
import type { Io } from '../../src/cli/io.js';
import { UserProblem } from '../../src/cli/problem.js';
import picocolors from 'picocolors';
import { NO_COMPILERS, compile, play } from '../c-compilers.js';
import { folder, folderWithDoor, jambeam } from './jambeam.js';

const WRITTEN = ['README.md', 'door1.c', 'door1.h', 'door1_test.c', 'door1_test.txt', 'jambeam-firmware.json'];

const paint = picocolors.createColors(false);
/** The command without a process of its own: what it prints, or the problem it tells. */
function said(file: string, options: FirmwareOptions): { out: string; problem: string } {
  let out = '';
  const io: Io = {
    out: (text) => void (out += text),
    err: () => undefined,
    colour: false,
    paint,
    errPaint: paint,
    errIsTerminal: false,
  };
  try {
    firmwareCommand(file, options, io);
    return { out, problem: '' };
  } catch (error) {
    if (error instanceof UserProblem) return { out, problem: error.message };
    throw error;
  }
}

describe('in an empty folder', () => {
  const cwd = folderWithDoor();
  const args = ['firmware', 'door.yaml', '--door', 'front', '--logic', 'hold-off', '--out', 'source'];

  test('it writes source, test and page, and says what comes next', async () => {
    const { code, out, err } = await jambeam(args, { cwd });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(readdirSync(join(cwd, 'source')).sort()).toEqual(WRITTEN);
    expect(out).toContain('cd source && cc -std=c99 door1.c door1_test.c -o door1_test && ./door1_test door1_test.txt');
    expect(out).toContain('source/README.md says how to wire it');
  });

  test.skipIf(NO_COMPILERS)('what it says comes next works', () => {
    const source = join(cwd, 'source');
    const program = compile('gcc', source, ['door1.c', 'door1_test.c']);
    const { status, lines } = play(program, [join(source, 'door1_test.txt')]);
    expect({ status, last: lines.at(-1) }).toMatchObject({
      status: 0,
      last: expect.stringMatching(/ 0 not as expected$/),
    });
    // A folder of vectors that isn't there, and one without calls.
    expect(play(program, [join(source, 'none.txt')]).status).toBe(2);
    expect(play(program, ['/dev/null']).status).toBe(2);
  });

  test('again it replaces its own, and nothing unfinished stays', () => {
    const page = readFileSync(join(cwd, 'source', 'README.md'), 'utf8');
    expect(said(join(cwd, 'door.yaml'), { logic: 'four-level', out: join(cwd, 'source') }).problem).toBe('');
    expect(readFileSync(join(cwd, 'source', 'README.md'), 'utf8')).not.toBe(page);
    expect(readdirSync(join(cwd, 'source')).filter((name) => !name.startsWith('program'))).toEqual(WRITTEN);
  });
});

test('a table in a file of its own', () => {
  const cwd = folderWithDoor();
  const out = join(cwd, 'source');
  expect(said(join(cwd, 'door.yaml'), { out, logic: join(cwd, 'my-logic.yaml') }).problem).toBe('');
  expect(readFileSync(join(out, 'README.md'), 'utf8')).toContain('logic `my-table`');
});

describe('what is refused', () => {
  const cwd = folderWithDoor();
  const door = join(cwd, 'door.yaml');
  const out = join(cwd, 'out');

  test.each<[string, FirmwareOptions, string, string]>([
    ['no folder', { logic: 'four-level' }, '--out is missing', '--out firmware'],
    [
      'a door that is not there',
      { door: 'frnt', logic: 'four-level', out },
      'there is no door "frnt"',
      'did you mean "front"?',
    ],
    ['a logic that is not there', { logic: 'walk', out }, 'there is no logic "walk"', '"four-level", "first-broken"'],
    ['several logics and none named', { out }, 'the scenario has 4 logics', 'say which with --logic'],
    ['a folder without a parent', { logic: 'four-level', out: join(out, 'deep', 'er') }, "can't be made", ''],
    ['a file for a folder', { logic: 'four-level', out: door }, 'expected a folder, found a file', ''],
  ])('%s', (_, options, problem, hint) => {
    const { problem: told, out: printed } = said(door, options);
    expect(told).toContain(problem);
    expect(told).toContain(hint);
    expect(printed).toBe('');
    expect(existsSync(out)).toBe(false);
  });

  test('a logic that is code, and no table', () => {
    writeFileSync(join(cwd, 'mine.mjs'), 'export default {};\n');
    const { problem } = said(door, { out, logic: join(cwd, 'mine.mjs') });
    expect(problem).toMatch(/the logic "[\w-]+" \(module\) is no table of states, and only tables become source/);
    expect(problem).toContain('hint: first-broken, four-level, hold-off and tables of your own can be built');
    expect(said(door, { out, logic: 'none.yaml' }).problem).toContain('none.yaml');
    expect(existsSync(out)).toBe(false);
  });

  test('several doors and none named', () => {
    const { problem } = said('scenarios/two-doors.yaml', { out, logic: 'four-level' });
    expect(problem).toMatch(
      /the scenario has 2 doors, and the source is for one: "[\w-]+", "[\w-]+"\n {2}hint: say which with --door/,
    );
    expect(existsSync(out)).toBe(false);
  });

  test('a scenario that is wrong: all at once, with places', () => {
    writeFileSync(join(cwd, 'wrong.yaml'), readFileSync(door, 'utf8').replace('width_m: 0.9', 'width_m: 0'));
    const { problem } = said(join(cwd, 'wrong.yaml'), { out, logic: 'four-level' });
    expect(problem).toMatch(/wrong\.yaml:\d+:\d+: doors\.front\.width_m: expected/);
  });
});

describe('what is never written over', () => {
  const cwd = folderWithDoor();
  const door = join(cwd, 'door.yaml');
  const options = { logic: 'four-level', out: join(cwd, 'source') };
  const source = join(cwd, 'source', 'door1.c');

  test('a file that was changed, but with --force', () => {
    expect(said(door, options).problem).toBe('');
    appendFileSync(source, '/* mine */\n');
    const { problem } = said(door, options);
    expect(problem).toContain('door1.c, changed since, and it may be your work: nothing was written');
    expect(problem).toContain('--force');
    expect(readFileSync(source, 'utf8')).toContain('/* mine */');
    expect(said(door, { ...options, force: true }).problem).toBe('');
    expect(readFileSync(source, 'utf8')).not.toContain('/* mine */');
  });

  test('a folder that holds anything else; with --force its other files stay', () => {
    const other = join(cwd, 'other');
    mkdirSync(other);
    writeFileSync(join(other, 'precious.txt'), 'precious');
    const { problem } = said(door, { ...options, out: other });
    expect(problem).toContain('is there already and holds no source of jambeam');
    expect(readdirSync(other)).toEqual(['precious.txt']);
    expect(said(door, { ...options, out: other, force: true }).problem).toBe('');
    expect(readFileSync(join(other, 'precious.txt'), 'utf8')).toBe('precious');
  });

  test("another door's source", () => {
    const two = join(folder(), 'two');
    const [first, second] = [
      ...readFileSync('scenarios/two-doors.yaml', 'utf8').matchAll(/^ {2}- name: (\S+)\n {4}from/gm),
    ];
    expect(said('scenarios/two-doors.yaml', { ...options, door: first![1]!, out: two }).problem).toBe('');
    const { problem } = said('scenarios/two-doors.yaml', { ...options, door: second![1]!, out: two });
    expect(problem).toContain('holds the source of another scenario or door');
  });

  test('what a link leads to', () => {
    const linked = join(cwd, 'linked');
    symlinkSync(folder(), linked);
    expect(said(door, { ...options, out: linked, force: true }).problem).toContain('is a link');
    const inside = join(cwd, 'inside');
    mkdirSync(inside);
    writeFileSync(join(cwd, 'precious.c'), 'precious');
    symlinkSync(join(cwd, 'precious.c'), join(inside, 'door1.c'));
    expect(said(door, { ...options, out: inside, force: true }).problem).toContain('is a link or a folder');
    expect(readFileSync(join(cwd, 'precious.c'), 'utf8')).toBe('precious');
  });
});
