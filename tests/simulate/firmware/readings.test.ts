/** What rangers say in a simulated run, put through turns, switching and table in C, makes the edges and tallies of the run. */
import { describe, expect, test } from 'vitest';
import { tableOf } from '../../../src/counter/table-of.js';
import { firmwareOf } from '../../../src/simulate/firmware/firmware.js';
import { NO_COMPILERS, compile, folderOf, play } from '../../c-compilers.js';
import { designOf, filesOf } from './doors.js';
import { plainRun } from '../plain-run.js';

/**
 * Reads `TIME BEAM UM`, a reading each. Turns whose reading isn't told had the reading before, for a run tells of no other
 * sort; with these settings that changes nothing.
 */
const MAIN = `#include <stdio.h>
#include "door1.h"

static door1_counter door;
static unsigned before = 0;

static void told(unsigned long long time_us, door1_tallies tallies)
{
    const unsigned changed = before ^ door1_broken(&door);
    unsigned beam;
    before ^= changed;
    for (beam = 0; beam < DOOR1_BEAMS; beam++) {
        if ((changed >> beam) & 1) {
            printf("%llu beam %u %u\\n", time_us, beam, (before >> beam) & 1);
        }
    }
    for (; tallies.forward > 0; tallies.forward--) {
        printf("%llu forward\\n", time_us);
    }
    for (; tallies.backward > 0; tallies.backward--) {
        printf("%llu backward\\n", time_us);
    }
}

int main(void)
{
    long last_um[DOOR1_BEAMS] = {DOOR1_NO_ECHO, DOOR1_NO_ECHO};
    unsigned long long time_us;
    unsigned beam;
    long um;
    door1_start(&door, 0);
    while (scanf("%llu %u %ld", &time_us, &beam, &um) == 3) {
        const uint32_t now_us = (uint32_t)time_us;
        unsigned due = 0;
        last_um[beam] = um;
        while (!((due >> beam) & 1)) {
            unsigned one;
            due = door1_turn(&door, now_us);
            for (one = 0; one < DOOR1_BEAMS; one++) {
                if ((due >> one) & 1) {
                    door1_reading(&door, (uint8_t)one, (int32_t)last_um[one]);
                }
            }
            told(time_us, door1_turn_done(&door, now_us));
        }
    }
    return 0;
}
`;

describe.skipIf(NO_COMPILERS)('readings of a run', () => {
  test.each([
    ['as they are: gcc', 'gcc', []],
    ['two near ones in a row to break: clang', 'clang', ['sensors.sound.switching.minimum_samples=2']],
  ] as const)('%s', (_, compiler, sets) => {
    // A switching point well before the jamb.
    const room = 'sensors.sound.switching.nearer_than_m=0.75';
    const choice = { scenario: 'switch-on-a-hot-day', sets: [room, ...sets] };
    const design = { ...designOf(choice), replicates: 1, hours: 3 };
    const readings: string[] = [];
    const edges: string[] = [];
    const tallies: string[] = [];
    plainRun(design, {
      reading: (_replicate, { time_us, beam, distance_um }) => readings.push(`${time_us} ${beam} ${distance_um}\n`),
      edge: (_replicate, { time_us, beam, level }) => edges.push(`${time_us} beam ${beam} ${level}`),
      tally: (_replicate, { time_us, logic, direction }) => {
        if (logic === 0) tallies.push(`${time_us} ${direction}`);
      },
    });
    for (const direction of ['forward', 'backward'])
      expect(tallies.filter((line) => line.endsWith(direction)).length).toBeGreaterThan(10);

    const firmware = firmwareOf(design, design.doors[0]!, tableOf(design.logics[0]!, design.tables)!, 10);
    // The readings' own instants are the pace: each turn is due at once.
    const source = firmware.texts.source.replace(/(\{[12], )\d+UL, \d+UL\}/g, '$10UL, 0UL}');
    const folder = folderOf({ ...filesOf(firmware), [firmware.names.source]: source, 'main.c': MAIN });
    const { lines, status } = play(compile(compiler, folder, ['door1.c', 'main.c']), [], readings.join(''));
    expect(status).toBe(0);
    expect(lines.filter((line) => line.includes('beam'))).toEqual(edges);
    expect(lines.filter((line) => !line.includes('beam'))).toEqual(tallies);
  });
});
