/** A program of the user's own: what it is told, what is made of its answers, and each way it can fail. */
import { describe, expect, test } from 'vitest';
import { MOST_PROCESSES } from '../../src/plugins/heart.js';
import {
  CHOICE,
  DOOR,
  type Heard,
  WALK,
  codeJob,
  driven,
  hooksOf,
  hostOf,
  open,
  openCode,
  processesIn,
  programCode,
} from './built.js';
import { LONG } from '../how-many.js';

/** Tells every line it gets as a state, so that a trace shows what it was told. */
const ECHO = "say('state ' + time + ' ' + line.slice(time.length + 1))";

describe('a program is told', () => {
  test('the door and its beams', async () => {
    const hello = "say('jambeam-logic 1', 'state ' + heard.join('|'), 'ready')";
    const code = programCode({ hello });
    // What it has heard so far is kept by a second reader of the same lines.
    const { readFileSync, writeFileSync } = await import('node:fs');
    const path = code.use === 'process' ? code.words[1]! : '';
    const text = readFileSync(path, 'utf8');
    writeFileSync(
      path,
      text
        .replace('let n = 0;', 'let n = 0; const heard = [];')
        .replace('const [time', 'heard.push(line); const [time'),
    );
    const host = hostOf((await open(code)).outside(CHOICE, DOOR), hooksOf({ tallies: [], steps: [] }));
    expect(host.snapshot().label).toBe(
      'jambeam-logic 1|door front|beam A light-barrier|beam B light-barrier|ready'.slice(0, 60),
    );
  });

  test('every instant with the levels of all beams, and answers with the time of a line', async () => {
    const { tallies, steps } = await driven(
      programCode({ line: `${ECHO}; if (levels === '00') say('forward ' + time)` }),
    );
    expect(steps.map(({ time_us, label }) => [time_us, label])).toEqual([
      [1_000_000, '10'],
      [1_100_000, '11'],
      [1_200_000, '01'],
      [1_300_000, '00'],
    ]);
    expect(tallies).toEqual(['forward 1300000']);
  });

  test('readings, if it asks for them; a dash where there is none', async () => {
    const code = await open(programCode({ hello: "say('jambeam-logic 1', 'readings yes', 'ready')", line: ECHO }));
    const logic = code.outside(CHOICE, DOOR);
    const heard: Heard = { tallies: [], steps: [] };
    const host = hostOf(logic, hooksOf(heard));
    expect(logic.readings).toBe(true);
    host.inputMask(5, 1, [812_000, null]);
    host.inputMask(6, 1, [813_000]);
    host.finish(10);
    expect(heard.steps.map(({ label }) => label)).toEqual(['10 812000 -', '10 813000 -']);
  });

  test('ticks: unchanged lines from each line of the beams on, until its longest timeout', async () => {
    const hello = "say('jambeam-logic 1', 'tick_us 40000', 'longest_timeout_us 130000', 'ready')";
    const inputs = [
      [100_000, 1],
      [180_000, 0],
      [1_000_000, 1],
    ] as const;
    const { steps } = await driven(programCode({ hello, line: ECHO }), { inputs, until_us: 1_085_000 });
    expect(steps.map(({ time_us, label, wake }) => `${time_us} ${label}${wake ? ' tick' : ''}`)).toEqual([
      '100000 10',
      '140000 10 tick',
      // The tick due at 180000 gives way to the change.
      '180000 00',
      '220000 00 tick',
      '260000 00 tick',
      '300000 00 tick',
      '1000000 10',
      '1040000 10 tick',
      '1080000 10 tick',
    ]);
  });

  test('nothing of a restart: it is started anew', async () => {
    const code = await open(programCode({ line: "say('state ' + time + ' line ' + n)" }));
    const heard: Heard = { tallies: [], steps: [] };
    const host = hostOf(code.outside(CHOICE, DOOR), hooksOf(heard));
    for (const [time_us, mask] of WALK.slice(0, 2)) host.inputMask(time_us, mask);
    host.finish(1_150_000);
    host.reset(5_000_000, 2);
    host.inputMask(5_100_000, 0);
    host.finish(6_000_000);
    expect(heard.steps.map(({ time_us, label }) => `${time_us} ${label}`)).toEqual([
      '1000000 line 1',
      '1100000 line 2',
      '5000000 line 1',
      '5100000 line 2',
    ]);
  });
});

test('from a snapshot it goes on as if nothing had been, any number of times, ticks included', async () => {
  const hello = "say('jambeam-logic 1', 'tick_us 40000', 'longest_timeout_us 70000', 'state none', 'ready')";
  const code = await open(programCode({ hello, line: "say('state ' + time + ' line ' + n, 'forward ' + time)" }));
  const logic = code.outside(CHOICE, DOOR);
  const whole: Heard = { tallies: [], steps: [] };
  const host = hostOf(logic, hooksOf(whole));
  expect(host.snapshot()).toMatchObject({ label: 'none', resting: true });
  const [first, second, third, last] = WALK as [readonly [number, number], ...(readonly [number, number])[]];
  host.inputMask(...first);
  host.inputMask(...second!);
  host.finish(1_150_000);
  const from = host.snapshot();
  expect(from.resting).toBe(false);
  host.inputMask(...third!);
  host.inputMask(...last!);
  host.finish(2_000_000);
  const rest = whole.tallies.filter((line) => Number(line.split(' ')[1]) > 1_150_000);
  expect(rest.map((line) => line.split(' ')[1])).toEqual(['1200000', '1240000', '1300000', '1340000']);
  for (let again = 0; again < 2; again++) {
    const branch: Heard = { tallies: [], steps: [] };
    const other = hostOf(logic, hooksOf(branch), from);
    other.inputMask(...third!);
    other.inputMask(...last!);
    other.finish(2_000_000);
    other.close();
    expect(branch.tallies).toEqual(rest);
    expect(branch.steps.map(({ label }) => label)).toEqual(whole.steps.slice(-4).map(({ label }) => label));
  }
});

