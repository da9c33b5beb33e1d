/** Each scenario that comes with the project runs, and each lesson's comment is true of what comes out. */
import { readFileSync, readdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { DoorMetrics, Estimate, Metrics } from '../../src/score/metrics-schema.js';
import { folder, jambeam } from '../cli/jambeam.js';
import { plainRun } from '../simulate/plain-run.js';
import { LONG } from '../how-many.js';

const SCENARIOS = resolve('scenarios');
/** Several kinds of sensor, a lintel, sunlight; the starter is what a newcomer runs (newcomer.test.ts). */
const REPORTED = ['kinds-mixed', 'mount-lintel', 'time-of-flight-in-the-sun'];
/** Tables of logics stand beside them; a scenario is what has doors. */
const files = readdirSync(SCENARIOS)
  .filter((name) => name.endsWith('.yaml'))
  .map((name) => join(SCENARIOS, name))
  .filter((file) => /^doors:/m.test(readFileSync(file, 'utf8')));

test('there is a starter, and each of the others is a lesson that says so', () => {
  const names = files.map((file) => basename(file, '.yaml'));
  expect(names).toContain('starter');
  expect(names.length).toBeGreaterThan(10);
  for (const file of files.filter((one) => basename(one) !== 'starter.yaml'))
    expect(readFileSync(file, 'utf8').split('\n')[1]).toMatch(/^# LESSON: /);
});

describe.each(files)('%s', (file) => {
  const cwd = folder();

  test('says that it is invented, and points the editor at the published schema', () => {
    const text = readFileSync(file, 'utf8');
    expect(text).toMatch(/invented|assumption/i);
    expect(text.split('\n')[0]).toBe('# yaml-language-server: $schema=../docs/scenario.schema.json');
  });

  test('is read without a complaint', () => {
    const { design, issues } = parseScenario(readFileSync(file, 'utf8'), basename(file), {
      readFile: (name) => readFileSync(join(SCENARIOS, name), 'utf8'),
    });
    expect(issues.map(formatIssue)).toEqual([]);
    expect(design?.doors.length).toBeGreaterThan(0);
  });

  // Every lesson is also simulated by the tests of its promises; a whole check and a report of each is for the long run.
  if (!LONG && !REPORTED.includes(basename(file, '.yaml'))) return;
  test('is checked without a complaint', async () => {
    const { code, out } = await jambeam(['check', file], { cwd });
    expect(code).toBe(0);
    // What looks down from the lintel has one height only.
    expect(out).toMatch(/Height ladder|Counted/);
  });

  test('gives a report after a short run', async () => {
    const { code, out } = await jambeam(['run', file, '--hours', '0.5', '--replicates', '2'], { cwd });
    expect(code).toBe(0);
    expect(out).toContain('report.html');
  });
});

/** A scenario's run, shorter than its own, with keys changed. */
function runOf(name: string, sets: readonly string[] = [], extent = { replicates: 6, hours: 4 }): Metrics {
  const { design, issues } = parseScenario(readFileSync(join(SCENARIOS, `${name}.yaml`), 'utf8'), `${name}.yaml`, {
    sets: [`replicates=${extent.replicates}`, `hours=${extent.hours}`, ...sets],
  });
  expect(issues.map(formatIssue)).toEqual([]);
  return plainRun(design!).metrics;
}

function at(metrics: Metrics, logic: string, door = metrics.doors[0]!.door): DoorMetrics {
  return metrics.doors.find((entry) => entry.door === door && entry.logic === logic)!;
}

/** Higher beyond doubt: the intervals don't meet. */
function expectHigher(more: Estimate, less: Estimate): void {
  expect(more.low!).toBeGreaterThan(less.high!);
}

describe('two-heights', () => {
  test('the high pair tells people from the dog, at little cost', () => {
    const both = at(runOf('two-heights'), 'two-height');
    expect(both.invented_per_100.value).toBe(0);
    expect(both.missed_per_100.high!).toBeLessThan(4);
  });

  test('with the low pair believed alone the dog is a person', () => {
    const low = at(runOf('two-heights', ['logics.two-height.alone=first']), 'two-height');
    expect(low.invented_per_100.low!).toBeGreaterThan(40);
  });
});

describe('shin-height', () => {
  const low = runOf('shin-height');

  test('each adult breaks each beam nearly twice, and most are counted twice', () => {
    for (const { estimate } of at(low, 'first-broken').breaks_per_crossing) {
      expect(estimate.low!).toBeGreaterThan(1.5);
      expect(estimate.high!).toBeLessThan(2.5);
    }
    for (const logic of ['first-broken', 'four-level']) expect(at(low, logic).extra_per_100.low!).toBeGreaterThan(50);
  });

  test('yet the drift is small beside it, for in and out are counted twice alike', () => {
    const { extra_per_100, drift_per_100 } = at(low, 'first-broken');
    expect(Math.abs(drift_per_100.bias.value!)).toBeLessThan(extra_per_100.value! / 10);
  });

  test('hold-off swallows the second leg', () => {
    expectHigher(at(low, 'first-broken').wrong_per_100, at(low, 'hold-off').wrong_per_100);
    expect(at(low, 'hold-off').extra_per_100.high!).toBeLessThan(5);
  });

  test('hold-off swallows a close follower as well', () => {
    const followed = 'doors.front.traffic.mix=[{ who: adult, kind: close-behind, share: 1 }]';
    expectHigher(at(runOf('shin-height', [followed]), 'hold-off').missed_per_100, at(low, 'hold-off').missed_per_100);
  });

  test('at the chest two legs become one trunk', () => {
    const high = runOf('shin-height', ['doors.*.beams.*.height_m=1.1']);
    for (const logic of ['first-broken', 'four-level'])
      expectHigher(at(low, logic).wrong_per_100, at(high, logic).wrong_per_100);
    expect(at(high, 'four-level').breaks_per_crossing[0]!.estimate.value).toBeCloseTo(1, 1);
  });
});

describe('polled-too-slowly', () => {
  const slow = runOf('polled-too-slowly');

  test('every break is seen, and people are missed all the same, the four-level walk’s more', () => {
    for (const { estimate } of at(slow, 'four-level').breaks_per_crossing) expect(estimate.value).toBeCloseTo(1, 1);
    expect(at(slow, 'first-broken').missed_per_100.low!).toBeGreaterThan(5);
    expectHigher(at(slow, 'four-level').missed_per_100, at(slow, 'first-broken').missed_per_100);
  });

  test('looked at five times as often, or set further apart, they are not', () => {
    const often = runOf('polled-too-slowly', ['controllers.main.poll_ms=20']);
    const apart = runOf('polled-too-slowly', ['doors.front.beams.A.at_m=-0.06', 'doors.front.beams.B.at_m=0.06']);
    for (const better of [often, apart])
      expectHigher(at(slow, 'four-level').missed_per_100, at(better, 'four-level').missed_per_100);
    expect(at(often, 'four-level').missed_per_100.high!).toBeLessThan(1);
  });
});

describe('barriers-that-dazzle', () => {
  const dazzled = runOf('barriers-that-dazzle');

  test('many are missed, and taking turns cures it', () => {
    const turns = runOf('barriers-that-dazzle', ['sensors.barrier.separation=alternate']);
    expectHigher(at(dazzled, 'four-level').missed_per_100, at(turns, 'four-level').missed_per_100);
    expect(at(dazzled, 'four-level').missed_per_100.low!).toBeGreaterThan(10);
    for (const { estimate } of at(dazzled, 'four-level').breaks_per_crossing) expect(estimate.value).toBeCloseTo(1, 1);
  });

  test('dazzled at 6 cm is like undisturbed at 3 cm', () => {
    const near = runOf('barriers-that-dazzle', [
      'sensors.barrier.separation=alternate',
      'doors.front.beams.A.at_m=-0.015',
      'doors.front.beams.B.at_m=0.015',
    ]);
    const ratio = at(dazzled, 'four-level').missed_per_100.value! / at(near, 'four-level').missed_per_100.value!;
    expect(ratio).toBeGreaterThan(0.8);
    expect(ratio).toBeLessThan(1.25);
  });

  test('by interrupts nobody would be lost', () => {
    // The shortest poll there is stands for an interrupt.
    const wired = runOf('barriers-that-dazzle', ['controllers.main.poll_ms=0.1']);
    expect(at(wired, 'four-level').missed_per_100.high!).toBeLessThan(1);
  });
});

describe('two-doors', () => {
  const metrics = runOf('two-doors', [], { replicates: 20, hours: 10 });
  const room = (name: string, logic: string) =>
    metrics.rooms.find((entry) => entry.room === name && entry.logic === logic && entry.ledger === 'raw')!;

  test('per 100 people neither door is worse beyond doubt; the rare one’s interval is wide', () => {
    const studio = at(metrics, 'first-broken', 'studio-door').wrong_per_100;
    const shed = at(metrics, 'first-broken', 'shed-door').wrong_per_100;
    expect(studio.low!).toBeLessThan(shed.high!);
    expect(shed.low!).toBeLessThan(studio.high!);
    expect(shed.high! - shed.low!).toBeGreaterThan(2 * (studio.high! - studio.low!));
  });

  test('the studio’s count is wrong most of the day, the shed’s for less of it', () => {
    expect(room('studio', 'first-broken').exact_share.value).toBeLessThan(0.5);
    expectHigher(room('shed', 'first-broken').exact_share, room('studio', 'first-broken').exact_share);
  });

  test('the four-level walk keeps the studio right for longer', () => {
    expectHigher(room('studio', 'four-level').exact_share, room('studio', 'first-broken').exact_share);
    const bias = (logic: string) => Math.abs(at(metrics, logic, 'studio-door').drift_per_100.bias.value!);
    expect(bias('four-level')).toBeLessThan(bias('first-broken'));
  });

  test('nobody sets out from an empty room', () => {
    for (const { unmet_parties } of metrics.doors) expect(unmet_parties).toBe(0);
  });
});
