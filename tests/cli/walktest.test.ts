/** `jambeam walktest`: from a finished run to a plan, two sheets, and back from a filled one to a verdict. */
import { existsSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import picocolors from 'picocolors';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Io } from '../../src/cli/io.js';
import { UserProblem } from '../../src/cli/problem.js';
import { type WalktestOptions, walktestCommand } from '../../src/cli/walktest.js';
import { folderWithDoor, jambeam } from './jambeam.js';

const MIX = `mix:
        - { who: child, kind: through, share: 0.6 }
        - { who: adult, kind: turn-back, share: 0.2 }
        - { who: adult, kind: linger, share: 0.2 }
`;
const cwd = folderWithDoor((text) => text.replace(/mix:\n(?: +- .*\n)+/, MIX));
const at = (name: string): string => join(cwd, name);
/** The verdict on a sheet whose counts were written down by hand. */
let byHand = '';
const paint = picocolors.createColors(false);

beforeAll(async () => expect(await jambeam(['run', 'door.yaml', '--hours', '10'], { cwd })).toMatchObject({ code: 0 }));

/** What the command says, blanks made one. */
async function walktest(options: WalktestOptions = {}): Promise<string> {
  let said = '';
  const io = { out: (text: string) => (said += text), err: () => undefined, paint, errPaint: paint } as unknown as Io;
  await walktestCommand(at('door.run'), options, io);
  return said.replace(/\s+/g, ' ');
}
async function refused(options: WalktestOptions, ...words: readonly string[]): Promise<void> {
  const error = await walktest(options).catch((thrown: unknown) => thrown);
  expect(error).toBeInstanceOf(UserProblem);
  for (const word of words) expect((error as Error).message).toContain(word);
}

type Row = Record<string, string>;
function rowsOf(file: string): { readonly columns: string[]; readonly rows: Row[] } {
  const [head = '', ...lines] = readFileSync(file, 'utf8').trimEnd().split('\n');
  const columns = head.split(',');
  return {
    columns,
    rows: lines.map((line) => Object.fromEntries(line.split(',').map((cell, i) => [columns[i], cell]))),
  };
}
/** The sheet with every row changed by `fill`, under another name. */
function filled(name: string, fill: (row: Row, i: number) => Row): string {
  const { columns, rows } = rowsOf(at('walks.csv'));
  const full = rows.map((row, i) => ({ ...row, ...fill(row, i) }));
  const lines = full.map((row) => columns.map((column) => row[column as keyof typeof row]).join(','));
  writeFileSync(at(name), `${[columns.join(','), ...lines].join('\n')}\n`);
  return at(name);
}
/** Nearly as predicted: every 18th child is missed, every fifth who stops is counted once too often. */
function asPredicted(
  { kind, expected_forward, expected_backward }: Row,
  i: number,
): { forward: number; backward: number } {
  const right = { forward: Number(expected_forward), backward: Number(expected_backward) };
  if (kind === 'through') return i % 18 === 0 ? { forward: 0, backward: 0 } : right;
  return i % 5 === 0 ? { ...right, forward: right.forward + 1 } : right;
}
const counted = ({ forward, backward }: { forward: number; backward: number }): Row => ({
  counted_forward: String(forward),
  counted_backward: String(backward),
});

describe('the plan', () => {
  test('says how many walks of which kinds, and what they find out', async () => {
    const said = await walktest();
    expect(said).toContain('Walk test of door front, logic four-level: 300 walks, about 1 h 40 min');
    for (const word of ['Children going through', 'Adults turning back', 'or more wrong', '--sheet walks.csv'])
      expect(said).toContain(word);
    const other = await walktest({ walks: '60', logic: 'hold-off' });
    expect(other).toContain('logic hold-off: 60 walks, about 20 min');
  });

  test('what it is asked wrongly', async () => {
    await refused({ door: 'fornt' }, '--door: there is no door "fornt" in this run');
    await refused({ logic: 'four-levle' }, 'did you mean "four-level"?');
    await refused({ walks: '5' }, '--walks: expected a whole number from 6 to 5000, found "5"');
    await refused({ sheet: at('walks.xlsx') }, 'expected a name that ends in .html or .csv');
    await refused({ sheet: at('nowhere/walks.csv') }, 'there is no folder');
    await refused({ log: at('log.csv') }, '--log needs the sheet');
    await refused({ sheet: at('walks.csv'), offsetS: '3' }, '--offset-s shifts the times of a log');
    await refused({ sheet: at('none.csv'), log: at('log.csv') }, 'there is no such sheet to read');
    symlinkSync(at('door.yaml'), at('link.csv'));
    await refused({ sheet: at('link.csv') }, 'is a link');
    expect(existsSync(at('walks.csv'))).toBe(false);
  });
});

