/** Known horrors one by one, each with the message that a person reads; and what the fuzzer found. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, test } from 'vitest';
import { MOST_JSON_DEPTH } from '../../src/engine/json.js';
import { Journal, lineOf } from '../../src/study/store/journal.js';
import { Lock } from '../../src/study/store/lock.js';
import { ALIAS_BOMB } from './nasty.js';
import { smallStudy } from './small-study.js';
import { TARGETS } from './targets/index.js';
import { LONG } from '../how-many.js';

const home = mkdtempSync(join(tmpdir(), 'jambeam-known-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));
afterEach(() => expect(Object.keys(Object.prototype)).toEqual([]));

/** What the user is told of a file, without the folder's name; null when it is taken. */
async function told(name: string, content: string | Buffer): Promise<string | null> {
  const target = TARGETS.find((one) => one.name === name)!;
  const folder = join(home, name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  const path = join(folder, target.file);
  writeFileSync(path, content);
  try {
    await target.take({ folder, path, bytes: Buffer.from(content) });
    return null;
  } catch (error) {
    return (error as Error).message.replaceAll(`${folder}/`, '');
  }
}

const valid = (name: string, seed = 0): string =>
  TARGETS.find((one) => one.name === name)!
    .seeds()
    [seed]!.toString('utf8');
const deep = (depth: number): string => '['.repeat(depth) + ']'.repeat(depth);

const YAML = ['scenario', 'table', 'profile', 'study'] as const;
const CSV = ['log', 'truth', 'readings', 'walk-sheet', 'tally-log'] as const;

describe('the same text as other programs save it', () => {
  test.each([...YAML, ...CSV])('%s: a byte-order mark, CR LF and CR alone are no fault', async (name) => {
    const text = valid(name);
    expect(await told(name, `\ufeff${text}`)).toBe(null);
    expect(await told(name, text.replaceAll('\n', '\r\n'))).toBe(null);
    expect(await told(name, text.replaceAll('\n', '\r'))).toBe(null);
  });

  test.each(YAML)('%s: whatever ends the lines, an unknown key is told at the same place', async (name) => {
    const text = `${valid(name)}nonsense: 1\n`;
    const said = await told(name, text);
    expect(said).toMatch(/^\S+:\d+:1: nonsense: unknown key "nonsense"/);
    expect(Number(said!.split(':')[1])).toBe(text.split('\n').length - 1);
    for (const ends of ['\r\n', '\r']) expect(await told(name, text.replaceAll('\n', ends))).toBe(said);
    expect(await told(name, `\ufeff${text}`)).toBe(said);
  });

  test.each(['log', 'readings'] as const)('%s: and so is a wrong row', async (name) => {
    const text = `${valid(name)}x,y,z,0,1\n`;
    const said = await told(name, text);
    expect(Number(said!.split(':')[1])).toBe(text.split('\n').length - 1);
    for (const ends of ['\r\n', '\r']) expect(await told(name, text.replaceAll('\n', ends))).toBe(said);
  });

  test.each(['scenario', 'table', 'study', 'readings', 'walk-sheet', 'tally-log'] as const)(
    '%s: UTF-16 is told as such',
    async (name) => {
      const little = Buffer.from(`\ufeff${valid(name)}`, 'utf16le');
      for (const bytes of [little, Buffer.from(little).swap16()])
        expect(await told(name, bytes)).toMatch(
          /^\S+:1:1: expected text in UTF-8, found UTF-16\n {2}hint: save the file as UTF-8$/,
        );
    },
  );

  test('a profile in UTF-16 is told where the scenario names it', async () => {
    expect(await told('profile', Buffer.from(`\ufeff${valid('profile')}`, 'utf16le'))).toMatch(
      /^scenario\.yaml:\d+:\d+: sensors\.ear\.profile: "mine\.yaml" can't be read: expected text in UTF-8, found UTF-16; save/,
    );
  });
});

describe('bytes that are no text', () => {
  test.each(YAML)('%s: NUL and other encodings are told with their place, in a comment too', async (name) => {
    const line = valid(name).split('\n').length;
    expect(await told(name, `${valid(name)}# \0\n`)).toContain(`:${line}:3: expected a text file, found binary data`);
    const latin = Buffer.concat([Buffer.from(`${valid(name)}# caf`), Buffer.of(0xe9, 10)]);
    expect(await told(name, latin)).toContain(`:${line}:6: expected text in UTF-8, found other bytes`);
    expect(await told(name, Buffer.from(valid(name), 'utf16le'))).toContain(
      ':1:2: expected a text file, found binary data',
    );
  });

  test.each(CSV)('%s: NUL is told with its line', async (name) => {
    const line = valid(name).split('\n').length;
    expect(await told(name, `${valid(name)}1,\0,2\n`)).toContain(
      `:${line}:1: expected plain text in UTF-8, found a control character`,
    );
  });
});

describe('names that reach into objects', () => {
  test.each(['__proto__', 'constructor', 'prototype'])('the key %s', async (key) => {
    for (const name of ['scenario', 'profile', 'study'])
      expect(await told(name, `${valid(name)}${key}: { polluted: true }\n`)).toMatch(
        /:1: the key "\w+" is not allowed/,
      );
    expect(await told('table', `${valid('table')}${key}: 1\n`)).toContain(`unknown key "${key}"`);
  });

  test('a table called constructor is looked for as a file, in a study too', async () => {
    const text = valid('study').replace('logics: [four-level]', 'logics: [{ use: table, file: constructor }]');
    expect(await told('study', text)).toContain('"constructor" can\'t be read: there is no such file');
  });

  test('a study that puts a number in the place of doors', async () => {
    const text = valid('study')
      .replace('doors.front.pair.height_m', 'doors.*')
      .replace('doors.front.pair.spacing_m', 'doors.*.pair.spacing_m')
      .replace('height_m < 1', 'spacing_m < 1');
    expect(await told('study', text)).toMatch(/^study\.yaml:\d+:\d+: .*expected a map of keys, found 0\.3/);
  });

  test('keys of a study that lead into objects lead nowhere', async () => {
    const text = valid('study').replace('ledgers: [floor]', '"constructor.prototype.polluted": 1');
    expect(await told('study', text)).toContain('there is no "constructor" in the design');
  });
});

describe('texts that grow', () => {
  test('aliases of aliases', async () => {
    for (const name of ['scenario', 'profile', 'study'])
      expect(await told(name, `${valid(name)}b: [${ALIAS_BOMB}]\n`)).toContain(
        'aliases (*name) repeat more than 10000 values',
      );
  });

  // A million brackets once ended the process: the parser of YAML ran out of memory.
  test.each([
    ['brackets', deep(400_000)],
    ['brackets that stay open', '['.repeat(900_000)],
    ['maps', '{a: '.repeat(200_000)],
    ['dashes', '- '.repeat(400_000)],
    ['question marks', '? '.repeat(400_000)],
    ['both by turns', '- ['.repeat(200_000)],
  ])('%s in each other', async (_, text) => {
    expect(await told('scenario', text)).toMatch(
      /^scenario\.yaml:1:\d+: lists and maps stand in each other more than 40 deep/,
    );
    expect(await told('table', text.slice(0, 90_000))).toMatch(
      /^table\.yaml:1:\d+: this is no valid YAML: nested too deeply/,
    );
  });

  test('a hundred thousand faults in one text', async () => {
    expect(await told('scenario', `a: ${'[]'.repeat(100_000)}`)).toMatch(
      /^scenario\.yaml:1:\d+: this is no valid YAML/,
    );
  });

  test('a range of more values than there are numbers', async () => {
    const text = valid('study').replace('to: 0.15, step: 0.05', 'to: 1e308, step: 1e-300');
    expect(await told('study', text)).toContain('the range has Infinity values; at most 1000');
  });
});

describe('numbers that are none', () => {
  test.each([
    ['height_m: 0.95', 'height_m: .nan', 'expected a number of metres, found no number (.nan)'],
    ['height_m: 0.95', 'height_m: 1e999', 'expected a number of metres, found Infinity'],
    ['height_m: 0.95', 'height_m: -0', 'expected 0.01 to 5 metres, found 0'],
    ['hours: 1', 'hours: 1e9', 'expected 0.01 to 8760'],
    ['arrivals_per_hour: 20', 'arrivals_per_hour: 1e9', 'expected 0 to 100000 per hour, found 1000000000'],
    ['seed: 3', 'seed: 9007199254740993', 'at most 9007199254740991'],
  ])('%s → %s', async (from, to, expected) => {
    expect(await told('scenario', valid('scenario').replace(from, to))).toContain(expected);
  });
});

describe('times that can not be', () => {
  test('a log of a thousand years', async () => {
    expect(await told('log', 'time,beam,level\n2024-05-01T10:00:00,A,1\n3024-05-01T10:00:00,B,1\n')).toBe(
      'log.csv:3:1: expected a log of at most a year\n  hint: is every time written in the same way?',
    );
  });
  test('a log of our own that begins before its run', async () => {
    expect(await told('own-log', 'replicate,door,beam,time_us,level\n1,front,A,-5,1\n')).toBe(
      'log.csv:2:11: expected a time from 0 in a log of a run',
    );
  });
  test('a crossing before it began', async () => {
    const text = 'door,direction,enter_us,cross_us,leave_us\nfront,forward,100,-1,300\n';
    expect(await told('truth', text)).toBe('passages.csv:2:1: expected cross_us between enter_us and leave_us');
  });
  test('who came in a hundred years', async () => {
    expect(await told('truth', 'time_s,door,direction\n5,front,forward\n3e9,front,backward\n')).toBe(
      'passages.csv:3:1: expected a list of at most a year',
    );
  });
  test.each([
    ['entry', '1e9', 'from 0 to'],
    ['persons', '1e9', 'from 0 to 100'],
    ['persons', '-1', 'from 0 to 100'],
    ['stature_m', '1e999', 'expected 0 to 10 metres'],
  ])('of who came: %s %s', async (column, value, words) => {
    const text = `time_s,door,direction,${column}\n5,front,forward,${value}\n`;
    expect(await told('truth', text)).toMatch(
      new RegExp(`^passages\\.csv:2:1: ${column}: .*${words}.*, found "${value}"`),
    );
  });
  test('a list by hand that begins before the log', async () => {
    const list = (first_s: number) => `time_s,door,direction\n${first_s},front,forward\n50,front,backward\n`;
    // By hand nobody is right to the second.
    expect(await told('truth', list(-1))).toBe(null);
    expect(await told('truth', list(-100))).toBe(
      "passages.csv:2:1: expected a time after the log's first row, found one 100 s before it: take out who came before",
    );
  });
});

test('a bench of voltages where one distance is silent all the time', async () => {
  const rows = [20, 30, 50, 80, 120].flatMap((cm) => Array<string>(6).fill(`${cm},${cm === 50 ? 'none' : 30 / cm}`));
  expect(await told('readings', `true_cm,volts\n${rows.join('\n')}\n`)).toMatch(
    /^readings\.csv:14:4: at 0\.5 m only 0 of 6 readings have an echo/,
  );
});

describe('an empty file', () => {
  test.each([...YAML, ...CSV])('%s', async (name) => {
    expect(await told(name, '')).toMatch(/^\S+:1:1: (?:the \w+ is empty|expected the columns of a walk sheet)/);
  });
});

describe('files that the program writes itself, sent by somebody else', () => {
  const tooDeep = `{"x":${deep(MOST_JSON_DEPTH * 1000)},`;

  test.each([
    ['run-metrics', /^metrics\.json: expected JSON: lists and maps stand in each other more than 100 deep/],
    ['run-figures', /^figures\.json: expected JSON: lists and maps stand in each other more than 100 deep/],
    ['run-design', /^design\.json:1:\d+: lists and maps stand in each other more than 40 deep/],
    ['run-marker', /is no folder of a finished run/],
    ['study-marker', /is not as a study wrote it/],
    ['study-summary', /is not as the study wrote it/],
    ['queue-request', /what is on the queue is no study of jambeam/],
  ])('%s: lists in lists', async (name, words) => {
    expect(await told(name, valid(name).replace('{', tooDeep))).toMatch(words);
  });

  test('a scenario on the queue may be anything, but not deep', async () => {
    const text = valid('queue-request').replace('"scenario":{', `"scenario":${tooDeep}`);
    expect(await told('queue-request', text)).toBe('what is on the queue is no study of jambeam');
  });

  test('a study of no version is none', async () => {
    expect(await told('queue-request', valid('queue-request').replace('"jambeam"', '"other"'))).toBe(
      'what is on the queue is no study of jambeam',
    );
  });

  test('a summary that names factors, levels and designs that are not there', async () => {
    const summary = JSON.parse(valid('study-summary')) as {
      designs: { levels: number[] }[];
      ranking: { rows: { design: number }[] };
      effects: { main: { factor: number }[] };
    };
    const { designs, ranking, effects } = summary;
    for (const wrong of [
      { ...summary, designs: [{ ...designs[0]!, levels: [7] }, designs[1]] },
      { ...summary, designs: [] },
      { ...summary, ranking: { ...ranking, rows: [{ ...ranking.rows[0]!, design: 3 }] } },
      { ...summary, effects: { ...effects, main: [{ ...effects.main[0]!, factor: 1 }] } },
    ])
      expect(await told('study-summary', JSON.stringify(wrong))).toMatch(/^study\.json is not as the study wrote it/);
  });

  test('a key that is missing is told in words', async () => {
    expect(await told('run-metrics', valid('run-metrics').replace('"missed_per_100"', '"__proto__"'))).toMatch(
      /^metrics\.json: \S+missed_per_100: expected object, found nothing\nmetrics\.json: \S+: unknown key: "__proto__"/,
    );
  });

  test('a page whose scenario is lists in lists', async () => {
    const page = valid('page').replace('"format":1', `"format":${deep(100_000)}`);
    expect(await told('page', page)).toContain('the scenario in it is cut off or broken: expected JSON');
  });
});

describe('a journal whose sums are right', () => {
  const file = join(home, 'journal.jsonl');
  const open = (text: string | Buffer): { damaged: number; entries: number } => {
    writeFileSync(file, text);
    let entries = 0;
    const journal = Journal.open(file, () => ++entries > 0);
    journal.close();
    return { damaged: journal.damaged, entries };
  };

  test.each([
    'no JSON',
    '[]',
    'null',
    '{"d":1,"r":1,"v":[]}',
    '{"d":"x","r":0.5,"v":[]}',
    '{"d":"x","r":1}',
    '{"d":"x","r":1,"failed":7}',
    deep(5000),
  ])('a line that is no entry is damaged: %.30s', (text) => {
    expect(open(lineOf(text) + lineOf(smallStudy().entries[0]!))).toEqual({ damaged: 1, entries: 1 });
  });

  test('a line without end is not waited for', () => {
    expect(
      open(Buffer.concat([Buffer.alloc(20 << 20, 'x'), Buffer.from(`\n${lineOf(smallStudy().entries[0]!)}`)])),
    ).toEqual({ damaged: 1, entries: 1 });
  });

  test('counts that no simulation finds are done again', async () => {
    const [first] = smallStudy().entries;
    expect(await told('journal', lineOf(first!.replace(/"v":\[/, '"v":["many",')))).toBe(null);
    const { v, ...rest } = JSON.parse(first!) as { v: number[] };
    expect(await told('journal', lineOf(JSON.stringify({ ...rest, v: v.map(() => -1) })))).toBe(null);
    expect(await told('journal', lineOf(JSON.stringify({ ...rest, v: v.slice(1) })))).toBe(null);
  });
});

test.skipIf(!LONG)(
  'a lock that holds anything but a lock is given up when nobody moves it',
  { timeout: 60_000 },
  async () => {
    const folder = mkdtempSync(join(home, 'lock-'));
    writeFileSync(join(folder, 'running.lock'), '{"pid": ');
    const lock = await Lock.take(folder);
    expect(lock).not.toBe(null);
    lock?.release();
  },
);
