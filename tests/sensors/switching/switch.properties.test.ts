/** The switch against a reference that keeps every reading and looks back over all of them, each time anew. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { NO_ECHO } from '../../../src/sensors/ranger.js';
import { type SwitchingSettings, switchingSchema } from '../../../src/sensors/switching/schema.js';
import { Switch } from '../../../src/sensors/switching/switch.js';
import { FARTHEST_UM } from './readings.js';

interface Taken {
  readonly time_us: number;
  readonly um: number;
}

interface Told {
  level: number;
  background: number;
  changed: boolean;
}

const middle = (numbers: readonly number[]): number =>
  numbers.toSorted((a, b) => (a < b ? -1 : a > b ? 1 : 0))[Math.ceil((numbers.length - 1) / 2)]!;

/** What a sequence of readings comes to, from the meaning of the settings. */
function lookBack(settings: SwitchingSettings, taken: readonly Taken[]): Told[] {
  const told: Told[] = [];
  const learnt = settings.nearer_than_m === undefined ? settings.learn_readings : 0;
  const value = (um: number) => (um === NO_ECHO ? (settings.no_echo === 'broken' ? -Infinity : Infinity) : um);
  const windowAt = (end: number) =>
    taken
      .slice(0, end)
      .filter(({ um }) => um !== NO_ECHO || settings.no_echo !== 'keep')
      .slice(-settings.median_of)
      .map(({ um }) => value(um));

  const firsts = taken.slice(0, learnt).map(({ um }) => (um === NO_ECHO ? FARTHEST_UM : um));
  let background = learnt > 0 && taken.length >= learnt ? middle(firsts) : FARTHEST_UM;
  let level = 0;
  /** Since the level last changed: when, and whether it spoke for the other level. */
  let since: { time_us: number; other: boolean }[] = [];
  const trailing = () => since.slice(since.findLastIndex(({ other }) => !other) + 1);
  const state = (end: number) => JSON.stringify([level, background, windowAt(end).map(String), trailing().length > 0]);

  for (const [index, { time_us, um }] of taken.entries()) {
    if (index < learnt) {
      told.push({ level: 0, background: index === learnt - 1 ? background : FARTHEST_UM, changed: true });
      continue;
    }
    const before = state(index);
    const ran = level === 0 ? trailing().length : 0;
    if (um !== NO_ECHO || settings.no_echo !== 'keep') {
      const seen = middle(windowAt(index + 1));
      const point = Math.round((settings.nearer_than_m ?? background / 1e6 - settings.margin_m) * 1e6);
      const clear = seen >= point + (level === 1 ? Math.round(settings.hysteresis_m * 1e6) : 0);
      since.push({ time_us, other: clear === (level === 1) });
      const run = trailing();
      const turns =
        level === 0
          ? run.length >= settings.minimum_samples
          : run.length > 0 && run.at(-1)!.time_us - run[0]!.time_us >= settings.off_delay_ms * 1000;
      if (turns) {
        level = 1 - level;
        since = [];
      }
      const towards = um === NO_ECHO ? (settings.no_echo === 'clear' ? FARTHEST_UM : background) : um;
      if (level === 0 && learnt > 0) {
        const step = Math.min(settings.follow_um, Math.abs(towards - background));
        background += Math.sign(towards - background) * step;
      }
    }
    const runs = level === 0 ? trailing().length : 0;
    const ignored = um === NO_ECHO && settings.no_echo === 'keep';
    const pending = level === 1 && trailing().length > 0 && !ignored;
    told.push({ level, background, changed: pending || runs !== ran || state(index + 1) !== before });
  }
  return told;
}

const millimetres = (min: number, max: number) => fc.integer({ min, max }).map((mm) => mm / 1000);

const settingsOf = fc
  .record({
    nearer_than_m: fc.option(millimetres(200, 500), { nil: undefined }),
    margin_m: millimetres(5, 300),
    hysteresis_m: fc.oneof(fc.constant(0), millimetres(0, 200)),
    median_of: fc.integer({ min: 1, max: 7 }),
    minimum_samples: fc.integer({ min: 1, max: 4 }),
    off_delay_ms: fc.constantFrom(0, 7, 20, 33.5),
    no_echo: fc.constantFrom('clear', 'broken', 'keep'),
    learn_readings: fc.integer({ min: 1, max: 6 }),
    follow_um: fc.constantFrom(0, 130, 1000, 10_000),
  })
  .map((settings) => switchingSchema.parse(settings));