describe('the sheets', () => {
  test('as CSV: one row a walk, with room for what was seen', async () => {
    expect(await walktest({ sheet: at('walks.csv') })).toContain('fill in what was counted');
    const { rows } = rowsOf(at('walks.csv'));
    expect(rows).toHaveLength(300);
    expect(rows[0]).toMatchObject({ walk: '1', door: 'front', logic: 'four-level', counted_forward: '', start: '' });
    expect(new Set(rows.map(({ kind }) => kind))).toEqual(new Set(['through', 'turn-back', 'linger']));
  });

  test('to print: the same walks in the same order, in plain words, with cautions', async () => {
    await walktest({ sheet: at('walks.html') });
    const page = readFileSync(at('walks.html'), 'utf8');
    const printed = [...page.matchAll(/<tr><td class="number">(\d+)<\/td>.*?: (.*?)<\/td>/g)].map(([, n, what]) => [
      n,
      what,
    ]);
    const { rows } = rowsOf(at('walks.csv'));
    expect(printed.map(([n]) => n)).toEqual(rows.map(({ walk }) => walk));
    rows.forEach(({ kind, stop_cm, goes_back }, i) => {
      const what = printed[i]![1]!.replaceAll('\u00a0', ' ');
      if (kind === 'through') expect(what).toBe('walk through');
      if (stop_cm) expect(what).toContain(stop_cm === '0' ? 'in the middle' : `${Math.abs(Number(stop_cm))} cm`);
      expect(what.endsWith('turn round, go back')).toBe(goes_back === 'yes');
    });
    for (const words of ['Tell everybody at home before you begin', 'Never for safety', 'size:A4', 'Before you drill'])
      expect(page).toContain(words);
    expect(page).not.toMatch(/<script|https?:/);
  });

  test('one that is there stays, unless it is forced', async () => {
    const before = readFileSync(at('walks.csv'), 'utf8');
    expect(await walktest({ sheet: at('walks.csv'), walks: '60' })).toContain('nothing is filled in yet');
    expect(readFileSync(at('walks.csv'), 'utf8')).toBe(before);
    expect(await walktest({ sheet: at('walks.html') })).toContain('is there already');
    const other = at('other.csv');
    writeFileSync(other, before);
    await walktest({ sheet: other, walks: '60', force: true });
    expect(rowsOf(other).rows).toHaveLength(60);
  });
});

describe('reading back what was counted', () => {
  test('as predicted agrees; the filled sheet stays as it is', async () => {
    const sheet = filled('right.csv', (row, i) => counted(asPredicted(row, i)));
    const before = readFileSync(sheet, 'utf8');
    const said = await walktest({ sheet, walks: '60' });
    byHand = said;
    expect(readFileSync(sheet, 'utf8')).toBe(before);
    expect(said).toContain('the door agrees with the prediction');
    expect(said).toContain('Nothing more to walk.');
    expect(said).not.toContain('✗');
  });

  test('a counter that takes every second child for nobody disagrees', async () => {
    let child = 0;
    const sheet = filled('wrong.csv', (row, i) =>
      counted(row['who'] === 'child' && ++child % 2 === 0 ? { forward: 0, backward: 0 } : asPredicted(row, i)),
    );
    const said = await walktest({ sheet });
    expect(said).toContain('the door disagrees with the prediction');
    expect(said).toContain('Children going through: more are wrong than');
    expect(said).toContain('once more on a new sheet');
  });

  test('half an evening is undecided, and says what is left', async () => {
    const sheet = filled('half.csv', (row, i) => (i < 150 ? counted(asPredicted(row, i)) : {}));
    const said = await walktest({ sheet });
    expect(said).toContain('undecided');
    const left = rowsOf(sheet).rows.filter((row) => row['who'] === 'child' && row['counted_forward'] === '').length;
    expect(said).toContain(`${left} more children going through`);
  });

  test('semicolons, another order and rows of one’s own do no harm', async () => {
    const [head, ...lines] = readFileSync(at('right.csv'), 'utf8').trimEnd().split('\n');
    const more = lines.find((line) => line.includes(',child,'))!;
    writeFileSync(at('sorted.csv'), [head, ...[...lines, more].sort()].join('\r\n').replaceAll(',', ';'));
    expect(await walktest({ sheet: at('sorted.csv') })).toContain('of 205');
  });

  test('mistakes are told with their place', async () => {
    const once = (change: Row) => filled('bad.csv', (_, i) => (i === 4 ? change : {}));
    const cases: readonly (readonly [Row, string])[] = [
      [{ counted_forward: 'two' }, 'bad.csv:6:'],
      [{ counted_forward: '-1' }, 'counted_forward: expected a whole number from 0 to 99, found "-1"'],
      [{ start: 'noon' }, 'start: expected a time'],
      [{ end: '12:00' }, 'start: expected a time where there is an end'],
      [{ start: '12:00', end: '11:59' }, 'end: expected a time after the start'],
      [{ door: 'back' }, 'door: expected "front", found "back"'],
      [{ logic: 'hold-off' }, '--logic says which logic a sheet is of'],
      [{ who: 'nobody', counted_forward: '1' }, 'this run predicts nothing for "nobody" with'],
      [{ start: '12:00' }, '1 row of the sheet says when it was walked and not what was counted'],
    ];
    for (const [change, words] of cases) await refused({ sheet: once(change) }, words);
    writeFileSync(at('bad.csv'), 'a,b\n1,2\n');
    await refused({ sheet: at('bad.csv') }, 'bad.csv:1:1', 'expected the columns of a walk sheet');
  });
});

