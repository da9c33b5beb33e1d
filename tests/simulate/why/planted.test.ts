/**
 * Planted causes: doors at which just one thing can go wrong, by how they are built. What the re-simulation calls the
 * cause must be that thing, in at least 99 of 100.
 */
import { describe, expect, test } from 'vitest';
import type { Logic } from '../../../src/counter/logic.js';
import type { Design } from '../../../src/scenario/schema.js';
import type { WhyRecord } from '../../../src/score/why.js';
import { keyOf, whyMetrics } from '../../../src/score/why.js';
import { runReplicate } from '../../../src/simulate/replicate.js';
import { whyRecords } from '../../../src/simulate/why/why.js';
import { ROD, doorDesign } from '../designs.js';

const RODS = '[{ who: rod, kind: through, share: 1 }]';

function explained(design: Design, replicates = 4, outside?: Parameters<typeof whyRecords>[2]) {
  const results = Array.from({ length: replicates }, (_, r) => runReplicate(design, r + 1, {}, { outside }));
  const records = whyRecords({ ...design, replicates }, (r) => results[r - 1]!.wrong, outside);
  const classes = new Map<string, number>();
  for (const { why } of records.flatMap((record) => record.explained))
    classes.set(keyOf(why), (classes.get(keyOf(why)) ?? 0) + 1);
  const wrong = results.flatMap(({ wrong: { all } }) => all.flat()).reduce((a, b) => a + b, 0);
  return { records, classes, wrong, total: [...classes.values()].reduce((a, b) => a + b, 0) };
}

/** How many of the explained are of one class. */
function shareOf({ classes, total }: ReturnType<typeof explained>, key: string): number {
  expect(total).toBeGreaterThanOrEqual(100);
  return (classes.get(key) ?? 0) / total;
}

const long = (design: Design, hours: number, arrivals_per_hour = 60): Design => ({
  ...design,
  hours,
  doors: design.doors.map((door) => ({ ...door, traffic: { ...door.traffic, arrivals_per_hour } })),
});