const distance = fc.oneof(
  fc.constant(NO_ECHO),
  fc.constantFrom(300_000, 450_000, 600_000),
  fc.integer({ min: 0, max: 800_000 }),
);

/** Readings often repeated, and a time between two of them. */
const sequence = fc
  .array(fc.tuple(distance, fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 12_000 })), { maxLength: 20 })
  .map((pieces) => {
    let time_us = 0;
    return pieces.flatMap(([um, times, gap_us]) =>
      Array.from({ length: times }, (): Taken => ({ time_us: (time_us += gap_us), um })),
    );
  });

test('level, background and whether anything has changed are what looking back over all readings gives', () => {
  fc.assert(
    fc.property(settingsOf, sequence, (settings, taken) => {
      const own = new Switch(settings, FARTHEST_UM);
      const told = taken.map(({ time_us, um }): Told => {
        const changed = own.reading(time_us, um);
        return { level: own.level, background: own.background_um, changed };
      });
      expect(told).toEqual(lookBack(settings, taken));
    }),
    { numRuns: 1000, seed: 1 },
  );
});

test('whatever came before, a constant reading comes to rest, and stays there however long', () => {
  fc.assert(
    fc.property(
      settingsOf,
      sequence,
      distance,
      fc.integer({ min: 500, max: 50_000 }),
      (settings, taken, um, gap_us) => {
        const own = new Switch(settings, FARTHEST_UM);
        for (const { time_us, um: earlier } of taken) own.reading(time_us, earlier);
        let time_us = taken.at(-1)?.time_us ?? 0;
        const followed = settings.follow_um === 0 ? 0 : Math.ceil(FARTHEST_UM / settings.follow_um);
        const delayed = Math.ceil((settings.off_delay_ms * 1000) / gap_us);
        const enough = settings.learn_readings + settings.median_of + settings.minimum_samples + delayed + followed + 3;
        let readings = 0;
        while (own.reading((time_us += gap_us), um)) {
          if (readings++ >= enough) throw new Error(`still changing after ${enough} readings`);
        }

        const { level, background_um } = own;
        const follows = settings.nearer_than_m === undefined && settings.follow_um > 0 && um !== NO_ECHO;
        if (level === 0 && follows) expect(background_um).toBe(um);
        for (let more = 0; more < 40; more++) {
          expect(own.reading((time_us += gap_us * (1 + more * more * 1000)), um)).toBe(false);
        }
        expect(own.level).toBe(level);
        expect(own.background_um).toBe(background_um);
      },
    ),
    { numRuns: 400, seed: 2 },
  );
});

test('at rest, readings that were jumped over are as good as taken: what comes next is told the same', () => {
  fc.assert(
    fc.property(settingsOf, distance, fc.integer({ min: 1, max: 30 }), sequence, (settings, idle, skipped, later) => {
      const [takes, jumps] = [new Switch(settings, FARTHEST_UM), new Switch(settings, FARTHEST_UM)];
      let time_us = 0;
      while (takes.reading(time_us, idle)) {
        jumps.reading(time_us, idle);
        time_us += 10_000;
      }
      jumps.reading(time_us, idle);
      for (let more = 0; more < skipped; more++) takes.reading((time_us += 10_000), idle);
      for (const { time_us: after_us, um } of later) {
        expect(takes.reading(time_us + after_us, um)).toBe(jumps.reading(time_us + after_us, um));
        expect([takes.level, takes.background_um]).toEqual([jumps.level, jumps.background_um]);
      }
    }),
    { numRuns: 300, seed: 3 },
  );
});

test('everything inside stays a whole number of 32 bits', () => {
  const whole = (value: unknown): boolean => typeof value !== 'number' || value === (value | 0);
  fc.assert(
    fc.property(settingsOf, sequence, (settings, taken) => {
      const own = new Switch(settings, FARTHEST_UM);
      for (const { time_us, um } of taken) {
        own.reading(time_us, um);
        expect(Object.values(own).every(whole)).toBe(true);
      }
    }),
    { numRuns: 100, seed: 4 },
  );
});
