/** The source: table, switching and turns of one door as constants, and the fixed code that walks them. */
import { tableData } from '../../counter/c99/table-data.js';
import { MACHINE_SOURCE } from '../../counter/c99/machine.js';
import { c32, cArray } from '../../engine/c-array.js';
import { SCAN_SOURCE, TURN_TYPE } from '../../sensors/c99/scan.js';
import { switchData } from '../../sensors/c99/switch-data.js';
import { SWITCH_SOURCE } from '../../sensors/c99/switch.js';
import { VERSION } from '../version.js';
import type { FirmwarePlan } from './plan.js';

export function sourceText(plan: FirmwarePlan): string {
  const { table, rangers, barriers } = plan;
  const parts = [
    `/* Counts people at one doorway. Made by jambeam ${VERSION}; README.md says how to call it. */\n#include "door_.h"\n`,
    MACHINE_SOURCE,
    tableData(table, 'states'),
    rangers.length > 0 && rangerSource(plan),
    rangers.length > 0 ? STEP_WITH_RANGERS : STEP,
    barriers !== 0 && LEVELS,
    rangers.length > 0 && RANGER_CALLS,
    COMMON,
  ];
  return parts.filter((part) => part !== false).join('\n');
}

function rangerSource({ rangers, turns }: FirmwarePlan): string {
  return [
    SWITCH_SOURCE,
    cArray(
      'uint8_t',
      'ranger_beams',
      rangers.map(({ index }) => String(index)),
    ),
    `static const door_switching switchings[DOOR_RANGERS] = {\n${rangers
      .map(({ sensor }) => `    ${switchData(sensor)},\n`)
      .join('')}};\n`,
    TURN_TYPE,
    `static const door_turn_data turns[DOOR_TURNS] = {\n${turns
      .map(({ beams, cycle_us, pause_us }) => `    {${beams}, ${c32(cycle_us)}, ${c32(pause_us)}},\n`)
      .join('')}};\n`,
    SCAN_SOURCE,
  ].join('\n');
}

const STEP = `static door_tallies step_door(door_counter *door, uint32_t now_us, uint8_t levels)
{
    door_tallies sum = {0, 0};
    step_table(&states, &door->moment, now_us, levels, &sum);
    return sum;
}

void door_start(door_counter *door, uint32_t now_us)
{
    start_table(&states, &door->moment, now_us);
}
`;

const STEP_WITH_RANGERS = `static door_tallies step_door(door_counter *door, uint32_t now_us, uint8_t levels)
{
    door_tallies sum = {0, 0};
    watch_scan(&door->scan, now_us);
    step_table(&states, &door->moment, now_us, levels, &sum);
    return sum;
}

void door_start(door_counter *door, uint32_t now_us)
{
    start_table(&states, &door->moment, now_us);
    start_scan(&door->scan, now_us);
}
`;

const LEVELS = `door_tallies door_levels(door_counter *door, uint32_t now_us, uint8_t broken)
{
    const uint8_t others = (uint8_t)(door->moment.levels & ~DOOR_BARRIERS);
    return step_door(door, now_us, (uint8_t)(others | (broken & DOOR_BARRIERS)));
}
`;

const RANGER_CALLS = `uint8_t door_turn(door_counter *door, uint32_t now_us)
{
    watch_scan(&door->scan, now_us);
    return begin_turn(&door->scan, now_us);
}

void door_reading(door_counter *door, uint8_t beam, int32_t distance_um)
{
    uint8_t i;
    for (i = 0; i < DOOR_RANGERS; i++) {
        if (ranger_beams[i] == beam) {
            door->scan.readings_um[i] = distance_um;
        }
    }
}

door_tallies door_turn_done(door_counter *door, uint32_t now_us)
{
    return step_door(door, now_us, end_turn(&door->scan, now_us, door->moment.levels));
}
`;

const COMMON = `door_tallies door_tick(door_counter *door, uint32_t now_us)
{
    return step_door(door, now_us, door->moment.levels);
}

uint32_t door_wait_us(const door_counter *door, uint32_t now_us)
{
    return table_wait_us(&states, &door->moment, now_us);
}

uint8_t door_broken(const door_counter *door)
{
    return door->moment.levels;
}
`;
