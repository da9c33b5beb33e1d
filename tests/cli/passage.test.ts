/** What `jambeam passage` says. */
import { join } from 'node:path';
import picocolors from 'picocolors';
import { describe, expect, test } from 'vitest';
import type { Io } from '../../src/cli/io.js';
import { type PassageOptions, passageCommand } from '../../src/cli/passage.js';
import { UserProblem } from '../../src/cli/problem.js';
import type { PassageTrace } from '../../src/simulate/traced.js';
import { folderWithDoor } from './jambeam.js';

const plainPaint = picocolors.createColors(false);
const FOLDER = folderWithDoor((text) =>
  text.replace('sensors:\n', 'walkers:\n  rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 1 }\n\nsensors:\n'),
);

function passage(options: PassageOptions): string {
  let out = '';
  const io: Io = {
    out: (text) => void (out += text),
    err: () => undefined,
    colour: false,
    paint: plainPaint,
    errPaint: plainPaint,
    errIsTerminal: false,
  };
  void passageCommand(join(FOLDER, 'door.yaml'), options, io);
  return out.replaceAll('\u00a0', ' ');
}

test('a rod going through, told line by line', () => {
  // 0.30 m at 1 m/s, beams at −0.05 and +0.05 m: A from 800 to 1,100 ms, B from 900 to 1,200 ms, each told 1 ms later.
  const lines = passage({ who: 'rod' }).split('\n');
  expect(lines[0]).toBe('Rod going through, forward: 1.80 m tall, 1.00 m/s');
  const timeLine = lines
    .filter((line) => /^ *\d+\.\d /.test(line))
    .map((line) => line.trim().split(/ {2,}/).slice(0, 4));
  expect(timeLine).toEqual([
    ['0.0', '·', '·', 'rest'],
    ['801.0', '█', '·', 'forward 1/4'],
    ['901.0', '█', '█', 'forward 2/4'],
    ['1000.0', '█', '█', '│'],
    ['1101.0', '·', '█', 'forward 3/4'],
    ['1201.0', '·', '·', 'rest +1 forward'],
    ['1801.0', '·', '·', '│'],
    ['2000.0', '·', '·', '│'],
  ]);
  expect(lines).toContain('Truth  1 person went through, forward');
  expect(lines).toContain('       truly broken: A 800.0–1100.0 ms; B 900.0–1200.0 ms');
  expect(lines.filter((line) => line.startsWith('right'))).toHaveLength(4);
});

test('columns line up: every state of a logic begins under its name', () => {
  const lines = passage({ who: 'child', number: '3' }).split('\n');
  const head = lines.find((line) => /^ +ms /.test(line))!;
  const at = head.indexOf('first-broken');
  const rows = lines.filter((line) => /^ *\d+\.\d /.test(line));
  expect(rows.length).toBeGreaterThan(5);
  for (const line of rows) {
    expect(line[at]).not.toBe(' ');
    expect(line[at - 1]).toBe(' ');
  }
});

test('what goes wrong is said in the end', () => {
  const said = passage({ who: 'adult-with-infant' });
  expect(said).toContain('2 persons in one body');
  expect(said).toMatch(/^wrong +four-level +counted 1 forward: 1 missed$/m);
});

test('two bodies, one sentence: what both miss is added up', () => {
  const said = passage({ who: 'adult-with-infant', kind: 'close-behind' });
  expect(said).toMatch(/^Adult-with-infant, one of two close behind one another, forward: /);
  expect(said).toMatch(/^wrong +four-level +counted 2 forward: 2 missed$/m);
});

test('--json is the whole trace', () => {
  const trace = JSON.parse(passage({ who: 'rod', direction: 'backward', json: true })) as PassageTrace;
  expect(trace.inputs.map(({ levels }) => levels.join(''))).toEqual(['01', '11', '10', '00']);
  expect(trace).toMatchObject({ who: 'rod', kind: 'through', direction: 'backward', number: 1, door: 'front' });
});

describe('wrong options are refused in words', () => {
  const refusal = (options: PassageOptions): string => {
    try {
      passage(options);
    } catch (error) {
      if (error instanceof UserProblem) return error.message;
    }
    return 'nothing was refused';
  };

  test.each([
    [{ kind: 'throuhg' }, '--kind: expected one of through, abreast', 'did you mean "through"?'],
    [{ who: 'cow' }, 'there is no walker "cow"', 'hint: '],
    [{ direction: 'left' }, '--direction: expected one of forward, backward, found "left"', ''],
    [{ number: 'two' }, 'there is no passage number NaN', 'numbers go from 1'],
    [{ door: 'bak' }, 'there is no door "bak"', 'there is front'],
  ] as const)('%o', (options, message, hint) => {
    expect(refusal(options)).toContain(message);
    expect(refusal(options)).toContain(hint);
  });
});
