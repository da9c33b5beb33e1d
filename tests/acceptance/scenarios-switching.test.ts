/** Lessons on switching and on controllers' turns: what each comment promises is what comes out. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import type { DoorMetrics, Estimate } from '../../src/score/metrics-schema.js';
import type { Outcome } from '../../src/simulate/outcome.js';
import { plainRun } from '../simulate/plain-run.js';

/** A lesson's run, shorter than its own, with keys changed. */
function runOf(name: string, ...sets: readonly string[]): Outcome {
  return plainRun(designOf(name, ...sets));
}

function designOf(name: string, ...sets: readonly string[]): Design {
  const text = readFileSync(join(resolve('scenarios'), `${name}.yaml`), 'utf8');
  const { design, issues } = parseScenario(text, `${name}.yaml`, { sets: ['replicates=5', 'hours=3', ...sets] });
  expect(issues.map(formatIssue)).toEqual([]);
  return design!;
}

function at({ metrics }: Outcome, logic = 'first-broken'): DoorMetrics {
  return metrics.doors.find((door) => door.logic === logic)!;
}

/** Higher beyond doubt: the intervals don't meet. */
function expectHigher(more: Estimate, less: Estimate): void {
  expect(more.low!).toBeGreaterThan(less.high!);
}

function expectRight({ wrong_per_100 }: DoorMetrics): void {
  expect(wrong_per_100.high!).toBeLessThan(3);
}

const SWITCHING = 'sensors.sound.switching';

test('switch-on-a-hot-day: nobody is counted at 35 °C, everybody at 20 °C or with room to spare', () => {
  expect(at(runOf('switch-on-a-hot-day')).missed_per_100.value).toBeGreaterThan(98);
  expectRight(at(runOf('switch-on-a-hot-day', 'surroundings.temperature_c=20')));
  expectRight(at(runOf('switch-on-a-hot-day', `${SWITCHING}.nearer_than_m=0.75`)));
});

test('switch-that-never-clears: broken once and for all, until the hysteresis fits before the jamb', () => {
  const stuck = at(runOf('switch-that-never-clears'));
  expect(stuck.missed_per_100.value).toBeGreaterThan(95);
  for (const { estimate } of stuck.breaks_per_crossing) expect(estimate.value!).toBeGreaterThan(0);
  expectRight(at(runOf('switch-that-never-clears', `${SWITCHING}.hysteresis_m=0.01`)));
});

test('switch-on-strays: beams break twice, one count in five is wrong; median or samples throw strays out', () => {
  const strays = runOf('switch-on-strays');
  for (const { estimate } of at(strays).breaks_per_crossing) expect(estimate.value!).toBeGreaterThan(2);
  expect(at(strays).wrong_per_100.low!).toBeGreaterThan(10);
  expectHigher(at(strays).wrong_per_100, at(strays, 'four-level').wrong_per_100);
  for (const set of ['median_of=3', 'minimum_samples=2'])
    expectRight(at(runOf('switch-on-strays', `${SWITCHING}.${set}`)));
});

test('switch-too-late-for-runners: all runners are missed, no adult is', () => {
  const late = at(runOf('switch-too-late-for-runners'));
  const missed = Object.fromEntries(
    late.by_kind.map(({ who, wrong_per_100_visits }) => [who, wrong_per_100_visits.value]),
  );
  expect(missed['runner']).toBeGreaterThan(95);
  expect(missed['adult']).toBeLessThan(2);
  expectRight(at(runOf('switch-too-late-for-runners', `${SWITCHING}.minimum_samples=1`)));
});

test('switch-off-slowly: a delay makes one body of two', () => {
  const slow = at(runOf('switch-off-slowly'));
  expectHigher(slow.missed_per_100, at(runOf('switch-off-slowly', `${SWITCHING}.off_delay_ms=0`)).missed_per_100);
  expect(slow.missed_per_100.low!).toBeGreaterThan(25);
});

test('switch-on-silence: taken for broken, silence finds who wears a soft coat', () => {
  const clear = at(runOf('switch-on-silence')).missed_per_100;
  expect(clear.low!).toBeGreaterThan(5);
  expectHigher(clear, at(runOf('switch-on-silence', `${SWITCHING}.no_echo=broken`)).missed_per_100);
  expect(at(runOf('switch-on-silence', `${SWITCHING}.no_echo=keep`)).missed_per_100.low!).toBeGreaterThan(5);
});

test('turns-of-six: each beam breaks once, and one in four is counted the wrong way round', () => {
  const six = at(runOf('turns-of-six'));
  for (const { estimate } of six.breaks_per_crossing) expect(estimate.value).toBeCloseTo(1, 1);
  expect(six.reversed_per_100.low!).toBeGreaterThan(12);
  expect(six.reversed_per_100.high!).toBeLessThan(35);
  expectRight(at(runOf('turns-of-six', 'controllers.main.cycle_ms=15')));
});

test('turns-that-talk: text costs order, silence gives it back', () => {
  const talking = at(runOf('turns-that-talk', 'replicates=10')).reversed_per_100;
  expectHigher(
    talking,
    at(runOf('turns-that-talk', 'replicates=10', 'controllers.main.serial_characters=0')).reversed_per_100,
  );
});

test('switch-flicker: some six breaks a crossing without hysteresis, one or two with it or with a point out of the way', () => {
  const flickering = at(runOf('switch-flicker'));
  const steady = at(runOf('switch-flicker', 'sensors.mine.switching.hysteresis_m=0.10'));
  const away = at(runOf('switch-flicker', 'sensors.mine.switching.nearer_than_m=1.0'));
  for (const beam of [0, 1]) {
    const breaks = (door: DoorMetrics): Estimate => door.breaks_per_crossing[beam]!.estimate;
    expect(Math.abs(breaks(flickering).value! - 6)).toBeLessThan(1.5);
    for (const better of [steady, away]) {
      expect(breaks(better).high!).toBeLessThan(2);
      expectHigher(breaks(flickering), breaks(better));
    }
  }
  expectHigher(flickering.invented_per_100, steady.invented_per_100);
});

