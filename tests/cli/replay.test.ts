/** `jambeam replay`: logs of our own come out as they went in, logs of others are repaired or refused. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Metrics } from '../../src/score/metrics-schema.js';
import { folderWithDoor, jambeam, jambeamProcess } from './jambeam.js';

const cwd = folderWithDoor((text) => text);
const at = (name: string): string => join(cwd, name);
const read = (name: string): string => readFileSync(at(name), 'utf8');
const metrics = (name: string): Metrics => JSON.parse(read(`${name}/metrics.json`));
const replay = (log: string, ...args: readonly string[]) =>
  jambeam(['replay', log, '--scenario', 'door.yaml', ...args], { cwd });
/** A log somebody wrote, under a name. */
const log = (name: string, text: string): string => {
  writeFileSync(at(name), text);
  return name;
};

describe('a log of our own', () => {
  // One replicate simulated, exported and replayed with its truth: the same bytes wherever both say the same.
  test.each([
    ['edges, with interrupts', [], 'edges.csv'],
    [
      'edges, polled, with restarts and lost tallies',
      ['poll_ms=60', 'restarts_per_week=3000', 'tallies_lost_share=0.1'].flatMap((set) => [
        '--set',
        `controllers.main.${set}`,
      ]),
      'edges.csv',
    ],
    [
      'readings of rangers',
      [
        '--set',
        'doors.front.beams.A.sensor=time-of-flight-ranger',
        '--set',
        'doors.front.beams.B.sensor=time-of-flight-ranger',
      ],
      'readings.csv',
    ],
  ])('of %s gives the same tallies, doors and rooms, byte for byte', async (name, sets, file) => {
    const run = `${name.replace(/\W+/g, '-')}.run`;
    const made = await jambeam(
      ['run', 'door.yaml', '--replicates', '1', '--hours', '1', '--edges', '--out', run, ...sets],
      {
        cwd,
      },
    );
    expect(made.code).toBe(0);
    const { code, err } = await replay(
      `${run}/${file}`,
      '--truth',
      `${run}/passages.csv`,
      '--out',
      `again-${run}`,
      '--hours',
      '1',
      ...sets,
    );
    expect([err, code]).toEqual(['', 0]);
    expect(read(`again-${run}/tallies.csv`)).toBe(read(`${run}/tallies.csv`));
    const [once, again] = [metrics(run), metrics(`again-${run}`)];
    expect(JSON.stringify(again.doors)).toBe(JSON.stringify(once.doors));
    expect(JSON.stringify(again.rooms)).toBe(JSON.stringify(once.rooms));
    expect(read(`again-${run}/report.html`)).toContain('Counted from a log');
  });
});

/** Forward past A and B at so many seconds. */
const walk = (at_s: number): [number, string, number][] => [
  [at_s, 'A', 1],
  [at_s + 0.1, 'B', 1],
  [at_s + 0.3, 'A', 0],
  [at_s + 0.4, 'B', 0],
];

describe('a log of somebody else', () => {
  test('of seconds is counted, and nobody says what is right', async () => {
    const rows = [1, 5, 9].flatMap(walk).map(([time, beam, level]) => `${time.toFixed(2)};${beam};${level}`);
    const { code, out } = await replay(log('plain.csv', `# bench, Tuesday\ntime_s;beam;level\n${rows.join('\n')}\n`));
    expect(code).toBe(0);
    expect(out).toMatch(/Without --truth nobody knows what is right/);
    expect(out).toMatch(/front +four-level +3 +0/);
  });

  test('is live on standard input, and every tally is told as it comes', async () => {
    const rows = walk(1).map(([time, beam, level]) => `${time * 1e6},${beam},${level}`);
    const { out } = jambeamProcess(['replay', '-', '--scenario', 'door.yaml'], {
      cwd,
      input: `time_us,beam,level\n${rows.join('\n')}\n`,
    });
    expect(out).toMatch(/^ +0:00:00\.4 +front +forward +four-level +hall 1/m);
  });

  test('of a microsecond counter over three hours, with ISO-less turns, counts as many', async () => {
    const rows = Array.from({ length: 36 }, (_, i) => walk(i * 300 + 10))
      .flat()
      .map(([time, beam, level]) => `${Math.round(time * 1e6) % 4_294_967_296},${beam},${level}`);
    const { out } = await replay(log('turns.csv', `time_us,beam,level\n${rows.join('\n')}\n`));
    expect(out).toMatch(/front +four-level +36 +0/);
    expect(out).toMatch(/The counter turned 2 times and was unwrapped/);
  });

  test('with dates and times, late and double rows is put in order', async () => {
    const iso = (s: number): string => new Date(Date.UTC(2026, 0, 31, 12) + s * 1000).toISOString();
    const rows = walk(1).map(([time, beam, level]) => `${iso(time)},${beam},${level}`);
    const shuffled = [rows[1], rows[0], rows[0], rows[3], rows[2]];
    const { out } = await replay(log('iso.csv', `time,beam,level\n${shuffled.join('\n')}\n`));
    expect(out).toMatch(/front +four-level +1 +0/);
    expect(out).toMatch(/came late and/);
    expect(out).toMatch(/1 row was there twice and counted once/);
  });

  test('with a list kept by hand is scored', async () => {
    const rows = [10, 20, 30].flatMap(walk).map(([time, beam, level]) => `${time},${beam},${level}`);
    log('hand.csv', `time_s,beam,level\n${rows.join('\n')}\n`);
    log('truth.csv', 'time_s,direction\n10.2,forward\n20.2,forward\n25,backward\n30.2,forward\n');
    const { code, out } = await replay('hand.csv', '--truth', 'truth.csv', '--out', 'hand.run');
    expect(code).toBe(0);
    const [door] = metrics('hand.run').doors;
    expect(door).toMatchObject({ person_crossings: 4, tallies: 3 });
    expect(door!.missed_per_100.value).toBe(25);
    expect(out).toContain('report.html');
  });

  test('that ends in a passage says so', async () => {
    const rows = walk(1)
      .slice(0, 3)
      .map(([time, beam, level]) => `${time},${beam},${level}`);
    expect((await replay(log('half.csv', `time_s,beam,level\n${rows.join('\n')}\n`))).out).toMatch(
      /beam B of door front was still broken/,
    );
  });

  test.each([
    ['backwards', 'time_s,beam,level\n100,A,1\n10,A,0\n', /backwards\.csv:3:1: time runs backwards by 90 s/],
    ['no columns', 'when,what\n1,2\n', /expected a column time_us[\s\S]*expected a column beam/],
    [
      'beam',
      'time_s,beam,level\n1,C,1\n2,A,2\nx,A,1\n',
      /:2:3: that door has no beam "C"[\s\S]*:3:5: expected 1 \(broken\) or 0 \(clear\), found "2"[\s\S]*:4:1: expected a time, found "x"/,
    ],
    ['empty', '', /the log is empty/],
    ['bytes', 'time_s,beam,level\n1,A,1\u0000\n', /:2:1: expected plain text/],
    ['long', `time_s,beam,level\n1,A,${'1'.repeat(20_000)}\n`, /expected rows of at most 10000 characters/],
  ])('that can not be right (%s) is refused with the line', async (name, text, words) => {
    const { code, err } = await replay(log(`${name.replace(' ', '-')}.csv`, text));
    expect(code).toBe(2);
    expect(err).toMatch(words);
    expect(err).not.toMatch(/at .*\.js:\d+/);
  });
});
