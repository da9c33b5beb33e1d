/** A program for the builder's own computer: plays the file of test vectors and compares. */
import type { FirmwarePlan } from './plan.js';

export function testProgramText({ rangers, barriers }: FirmwarePlan): string {
  const [hasRangers, hasBarriers] = [rangers.length > 0, barriers !== 0];
  return PROGRAM.replace('@LEVELS@', hasBarriers ? LEVELS : '')
    .replace('@TURNS@', hasRangers ? TURNS : '')
    .replace('@LINES@', hasRangers || hasBarriers ? LINES : '');
}

const LINES = `
 *   L time broken forward backward   door_levels(), what it gives back
 *   U time beams                     door_turn()
 *   R beam distance                  door_reading()
 *   D time broken forward backward   door_turn_done(), beams that are broken then
`.trimEnd();

const LEVELS = `        case 'L':
            same = count == 4 && tallied(door_levels(&door, (uint32_t)n[0], (uint8_t)n[1]), n[2], n[3]);
            break;
`;

const TURNS = `        case 'U':
            same = count == 2 && door_turn(&door, (uint32_t)n[0]) == (uint8_t)n[1];
            break;
        case 'R':
            same = count == 2;
            door_reading(&door, (uint8_t)n[0], (int32_t)n[1]);
            break;
        case 'D':
            same = count == 4 && tallied(door_turn_done(&door, (uint32_t)n[0]), n[2], n[3]);
            same = same && door_broken(&door) == (uint8_t)n[1];
            break;
`;

const PROGRAM = `/*
 * Plays a file of test vectors through the counter and compares what comes out. For a computer, not for the controller:
 *
 *   cc -std=c99 door_.c door__test.c -o door__test && ./door__test door__test.txt
 *
 * Each line is a call and what is expected of it:
 *
 *   S time                           door_start()@LINES@
 *   T time forward backward wait     door_tick(), then door_wait_us()
 */
#include <stdio.h>
#include <string.h>

#include "door_.h"

#define DIFFERENCES_SHOWN 10

static int tallied(door_tallies tallies, long long forward, long long backward)
{
    return tallies.forward == forward && tallies.backward == backward;
}

int main(int argc, char *argv[])
{
    static door_counter door;
    char line[128];
    long number = 0;
    long calls = 0;
    long different = 0;
    FILE *file = argc == 2 ? fopen(argv[1], "r") : NULL;
    if (file == NULL) {
        fprintf(stderr, "usage: door__test door__test.txt\\n");
        return 2;
    }
    while (fgets(line, sizeof line, file) != NULL) {
        long long n[4] = {0, 0, 0, 0};
        char call = 0;
        int same = 0;
        const int count = sscanf(line, " %c %lld %lld %lld %lld", &call, &n[0], &n[1], &n[2], &n[3]) - 1;
        number++;
        if (count < 0 || call == '#') {
            continue;
        }
        calls++;
        switch (call) {
        case 'S':
            same = count == 1;
            door_start(&door, (uint32_t)n[0]);
            break;
@LEVELS@@TURNS@        case 'T':
            same = count == 4 && tallied(door_tick(&door, (uint32_t)n[0]), n[1], n[2]);
            same = same && door_wait_us(&door, (uint32_t)n[0]) == (uint32_t)n[3];
            break;
        default:
            break;
        }
        if (!same && different++ < DIFFERENCES_SHOWN) {
            line[strcspn(line, "\\r\\n")] = 0;
            printf("line %ld: not as expected: %s\\n", number, line);
        }
    }
    fclose(file);
    if (calls == 0) {
        fprintf(stderr, "the file holds no calls\\n");
        return 2;
    }
    printf("%ld calls, %ld not as expected\\n", calls, different);
    return different == 0 ? 0 : 1;
}
`;