describe('switch-median-too-long', () => {
  const wrongOf = (door: DoorMetrics, walker: string): Estimate =>
    door.by_kind.find(({ who }) => who === walker)!.wrong_per_100_visits;

  test('strays invent people; the median of three takes them out; that of nine takes out children as well', () => {
    const strays = runOf('switch-median-too-long');
    expect(at(strays).invented_per_100.low!).toBeGreaterThan(24);
    expectHigher(at(strays).invented_per_100, at(strays, 'four-level').invented_per_100);
    const three = at(runOf('switch-median-too-long', 'sensors.mine.switching.median_of=3'));
    expect(three.invented_per_100.high!).toBeLessThan(2);
    expect(wrongOf(three, 'hurrying').value!).toBeLessThan(15);
    const nine = at(runOf('switch-median-too-long', 'sensors.mine.switching.median_of=9'));
    expect(wrongOf(nine, 'hurrying').value!).toBeGreaterThan(90);
    expectHigher(wrongOf(nine, 'hurrying'), wrongOf(three, 'hurrying'));
    expect(wrongOf(nine, 'adult').value!).toBeLessThan(5);
  });

  test('the median of nine is four readings late', () => {
    const firstBreak_us = (median_of: number): number => {
      const late: number[] = [];
      const visits: { enter_us: number; leave_us: number; who: string }[] = [];
      const edges: number[] = [];
      const design = designOf(
        'switch-median-too-long',
        'replicates=1',
        'sensors.mine.stray_share=0',
        `sensors.mine.switching.median_of=${median_of}`,
      );
      plainRun(design, {
        passage: (_, visit) => visits.push(visit),
        edge: (_, { time_us, level }) => level === 1 && edges.push(time_us),
      });
      for (const { who, enter_us, leave_us } of visits) {
        const first = edges.find((time_us) => time_us > enter_us && time_us < leave_us);
        if (who === 'adult' && first !== undefined) late.push(first - enter_us);
      }
      expect(late.length).toBeGreaterThan(40);
      return late.reduce((sum, one) => sum + one, 0) / late.length;
    };
    // Readings of a ranger are two turns of 34 ms apart.
    expect((firstBreak_us(9) - firstBreak_us(1)) / 1000).toBeCloseTo(4 * 68, -1.3);
  });
});

test('turns-fired-together: more than one in five is wrong; few in turns of their own; hardly any from one jamb', () => {
  const together = at(runOf('turns-fired-together')).wrong_per_100;
  const byTurns = at(runOf('turns-fired-together', 'controllers.main.turns=[[front.A], [front.B]]')).wrong_per_100;
  const oneJamb = at(runOf('turns-fired-together', 'doors.front.beams.*.mount=left-jamb')).wrong_per_100;
  expect(together.value!).toBeGreaterThan(20);
  expectHigher(together, byTurns);
  expect(byTurns.high!).toBeLessThan(6);
  expect(oneJamb.high!).toBeLessThan(1.5);
});

describe('turns-in-which-order', () => {
  const lesson = (...sets: string[]) => runOf('turns-in-which-order', ...sets);
  const oneByOne = at(lesson());

  test('one after another, one in four is the wrong way round: those from B’s side', () => {
    expect(oneByOne.breaks_per_crossing[0]!.estimate.value).toBeCloseTo(1, 1);
    expect(oneByOne.reversed_per_100.low!).toBeGreaterThan(12);
    expect(Math.abs(oneByOne.reversed_per_100.value! - 25)).toBeLessThan(7);
    expectRight(at(lesson('doors.*.traffic.one_way=true')));
  });

  test('pairs together are worse, all A and then all B nearly right, a short pause good', () => {
    const pairs = at(lesson('controllers.main.turns=[[a.A, a.B], [b.A, b.B], [c.A, c.B]]'));
    expectHigher(pairs.wrong_per_100, oneByOne.wrong_per_100);
    expectRight(at(lesson('controllers.main.turns=[[a.A, b.A, c.A], [a.B, b.B, c.B]]')));
    expect(at(lesson('controllers=[{ name: main, wait_ms: 10 }]')).wrong_per_100.high!).toBeLessThan(6);
  });

  test.each([
    // A round without anybody: six turns of a cycle; or of 2 · 0.9 m / 343.2 m/s, a loop of 0.1 ms and the pause.
    [360, 'controllers.main.cycle_ms=60'],
    [392, 'controllers=[{ name: main, wait_ms: 60 }]'],
    [92, 'controllers=[{ name: main, wait_ms: 10 }]'],
  ])('a ranger is read every %i ms', (round_ms, set) => {
    const times = new Map<string, number[]>();
    plainRun(designOf('turns-in-which-order', 'replicates=1', 'hours=1', set), {
      reading: (_, { door, beam, time_us }) => {
        const key = `${door}.${beam}`;
        times.set(key, [...(times.get(key) ?? []), time_us]);
      },
    });
    const gaps = [...times.values()].flatMap((own) => own.slice(1).map((time_us, i) => (time_us - own[i]!) / 1000));
    // Most readings at one door are taken while nobody is at the others.
    const middle = gaps.toSorted((a, b) => a - b)[Math.floor(gaps.length / 2)]!;
    expect(Math.abs(middle - round_ms)).toBeLessThan(6);
  });
});