describe('reading back with a log', () => {
  const T0 = 19 * 3600;
  const clock = (s: number) =>
    [s / 3600, (s / 60) % 60, s % 60].map((x) => String(Math.floor(x)).padStart(2, '0')).join(':');
  /** Every walk takes 5 s, 20 s apart, and is counted 3 s after it began. */
  function evening(
    times: (s: number) => string,
    stamp: (s: number) => string,
    header: string,
  ): { sheet: string; log: string } {
    const lines: string[] = [header];
    const sheet = filled('timed.csv', (row, i) => {
      const start = T0 + 20 * i;
      const { forward, backward } = asPredicted(row, i);
      for (let k = 0; k < forward; k++) lines.push(`${stamp(start + 3)},forward`);
      for (let k = 0; k < backward; k++) lines.push(`${stamp(start + 3)},backward`);
      return { start: times(start), end: times(start + 5) };
    });
    writeFileSync(at('log.csv'), lines.join('\n'));
    return { sheet, log: at('log.csv') };
  }

  test.each([
    ['seconds and microseconds', String, (s: number) => String(s * 1e6), 'time_us,direction'],
    ['times of day and dates', clock, (s: number) => `2025-01-31T${clock(s)}.250`, 'time,direction'],
  ] as const)('%s: the same verdict as by hand', async (_, times, stamp, header) => {
    const said = await walktest(evening(times, stamp, header));
    expect(said).toContain(', 0 between them');
    const table = (text: string) => text.slice(0, text.indexOf('Exact 95'));
    expect(table(said)).toBe(table(byHand));
  });

  test('a clock that is an hour late is told, and put right by an offset', async () => {
    const late = evening(clock, (s) => clock(s - 7200), 'time,direction');
    expect(await walktest(late)).toContain('the clocks differ, and the verdict is worth nothing');
    expect(await walktest({ ...late, offsetS: '7200' })).toContain('agrees');
  });

  test('the tallies of a run are a log, of its own door and logic', async () => {
    const { sheet } = evening(String, String, 'time,direction');
    const tallies = readFileSync(at('door.run/tallies.csv'), 'utf8').split('\n');
    writeFileSync(at('one.csv'), tallies.filter((line) => !line.startsWith('2,')).join('\n'));
    const own = tallies.filter((line) => line.startsWith('1,front,four-level,')).length;
    expect(await walktest({ sheet, log: at('one.csv') })).toContain(`The log has ${own} tallies of this door`);
    await refused({ sheet, log: at('door.run/tallies.csv') }, 'expected one replicate, found several');
  });

  test('mistakes of a log, and of both together', async () => {
    const { sheet } = evening(clock, clock, 'time,direction');
    const cases: readonly (readonly [string, string])[] = [
      ['', 'the log is empty'],
      ['when,what\n1,2\n', 'expected a column of times (time_us, time_ms, time_s, time), found none'],
      ['time,direction\n12:00:00,in\n', 'log.csv:2:10: expected forward or backward, found "in"'],
      ['time,direction\n25:00,forward\n', 'log.csv:2:1: expected a time'],
      // The first twenty are told, and how many there are.
      [`time,direction\n${'25:00,forward\n'.repeat(5000)}`, '\nand 4980 more problems\n5000 problems with '],
      [`time,direction\n${'25:00,forward\n'.repeat(21)}`, '\nand 1 more problem\n21 problems with '],
      ['time,direction\n2025-02-30T10:00,forward\n', 'expected a time'],
      ['time,direction\n12:00,forward\n5,forward\n', 'expected times of one sort'],
      ['time,direction\n5,forward\n', 'the sheet has times of day, the log has seconds'],
    ];
    for (const [text, words] of cases) {
      writeFileSync(at('log.csv'), text);
      await refused({ sheet, log: at('log.csv') }, words);
    }
    const over = filled('over.csv', (_, i) => ({
      start: clock(T0 + 20 * i),
      end: clock(T0 + 20 * i + (i === 3 ? 60 : 5)),
    }));
    writeFileSync(at('log.csv'), 'time,direction\n');
    await refused({ sheet: over, log: at('log.csv') }, 'over.csv:6:1', 'starts before that of line 5 is over');
    await refused({ sheet: at('right.csv'), log: at('log.csv') }, 'no walk of the sheet has a start time');
  });
});
