/** A whole program around a door's counter, in plain C: everything but the hooks that only the builder can write. */
import type { FirmwarePlan } from '../simulate/firmware/plan.js';

export function exampleMain({ barriers, rangers, poll_us }: FirmwarePlan): string {
  const [hasBarriers, hasRangers] = [barriers !== 0, rangers.length > 0];
  const polled = poll_us !== null;
  const parts = [
    '#include "door_.h"\n',
    `/* Yours: a clock of microseconds that wraps to 0 after 4294967295. */\nextern uint32_t clock_us(void);\n`,
    hasBarriers &&
      `/* Yours: 1 while the beam of this light barrier is broken, 0 while it is clear. */\nextern uint8_t is_broken(uint8_t beam);\n`,
    hasRangers &&
      `/* Yours: starts a reading; whether it has come; its micrometres, or DOOR_NO_ECHO. */
extern void start_reading(uint8_t beam);
extern uint8_t reading_has_come(uint8_t beam);
extern int32_t reading_um(uint8_t beam);
`,
    `/* Yours: shows or sends the count. */\nextern void show(long people);\n`,
    `static door_counter door;\nstatic long people = 0;\n${
      hasRangers ? 'static uint8_t under_way = 0;\nstatic uint8_t awaited = 0;\nstatic uint32_t started_us = 0;\n' : ''
    }${hasBarriers && polled ? 'static uint32_t polled_us = 0;\n' : ''}`,
    COUNT,
    hasBarriers && LEVELS,
    hasRangers && RANGERS,
    `void setup(void)
{
    door_start(&door, clock_us());
}

void loop(void)
{
${loopBody(hasBarriers, hasRangers, polled)}}
`,
  ];
  return parts.filter((part) => part !== false).join('\n');
}

function loopBody(barriers: boolean, rangers: boolean, polled: boolean): string {
  const levels = polled
    ? `    if (clock_us() - polled_us >= DOOR_POLL_US) {
        polled_us = clock_us();
        look_at_barriers();
    }
`
    : '    look_at_barriers();\n';
  const tick = '    count(door_tick(&door, clock_us()));\n';
  return `${barriers ? levels : ''}${rangers ? '    look_at_rangers();\n' : ''}${rangers || polled ? tick : ''}`;
}

const COUNT = `static void count(door_tallies tallies)
{
    if (tallies.forward == 0 && tallies.backward == 0) {
        return;
    }
    people += tallies.forward;
    people -= tallies.backward;
    if (people < 0) {
        people = 0;
    }
    show(people);
}
`;

const LEVELS = `static void look_at_barriers(void)
{
    uint8_t broken = 0;
    uint8_t beam;
    for (beam = 0; beam < DOOR_BEAMS; beam++) {
        if (((DOOR_BARRIERS >> beam) & 1) && is_broken(beam)) {
            broken = (uint8_t)(broken | (1u << beam));
        }
    }
    count(door_levels(&door, clock_us(), broken));
}
`;

const RANGERS = `static void look_at_rangers(void)
{
    uint8_t beam;
    if (!under_way) {
        awaited = door_turn(&door, clock_us());
        if (awaited == 0) {
            return; /* no turn is due */
        }
        under_way = 1;
        started_us = clock_us();
        for (beam = 0; beam < DOOR_BEAMS; beam++) {
            if ((awaited >> beam) & 1) {
                start_reading(beam);
            }
        }
    }
    for (beam = 0; beam < DOOR_BEAMS; beam++) {
        if (((awaited >> beam) & 1) && reading_has_come(beam)) {
            door_reading(&door, beam, reading_um(beam));
            awaited = (uint8_t)(awaited & ~(1u << beam));
        }
    }
    if (awaited == 0 || clock_us() - started_us >= DOOR_TIME_OUT_US) {
        under_way = 0;
        count(door_turn_done(&door, clock_us()));
    }
}
`;
