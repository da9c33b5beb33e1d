/** Lessons on kinds and mounts of rangers: what each comment promises is what comes out. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import type { DoorMetrics, Estimate } from '../../src/score/metrics-schema.js';
import type { Outcome } from '../../src/simulate/outcome.js';
import { simulate } from '../../src/simulate/simulate.js';
import { folder, jambeam } from '../cli/jambeam.js';
import { plainRun } from '../simulate/plain-run.js';

/** A lesson's run, shorter than its own, with keys changed. */
function designOf(name: string, sets: readonly string[]): Design {
  const text = readFileSync(join(resolve('scenarios'), `${name}.yaml`), 'utf8');
  const { design, issues } = parseScenario(text, `${name}.yaml`, { sets: ['replicates=5', 'hours=3', ...sets] });
  expect(issues.map(formatIssue)).toEqual([]);
  return design!;
}
const runOf = (name: string, ...sets: readonly string[]): Outcome => plainRun(designOf(name, sets));
/** The same with the runs in other clothes. */
const dressedRunOf = (name: string, ...sets: readonly string[]): Outcome => simulate(designOf(name, sets));

function at({ metrics }: Outcome, logic: string): DoorMetrics {
  return metrics.doors.find((door) => door.logic === logic)!;
}

/** Higher beyond doubt: the intervals don't meet. */
function expectHigher(more: Estimate, less: Estimate): void {
  expect(more.low!).toBeGreaterThan(less.high!);
}

function clothing(outcome: Outcome, what: string): Estimate {
  return outcome.figures.clothing!.find((run) => run.what === what)!.wrong_per_100;
}

/** Wrong per 100 visits of the bands of stature below so many metres, and of those from it on. */
function wrongBelow(outcome: Outcome, stature_m: number): { below: number; above: number } {
  const sums = { below: [0, 0], above: [0, 0] };
  for (const { from_m, visits, wrong_per_100_visits } of at(outcome, 'first-broken').by_stature) {
    const sum = from_m < stature_m - 1e-9 ? sums.below : sums.above;
    sum[0]! += visits * (wrong_per_100_visits.value ?? 0);
    sum[1]! += visits;
  }
  return { below: sums.below[0]! / sums.below[1]!, above: sums.above[0]! / sums.above[1]! };
}

test('ultrasonic-in-a-hurry: at 10 ms a turn nobody is counted, at 30 ms hardly anybody is not', async () => {
  const hurried = runOf('ultrasonic-in-a-hurry');
  for (const { estimate } of at(hurried, 'first-broken').breaks_per_crossing) expect(estimate.value).toBe(0);
  const said = (
    await jambeam(['check', resolve('scenarios/ultrasonic-in-a-hurry.yaml')], { cwd: folder() })
  ).out.replace(/\s+/g, ' ');
  expect(said).toMatch(/caution: .* hears /);
  const [, from, to] = /half-way across, breaks A from −([\d.]+) m to ([\d.]+) m/.exec(said)!;
  expect(Math.abs(Number(from) + Number(to) - 0.5)).toBeLessThan(0.1);
  const unhurried = runOf('ultrasonic-in-a-hurry', 'controllers.main.cycle_ms=30');
  for (const logic of ['first-broken', 'four-level']) expect(at(unhurried, logic).wrong_per_100.high!).toBeLessThan(3);
});

test('triangulation-out-of-reach: one in five walks past the range, and a fold tears breaks in two', () => {
  const wide = at(runOf('triangulation-out-of-reach'), 'first-broken');
  expect(wide.missed_per_100.low!).toBeGreaterThan(10);
  expect(wide.missed_per_100.high!).toBeLessThan(32);
  const narrower = runOf('triangulation-out-of-reach', 'doors.front.width_m=1.4');
  expect(at(narrower, 'first-broken').missed_per_100.high!).toBeLessThan(2);
  const door = 'doors.front.width_m=0.9';
  const folded = runOf('triangulation-out-of-reach', door, 'sensors.infrared.fold_m=0.3');
  const plain = runOf('triangulation-out-of-reach', door);
  expectHigher(at(folded, 'first-broken').extra_per_100, at(plain, 'first-broken').extra_per_100);
  expect(at(plain, 'first-broken').wrong_per_100.high!).toBeLessThan(1.5);
  const close = runOf(
    'triangulation-out-of-reach',
    door,
    ...['fold_m=0.3', 'switching.nearer_than_m=0.45'].map((key) => `sensors.infrared.${key}`),
  );
  expectHigher(at(close, 'first-broken').extra_per_100, at(folded, 'first-broken').extra_per_100);
});

