/** The header: what a program that counts at one door can call. */
import { MACHINE_TYPES } from '../../counter/c99/machine.js';
import { SCAN_TYPES } from '../../sensors/c99/scan.js';
import { learnReadings } from '../../sensors/c99/switch-data.js';
import { SWITCH_TYPES } from '../../sensors/c99/switch.js';
import { VERSION } from '../version.js';
import type { FirmwarePlan } from './plan.js';

export function headerText(plan: FirmwarePlan): string {
  const { rangers, barriers, poll_us, beams } = plan;
  const parts = [
    `/*
 * Counts people at one doorway. Made by jambeam ${VERSION}; README.md says how to call it.
 *
 * Times are microseconds of a clock that may wrap. Some function that takes the time has to be called at least every
 * 30 minutes. None of them waits; none may interrupt another.
 */
#ifndef DOOR_H
#define DOOR_H

#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Beams of the door. In a set of beams bit i is beam i. */
#define DOOR_BEAMS ${beams}
`,
    barriers !== 0 && `/* Its light barriers, as a set of beams. */\n#define DOOR_BARRIERS ${barriers}u\n`,
    barriers !== 0 && poll_us !== null && `/* How often they are to be read. */\n#define DOOR_POLL_US ${poll_us}UL\n`,
    `/* No timeout runs. */\n#define DOOR_NEVER 0xffffffffUL\n`,
    rangers.length > 0 && rangerParts(plan),
    MACHINE_TYPES,
    rangers.length > 0 && SWITCH_TYPES,
    rangers.length > 0 && SCAN_TYPES,
    `/* All that is remembered of the door. Make one of it, static, and leave its inside alone. */
typedef struct {
    door_moment moment;
${rangers.length > 0 ? '    door_scan scan;\n' : ''}} door_counter;
`,
    `/* Before everything else: nothing is counted, all beams are taken for clear. */
void door_start(door_counter *door, uint32_t now_us);
`,
    barriers !== 0 &&
      `/* The light barriers as they are: a set of beams, those that are broken. Other bits are left aside. */
door_tallies door_levels(door_counter *door, uint32_t now_us, uint8_t broken);
`,
    rangers.length > 0 && RANGER_CALLS,
    `/* Lets time pass: timeouts that are due may count. */
door_tallies door_tick(door_counter *door, uint32_t now_us);

/* Microseconds until a timeout is due, 0 if it is, DOOR_NEVER if none runs: how long one may sleep. */
uint32_t door_wait_us(const door_counter *door, uint32_t now_us);

/* The beams that were broken at the last call, as a set. */
uint8_t door_broken(const door_counter *door);
`,
    `#ifdef __cplusplus
}
#endif

#endif
`,
  ];
  return parts.filter((part) => part !== false).join('\n');
}

function rangerParts({ rangers, turns, time_out_us }: FirmwarePlan): string {
  const settings = rangers.map(({ sensor }) => sensor.switching);
  return `#define DOOR_RANGERS ${rangers.length}
#define DOOR_TURNS ${turns.length}
#define DOOR_WINDOW ${Math.max(...settings.map(({ median_of }) => median_of))}
#define DOOR_LEARN ${Math.max(1, ...settings.map(learnReadings))}

/* A ranger that has not answered for so long has no echo. */
#define DOOR_TIME_OUT_US ${time_out_us}UL

/* A reading without echo. Others are whole micrometres. */
#define DOOR_NO_ECHO (-1L)
`;
}

const RANGER_CALLS = `/* Begins a turn if one is due: gives back the beams whose rangers are to be read now, otherwise 0. */
uint8_t door_turn(door_counter *door, uint32_t now_us);

/* What one ranger of the turn says: micrometres or DOOR_NO_ECHO. What isn't given by the turn's end had no echo. */
void door_reading(door_counter *door, uint8_t beam, int32_t distance_um);

/* Ends the turn: all its readings are looked at, as at this instant. */
door_tallies door_turn_done(door_counter *door, uint32_t now_us);
`;
