/**
 * A controller's turns in C99: when which rangers are to be read, and what becomes of their readings. Nothing waits:
 * whoever calls starts the readings and comes back. `door_` and `DOOR_` are renamed where doors are told apart.
 *
 * As in `src/sensors/scan`, all readings of a turn count at one instant, its end. A cycle goes from start to start and is
 * stretched when the turn takes longer; a pause goes from the end of a turn to the start of the next.
 */

/** Into the header, after the switching. */
export const SCAN_TYPES = `/* Whose turn it is, and what has been read in it. */
typedef struct {
    uint32_t from_us;  /* start of the turn under way, or end of the last */
    uint32_t pause_us; /* from there to the next turn */
    int32_t readings_um[DOOR_RANGERS];
    uint8_t turn;
    uint8_t phase;
    door_switch switches[DOOR_RANGERS];
} door_scan;
`;

/** Into the source, after the data: `turns`, `ranger_beams` and `switchings`. */
export const SCAN_SOURCE = `#define DOOR_PAUSED 0
#define DOOR_DUE 1
#define DOOR_UNDER_WAY 2

static void start_scan(door_scan *scan, uint32_t now_us)
{
    uint8_t i;
    scan->from_us = now_us;
    scan->pause_us = 0;
    scan->turn = 0;
    scan->phase = DOOR_DUE;
    for (i = 0; i < DOOR_RANGERS; i++) {
        scan->readings_um[i] = DOOR_NO_ECHO;
        start_switch(&switchings[i], &scan->switches[i]);
    }
}

/* Notes in time what is over: the clock wraps. */
static void watch_scan(door_scan *scan, uint32_t now_us)
{
    uint8_t i;
    if (scan->phase == DOOR_PAUSED && (uint32_t)(now_us - scan->from_us) >= scan->pause_us) {
        scan->phase = DOOR_DUE;
    }
    for (i = 0; i < DOOR_RANGERS; i++) {
        watch_delay(&switchings[i], &scan->switches[i], now_us);
    }
}

/* The rangers to be read now, as a set of beams; none while nothing is due. */
static uint8_t begin_turn(door_scan *scan, uint32_t now_us)
{
    uint8_t i;
    if (scan->phase != DOOR_DUE) {
        return 0;
    }
    for (i = 0; i < DOOR_RANGERS; i++) {
        scan->readings_um[i] = DOOR_NO_ECHO;
    }
    scan->from_us = now_us;
    scan->phase = DOOR_UNDER_WAY;
    return turns[scan->turn].beams;
}

/* All that was read in the turn is looked at. Takes the levels of all beams and gives back those that follow. */
static uint8_t end_turn(door_scan *scan, uint32_t now_us, uint8_t levels)
{
    const door_turn_data *turn = &turns[scan->turn];
    const uint32_t gone_us = now_us - scan->from_us;
    uint8_t i;
    if (scan->phase != DOOR_UNDER_WAY) {
        return levels;
    }
    for (i = 0; i < DOOR_RANGERS; i++) {
        const uint8_t beam = (uint8_t)(1u << ranger_beams[i]);
        if (turn->beams & beam) {
            read_switch(&switchings[i], &scan->switches[i], now_us, scan->readings_um[i]);
            levels = (uint8_t)(scan->switches[i].level ? levels | beam : levels & ~beam);
        }
    }
    scan->pause_us = turn->pause_us + (turn->cycle_us > gone_us ? turn->cycle_us - gone_us : 0);
    scan->from_us = now_us;
    scan->phase = DOOR_PAUSED;
    scan->turn = (uint8_t)(scan->turn + 1);
    if (scan->turn == DOOR_TURNS) {
        scan->turn = 0;
    }
    return levels;
}
`;

/** Before the data that {@link SCAN_SOURCE} reads. */
export const TURN_TYPE = `/* A turn: rangers that are read together, from start to start, and from its end to the next. */
typedef struct {
    uint8_t beams;
    uint32_t cycle_us;
    uint32_t pause_us;
} door_turn_data;
`;
