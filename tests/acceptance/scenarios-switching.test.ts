/** Lessons on switching and on controllers' turns: what each comment promises is what comes out. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { DoorMetrics, Estimate } from '../../src/score/metrics-schema.js';
import type { Outcome } from '../../src/simulate/outcome.js';
import { simulate } from '../../src/simulate/simulate.js';

/** A lesson's run, shorter than its own, with keys changed. */
function runOf(name: string, ...sets: readonly string[]): Outcome {
  const text = readFileSync(join(resolve('scenarios'), `${name}.yaml`), 'utf8');
  const { design, issues } = parseScenario(text, `${name}.yaml`, { sets: ['replicates=5', 'hours=3', ...sets] });
  expect(issues.map(formatIssue)).toEqual([]);
  return simulate(design!);
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
