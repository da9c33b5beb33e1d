/** Switching in C says of every reading what the switch here says: level and background, on random settings. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SWITCH_SOURCE, SWITCH_TYPES } from '../../../src/sensors/c99/switch.js';
import { switchData } from '../../../src/sensors/c99/switch-data.js';
import { NO_ECHO } from '../../../src/sensors/ranger.js';
import { switchingSchema } from '../../../src/sensors/switching/schema.js';
import { Switch } from '../../../src/sensors/switching/switch.js';
import { Stream } from '../../../src/engine/stream.js';
import { NO_COMPILERS, compile, folderOf, play } from '../../c-compilers.js';
import { howMany } from '../../how-many.js';

const WRAP = 4_294_967_296;
const START = WRAP - 3_000_000;
const MINUTE_US = 60_000_000;

const millimetres = (min: number, max: number) => fc.integer({ min, max }).map((mm) => mm / 1000);

/** Settings at random over their whole ranges, more often small. */
const sensor = fc.record({
  range_m: fc.constantFrom(0.8, 4, 20),
  switching: fc
    .record({
      nearer_than_m: fc.option(millimetres(10, 900), { nil: undefined }),
      margin_m: fc.oneof(millimetres(5, 300), fc.constant(5)),
      hysteresis_m: fc.oneof(fc.constant(0), millimetres(0, 200), fc.constant(5)),
      median_of: fc.integer({ min: 1, max: 15 }),
      minimum_samples: fc.oneof(fc.integer({ min: 1, max: 4 }), fc.constant(50)),
      off_delay_ms: fc.constantFrom(0, 7, 33.5, 500, 60_000),
      no_echo: fc.constantFrom('clear', 'broken', 'keep'),
      learn_readings: fc.oneof(fc.integer({ min: 1, max: 20 }), fc.constant(1000)),
      follow_um: fc.constantFrom(0, 20, 1000, 10_000),
    })
    .map((settings) => switchingSchema.parse(settings)),
});

type Taken = { readonly time_us: number; readonly um: number | null };

/**
 * Readings that dwell near or far, with strays and silence among them, 1 µs to 70 ms apart; at times none for 80 minutes
 * (`um` null: only the time is told, every 30 minutes at most).
 */
function readings(range_m: number, n: number, stream: Stream): Taken[] {
  const taken: Taken[] = [];
  const far_um = Math.round(range_m * 1e6);
  let [time_us, level_um, kept] = [0, far_um / 2, 0];
  for (let i = 0; taken.length < n; i++) {
    const draw = (k: number): number => stream.at(5 * i + k);
    if (draw(0) < 0.001) {
      for (const minutes of [30, 30, 20]) taken.push({ time_us: (time_us += minutes * MINUTE_US), um: null });
      continue;
    }
    if (kept-- <= 0) {
      kept = Math.floor(draw(1) * 30);
      level_um = draw(2) < 0.5 ? far_um / 2 : draw(2) * 0.4 * far_um;
    }
    const kind = draw(3);
    const um =
      kind < 0.06 ? NO_ECHO : kind < 0.12 ? Math.floor(draw(4) * far_um) : Math.round(level_um + draw(4) * 20_000);
    taken.push({ time_us: (time_us += 1 + Math.floor(draw(4) * 70_000)), um });
  }
  return taken;
}

/** Reads `s SETTINGS 0` (begin), `r TIME UM` and `t TIME 0`; prints level and background after each reading. */
const driver = (settings: readonly string[]): string => `#include <stdint.h>
#include <stdio.h>
#define DOOR_WINDOW 15
#define DOOR_LEARN 1000
${SWITCH_TYPES}${SWITCH_SOURCE}
static const door_switching all[] = {
${settings.map((one) => `    ${one},\n`).join('')}};

int main(void)
{
    static door_switch beam;
    const door_switching *is = all;
    char what;
    unsigned long a;
    long b;
    while (scanf(" %c %lu %ld", &what, &a, &b) == 3) {
        if (what == 's') {
            is = &all[a];
            start_switch(is, &beam);
        } else if (what == 't') {
            watch_delay(is, &beam, (uint32_t)a);
        } else {
            read_switch(is, &beam, (uint32_t)a, (int32_t)b);
            printf("%u %ld\\n", beam.level, (long)beam.background_um);
        }
    }
    return 0;
}
`;

describe.skipIf(NO_COMPILERS)('switching in C', () => {
  const READINGS = howMany(3000, 30_000);
  const sensors = fc.sample(sensor, { numRuns: 60, seed: 51 });

  test.each(['gcc', 'clang'] as const)(`${sensors.length} settings, ${READINGS} readings each: %s`, (compiler) => {
    const stream = Stream.root('switching').child(compiler);
    const all = sensors.map((one, i) => readings(one.range_m, READINGS, stream.nth(i)));
    const input = all.map((taken, i) => {
      const lines = taken.map(({ time_us, um }) => {
        const clock = (START + time_us) % WRAP;
        return um === null ? `t ${clock} 0\n` : `r ${clock} ${um}\n`;
      });
      return `s ${i} 0\n${lines.join('')}`;
    });
    let broken = 0;
    const wanted = sensors.flatMap((one, i) => {
      const own = new Switch(one.switching, Math.round(one.range_m * 1e6));
      return all[i]!.filter(({ um }) => um !== null).map(({ time_us, um }) => {
        own.reading(time_us, um!);
        broken += own.level;
        return `${own.level} ${own.background_um}`;
      });
    });
    // Both levels are seen often.
    expect(broken).toBeGreaterThan(wanted.length / 10);
    expect(broken).toBeLessThan((wanted.length * 9) / 10);

    const folder = folderOf({ 'switch.c': driver(sensors.map(switchData)) });
    const program = compile(compiler, folder, ['switch.c'], ['-O1', '-Wconversion', '-Wshadow']);
    const { lines, status } = play(program, [], input.join(''));
    expect({ status, told: lines.length }).toEqual({ status: 0, told: wanted.length });
    const different = lines.findIndex((line, i) => line !== wanted[i]);
    expect(lines.slice(different, different + 3)).toEqual(wanted.slice(different, different + 3));
    expect(different).toBe(-1);
  });

  test('readings beyond all reason overflow nothing', () => {
    const settings = switchingSchema.parse({ margin_m: 0.005, hysteresis_m: 5, learn_readings: 1, follow_um: 10_000 });
    const folder = folderOf({ 'switch.c': driver([switchData({ switching: settings, range_m: 20 })]) });
    const program = compile('gcc', folder, ['switch.c'], ['-fsanitize=undefined', '-fno-sanitize-recover=all']);
    const wild = [2_147_483_647, 0, 2_147_483_647, -2_147_483_648, 0, 2_147_483_647];
    const { status, lines } = play(program, [], `s 0 0\n${wild.map((um, i) => `r ${i} ${um}\n`).join('')}`);
    expect({ status, told: lines.length }).toEqual({ status: 0, told: wild.length });
  });
});