describe('each way to fail has its own words, with the last lines', () => {
  test.each([
    [
      'a crash',
      { flush: "console.error('bad \\x1b[2Jluck'); process.exit(3)" },
      /it ended with exit code 3 instead of answering\n {2}at 1\.3 s of the clock, door front\n(?:.*\n)*.*→ 1300000 00\n {4}→ flush 1\n.*standard error:\n {4}! bad \\u\{1b\}\[2Jluck$/,
    ],
    ['a signal', { flush: "process.kill(process.pid, 'SIGSEGV')" }, 'it was ended by SIGSEGV instead of answering'],
    ['an end with success', { flush: 'process.exit(0)' }, 'it ended with exit code 0 instead of answering'],
    ['garbage', { line: "say('\\u202ehello')" }, /found "\\u\{202e\}hello"\n {2}at 1 s of the clock/],
    ['a tally without its time', { line: "say('forward')" }, 'expected `forward TIME`'],
    [
      'a time nobody has told',
      { line: "say('forward ' + (Number(time) + 1))" },
      'has a time that was not sent since the last flush',
    ],
    ['tallies in disorder', { flush: "say('forward 1300000', 'forward 1000000')" }, 'comes before the one above'],
    [
      'too many at an instant',
      { line: "for (let i = 0; i < 101; i++) say('forward ' + time)" },
      'at most 100 tallies at one instant, got 101',
    ],
    [
      'a flood',
      { flush: "for (let i = 0; i < 1e5; i++) say('forward ' + 1300000)" },
      'it said more than 1 MB without coming to an end',
    ],
    [
      'another version',
      { hello: "say('jambeam-logic 2', 'ready')" },
      'expected `jambeam-logic 1` as its first line, found "jambeam-logic 2"',
    ],
    [
      'a greeting of its own',
      { hello: "say('jambeam-logic 1', 'latency_us soon', 'ready')" },
      'latency_us: expected whole microseconds',
    ],
    ['a strange key', { hello: "say('jambeam-logic 1', 'colour red', 'ready')" }, 'found "colour red"'],
  ])('%s', async (_what, program, message) => {
    await expect(driven(programCode(program))).rejects.toThrow(message);
  });

  test.each([
    ['a hang', { flush: 'for (;;);' }, 'it did not answer within 0.4 s'],
    ['an answer that is never flushed', { answers: false }, 'it did not answer within 0.4 s'],
    [
      'a greeting that never comes',
      { hello: ';' },
      /did not answer within 0.4 s\n {2}before the first input, door front/,
    ],
  ])('%s', async (_what, program, message) => {
    await expect(driven(programCode(program), { limit_s: 0.4 })).rejects.toThrow(message);
  });

  const command = (...words: string[]) => ({ use: 'process', name: 'mine', words, shown: words.join(' ') }) as const;
  test.each([
    ['no such program', ['./nowhere'], "can't be started: there is no such program"],
    ['no program', [import.meta.dirname], 'it is no program that may be run'],
    ['its mouth shut', ['sh', '-c', 'exec 1>&-; sleep 9'], 'it closed its standard output'],
    ['its ears shut', ['sh', '-c', 'exec 0<&-; echo no'], 'it ended with exit code 0'],
  ])('%s', async (_what, words, message) => {
    await expect(driven(command(...words))).rejects.toThrow(message);
  });

  test('tallies out of nothing, here and there, until it is too much', async () => {
    const inputs = Array.from({ length: 30 }, (_, i) => [1_000_000 * (i + 1), (i + 1) % 2] as const);
    const code = programCode({ line: "for (let i = 0; i < 50; i++) say('forward ' + time)" });
    await expect(driven(code, { inputs, until_us: 40_000_000 })).rejects.toThrow(
      /over 1000 more tallies.*\n {2}at 21 s/,
    );
  });
});

describe('programs are ended', () => {
  test('with the host, and all of them at the end, those that will not end too', async () => {
    const job = codeJob([programCode({ flush: "process.stdin.on('end', () => { for (;;); })" })], 10);
    const code = await openCode(job);
    const logic = code.outside(CHOICE, DOOR);
    const hosts = Array.from({ length: 3 }, () => hostOf(logic, hooksOf({ tallies: [], steps: [] })));
    for (const host of hosts) {
      host.inputMask(1, 1);
      host.finish(2);
    }
    const running = () => [...processesIn(job.shared)].filter((leader) => leader !== 0);
    expect(running().length).toBeGreaterThanOrEqual(3);
    const leaders = running();
    code.close();
    expect(running()).toEqual([]);
    for (const leader of leaders) expect(() => process.kill(leader, 0)).toThrow(/ESRCH/);
  });

  test.skipIf(!LONG)('those used longest ago when there are too many: they are told all again', async () => {
    const job = codeJob([programCode({ line: "say('state ' + time + ' line ' + n)" })], 10);
    const code = await openCode(job);
    const logic = code.outside(CHOICE, DOOR);
    const heard = Array.from({ length: MOST_PROCESSES + 5 }, (): Heard => ({ tallies: [], steps: [] }));
    const hosts = heard.map((one) => hostOf(logic, hooksOf(one)));
    for (const [time_us, mask] of WALK.slice(0, 2)) {
      for (const host of hosts) {
        host.inputMask(time_us, mask);
        host.finish(time_us);
      }
    }
    for (const { steps } of heard) expect(steps.map(({ label }) => label)).toEqual(['line 1', 'line 2']);
    code.close();
  });
});