test('time-of-flight-in-the-sun: daylight loses one in five, dark clothes three in four', () => {
  const sun = dressedRunOf('time-of-flight-in-the-sun');
  const indoors = runOf('time-of-flight-in-the-sun', 'surroundings.sunlight_klx=0.2');
  expectHigher(at(sun, 'first-broken').missed_per_100, at(indoors, 'first-broken').missed_per_100);
  expect(at(indoors, 'first-broken').missed_per_100.high!).toBeLessThan(2);
  expectHigher(clothing(sun, 'most'), clothing(sun, 'as drawn'));
  expectHigher(clothing(sun, 'as drawn'), clothing(sun, 'least'));
  expect(clothing(sun, 'most').value!).toBeGreaterThan(60);
  const { below, above } = wrongBelow(sun, 1.3);
  expect(below).toBeGreaterThan(2 * above);
});

describe('kinds-mixed', () => {
  const mixed = runOf('kinds-mixed');

  test('half are counted the wrong way round, by the four-level walk nobody is counted', () => {
    expect(at(mixed, 'first-broken').reversed_per_100.low!).toBeGreaterThan(40);
    expect(at(mixed, 'first-broken').reversed_per_100.high!).toBeLessThan(55);
    expect(at(mixed, 'four-level').missed_per_100.value!).toBeGreaterThan(98);
    for (const { estimate } of at(mixed, 'first-broken').breaks_per_crossing) expect(estimate.value).toBeCloseTo(1, 1);
  });

  test('the errors do not cancel: who comes and goes is nearly two more', () => {
    expect(2 * at(mixed, 'first-broken').drift_per_100.bias.low!).toBeGreaterThan(180);
  });

  test('two of a kind are right again', () => {
    const alike = runOf('kinds-mixed', 'doors.front.beams.B.sensor=sound');
    expect(at(alike, 'first-broken').wrong_per_100.high!).toBeLessThan(2);
  });
});

test('mount-interleaved: opposite jambs confuse the order, one jamb does not', () => {
  const opposite = runOf('mount-interleaved');
  expectHigher(at(opposite, 'four-level').wrong_per_100, at(opposite, 'first-broken').wrong_per_100);
  for (const jamb of ['left-jamb', 'right-jamb']) {
    const one = runOf('mount-interleaved', `doors.*.beams.*.mount=${jamb}`);
    for (const logic of ['first-broken', 'four-level'])
      expectHigher(at(opposite, logic).wrong_per_100, at(one, logic).wrong_per_100);
    expect(at(one, 'first-broken').wrong_per_100.high!).toBeLessThan(2);
  }
  const together = runOf('mount-interleaved', 'controllers.main.turns=[[front.A, front.B]]');
  expectHigher(at(together, 'first-broken').missed_per_100, at(opposite, 'first-broken').missed_per_100);
  expect(at(together, 'first-broken').missed_per_100.low!).toBeGreaterThan(15);
});

test('mount-facing: two in three are counted the wrong way round; fired together the rangers lose some', () => {
  const facing = at(runOf('mount-facing'), 'first-broken');
  expect(facing.reversed_per_100.low!).toBeGreaterThan(55);
  for (const { estimate } of facing.breaks_per_crossing) expect(estimate.value).toBeCloseTo(1, 1);
  const straight = at(runOf('mount-facing', 'doors.*.beams.*.turn_deg=0'), 'first-broken');
  expect(straight.reversed_per_100.high!).toBeLessThan(20);
  const together = at(runOf('mount-facing', 'controllers.main.turns=[[front.A, front.B]]'), 'first-broken');
  expectHigher(together.missed_per_100, facing.missed_per_100);
  expect(together.missed_per_100.low!).toBeGreaterThan(15);
});

test('mount-tilted: up, small children are looked over; down, next to nothing is lost', () => {
  const { below, above } = wrongBelow(runOf('mount-tilted'), 1.1);
  expect(below).toBeGreaterThan(50);
  expect(above).toBeLessThan(6);
  const down = runOf('mount-tilted', 'doors.*.beams.*.tilt_deg=-20');
  expect(at(down, 'first-broken').wrong_per_100.high!).toBeLessThan(2);
});

test('mount-lintel: heads come back by what is on them; a switching point chooses a stature', () => {
  const lintel = dressedRunOf('mount-lintel');
  expect(clothing(lintel, 'least').high!).toBeLessThan(2);
  expectHigher(clothing(lintel, 'most'), clothing(lintel, 'least'));
  expect(clothing(lintel, 'most').low!).toBeGreaterThan(7);
  expect(clothing(lintel, 'most').high!).toBeLessThan(30);
  const jamb = dressedRunOf('mount-lintel', 'doors.*.beams.*.mount=left-jamb', 'doors.*.beams.*.height_m=0.95');
  expect(clothing(jamb, 'most').high!).toBeLessThan(clothing(lintel, 'most').low!);
  expect(at(jamb, 'first-broken').wrong_per_100.high!).toBeLessThan(2);
  const { below, above } = wrongBelow(lintel, 1.4);
  expect(below).toBeGreaterThan(5 * Math.max(0.5, above));
  const tall = wrongBelow(runOf('mount-lintel', 'sensors.sound.switching.nearer_than_m=0.6'), 1.4);
  expect(tall.below).toBeGreaterThan(95);
  expect(tall.above).toBeLessThan(5);
});