describe('a planted cause is found', () => {
  // Rods alone past thin beams are always right: what is wrong, spurious breaks made wrong.
  test('a spurious break', () => {
    const sensor = '{ kind: light-barrier, response_ms: 0, spurious_per_hour: 2500, spurious_ms: 30 }';
    const rods = { mix: RODS, walkers: ROD };
    const design = long(doorDesign({ ...rods, sensor }), 4, 12);
    expect(explained(long(doorDesign(rods), 4, 12), 1).wrong).toBe(0);
    const found = explained(design);
    expect(shareOf(found, 'only: noise')).toBeGreaterThanOrEqual(0.99);
    // The other way to ask: the whole run over again with sensors that never err, through none of the same code.
    const quiet = [1, 2, 3, 4].map((r) => runReplicate(long(doorDesign(rods), 4, 12), r, {}).wrong.visits);
    const met = found.records.flatMap(({ explained: all }, r) =>
      all.filter(({ number }) => number !== null && quiet[r]!.some((visit) => visit.number === number)),
    );
    expect(met).toEqual([]);
  });

  test('strays of a ranger, and they are no matter of how often it is read', () => {
    const sensor = '{ kind: time-of-flight-ranger, stray_share: 0.02 }';
    const found = explained(long(doorDesign({ mix: RODS, walkers: ROD, sensor }), 20, 4), 4);
    const strays = found.records.flatMap(({ explained: all }) => all.filter(({ number }) => number === null));
    expect(strays.length).toBeGreaterThanOrEqual(100);
    const noise = strays.filter(({ why }) => keyOf(why) === 'only: noise').length;
    expect(noise / strays.length).toBeGreaterThanOrEqual(0.99);
  });

  // Whoever reaches through stays before the beams but for the arm.
  test('an arm', () => {
    const mix = '[{ who: adult, kind: reach, share: 1 }]';
    const found = explained(long(doorDesign({ mix, height_m: 1.1, logics: '[first-broken]' }), 6));
    expect(shareOf(found, 'only: arms')).toBeGreaterThanOrEqual(0.99);
  });

  // The hold-off is deaf while the second of two comes; at chest height each alone is right.
  test('a second body', () => {
    const mix = '[{ who: adult, kind: close-behind, share: 1 }]';
    const found = explained(
      long(doorDesign({ mix, height_m: 1.25, logics: '[{ use: hold-off, hold_off_ms: 2500 }]' }), 3, 30),
    );
    expect(shareOf(found, 'only: other bodies')).toBeGreaterThanOrEqual(0.99);
  });

  // The state A alone lasts 0.1 s at 1 m/s, and is looked for every 0.25 s.
  test('a gap in the scan', () => {
    const found = explained(long(doorDesign({ mix: RODS, walkers: ROD, poll_ms: 250 }), 3, 20));
    expect(shareOf(found, 'only: scan gaps')).toBeGreaterThanOrEqual(0.99);
    // The other way to ask: the whole run over again with interrupts. Nobody there is wrong but by meeting another.
    const prompt = runReplicate(long(doorDesign({ mix: RODS, walkers: ROD }), 3, 20), 1, {}).wrong.visits;
    const [first] = found.records;
    const gaps = first!.explained.filter(({ why }) => keyOf(why) === 'only: scan gaps');
    const still = gaps.filter(({ number }) => prompt.some((visit) => visit.number === number));
    expect(still).toEqual([]);
  });

  test('a gap in the scan of rangers', () => {
    const design = doorDesign({ mix: RODS, walkers: ROD, sensor: '{ kind: time-of-flight-ranger }' });
    const controllers = design.controllers.map((controller) => ({ ...controller, cycle_ms: 200 }));
    const found = explained({ ...long(design, 4, 20), controllers });
    expect(shareOf(found, 'only: scan gaps')).toBeGreaterThanOrEqual(0.99);
  });
});

describe('where no single thing is to blame', () => {
  /** Right only if it saw the four steps of a walk and nothing else since rest: any two disturbances spoil it. */
  const strict: Logic<string> = {
    name: 'strict',
    latency_us: 0,
    beams: 2,
    defeated_by: 'Anything but a clean walk.',
    initial: () => '',
    step: (seen, { levels }) => {
      const now = `${seen} ${levels.join('')}`.trim();
      if (levels.includes(1)) return { state: now, tallies: [] };
      if (now === '10 11 01 00') return { state: '', tallies: ['forward'] };
      return { state: '', tallies: now === '01 11 10 00' ? ['backward'] : [] };
    },
    label: (seen) => (seen === '' ? 'rest' : seen),
  };
  const outside = () => strict;
  const strictly = (design: Design): Design => ({
    ...design,
    logics: [{ use: 'module', file: 'strict.ts', name: 'strict' }],
  });

  test('two things together are found as a pair, and only where both are there', () => {
    const mix = '[{ who: adult, kind: abreast, share: 1 }]';
    const sensor = '{ kind: light-barrier, response_ms: 0, spurious_per_hour: 4000, spurious_ms: 30 }';
    const design = strictly(long(doorDesign({ mix, sensor, height_m: 1.25, width_m: 1.6 }), 2, 30));
    const { classes, total } = explained(design, 2, outside);
    expect(classes.get('pair: noise,other bodies') ?? 0).toBeGreaterThan(3);
    expect([...classes.keys()].every((key) => !key.startsWith('not reproduced'))).toBe(true);
    // As many as are looked at of one door in a replicate.
    expect(total).toBe(2 * 150);
  });

  test('a body shallower than the spacing is read from the record', () => {
    const thin = '{ rod: { kind: test-rod, diameter_m: 0.06, height_m: 1.8, speed_mps: 1 } }';
    const found = explained(long(doorDesign({ mix: RODS, walkers: thin, spacing_m: 0.12 }), 2, 40), 2);
    expect(shareOf(found, 'structure: shallower than the spacing')).toBeGreaterThan(0.95);
  });

  test('so is one that no beam saw', () => {
    const short = '{ rod: { kind: test-rod, diameter_m: 0.3, height_m: 0.5, speed_mps: 1 } }';
    const found = explained(long(doorDesign({ mix: RODS, walkers: short }), 2, 40), 2);
    expect(shareOf(found, 'structure: beam saw nothing')).toBe(1);
  });

  test('a logic that counts whoever turns back behind both beams has only its rule to blame', () => {
    const mix = '[{ who: adult, kind: turn-back, share: 1 }]';
    const found = explained(long(doorDesign({ mix, height_m: 1.25, logics: '[first-broken]' }), 4), 3);
    expect(shareOf(found, 'structure: rule')).toBeGreaterThan(0.5);
  });
});

describe('the account', () => {
  const design = long(
    doorDesign({
      mix: '[{ who: adult, kind: through, share: 0.6 }, { who: adult, kind: turn-back, share: 0.4 }]',
      logics: '[four-level, first-broken]',
    }),
    3,
  );
  const results = [1, 2, 3].map((number) => runReplicate(design, number, {}));
  const again = () => whyRecords({ ...design, replicates: 3 }, (r) => results[r - 1]!.wrong);
  const records: WhyRecord[] = again();
  const metrics = whyMetrics(
    ['four-level', 'first-broken'],
    ['front'],
    records,
    results.map(({ wrong }) => wrong.all),
    3,
  );

  test('each wrong visit is in exactly one class, and shares sum to one', () => {
    for (const { logic, explained: n, wrong, causes } of metrics) {
      expect(causes.map(({ how }) => how)).not.toContain('not reproduced');
      const l = logic === 'four-level' ? 0 : 1;
      const kept = results.flatMap((result) => result.wrong.visits.filter((one) => one.logic === l));
      expect(n).toBe(wrong);
      expect(wrong).toBe(
        kept.length + results.flatMap((result) => result.wrong.strays.filter((one) => one.logic === l)).length,
      );
      expect(causes.reduce((sum, { share }) => sum + (share.value ?? 0), 0)).toBeCloseTo(1, 12);
      expect(causes.reduce((sum, { explained: one }) => sum + one, 0)).toBe(n);
      // Units of wrong by kind of error are those of the visits.
      const units = causes.reduce((sum, { errors }) => sum + errors.missed + errors.reversed + errors.extra, 0);
      expect(units).toBe(kept.reduce((sum, { missed, reversed, extra }) => sum + missed + reversed + extra, 0));
    }
  });

  test('comes out the same again', () => {
    expect(again()).toEqual(records);
  });

  test('of a replicate where more went wrong than is looked at, those looked at stand for all', () => {
    const MISSED = { missed: 1, reversed: 0, extra: 0, invented: 0 };
    const record: WhyRecord = {
      all: [[10]],
      explained: [
        { door: 0, logic: 0, number: 1, time_us: 1, errors: MISSED, why: { how: 'only', things: ['noise'] } },
        { door: 0, logic: 0, number: 2, time_us: 2, errors: MISSED, why: { how: 'only', things: ['arms'] } },
        { door: 0, logic: 0, number: 3, time_us: 3, errors: MISSED, why: { how: 'only', things: ['arms'] } },
        { door: 0, logic: 0, number: 4, time_us: 4, errors: MISSED, why: { how: 'only', things: ['arms'] } },
      ],
    };
    const [all] = whyMetrics(['l'], ['front'], [record], [record.all], 168);
    expect(all).toMatchObject({ wrong: 10, explained: 4 });
    expect(all!.causes.map(({ things, share, per_week }) => [things, share.value, per_week.value])).toEqual([
      [['arms'], 0.75, 7.5],
      [['noise'], 0.25, 2.5],
    ]);
  });
});
