/**
 * The table machine in C99, the counterpart of `src/counter/table/machine.ts`: the same flat tables, walked in the same
 * order. Written once, for any table; `door_` and `DOOR_` are renamed where doors are told apart.
 *
 * Times are `uint32_t` microseconds that wrap every 71.6 minutes. Differences of two of them are right as long as less
 * than that lies between: a timeout is 33.4 minutes at most, and 30 minutes at most go by from call to call.
 */

/** What a caller of the machine sees: into the header. */
export const MACHINE_TYPES = `/* People counted by one call. */
typedef struct {
    uint16_t forward;
    uint16_t backward;
} door_tallies;

/* Where the table of states stands. */
typedef struct {
    uint32_t since_us; /* when the state was entered */
    uint8_t state;
    uint8_t levels; /* bit i is set while beam i is broken */
} door_moment;
`;

/** Types and functions: into the source, after the header and before the tables. */
export const MACHINE_SOURCE = `/* The state does not change, and its timeout runs on. */
#define DOOR_STAYS 255

/* A table of states. Cells are found by state * 2^beams + levels. */
typedef struct {
    const uint8_t *next;           /* by cell: the state that these levels lead to, or DOOR_STAYS */
    const uint8_t *tallies;        /* by cell: forward * 16 + backward */
    const uint32_t *after_us;      /* by state: its timeout, 0 for none */
    const uint8_t *after_next;     /* by state: where its timeout leads */
    const uint8_t *after_tallies;  /* by state: forward * 16 + backward */
    uint8_t beams;
    uint8_t start;
} door_table;

static void add_tallies(door_tallies *sum, uint8_t tallies)
{
    sum->forward = (uint16_t)(sum->forward + (tallies >> 4));
    sum->backward = (uint16_t)(sum->backward + (tallies & 15));
}

/* Follows the rule for the levels as they are. Gives back whether a state was entered. */
static uint8_t look(const door_table *table, door_moment *moment, door_tallies *sum)
{
    const uint16_t row = (uint16_t)((uint16_t)moment->state << table->beams);
    const uint16_t cell = (uint16_t)(row | moment->levels);
    if (table->next[cell] == DOOR_STAYS) {
        return 0;
    }
    add_tallies(sum, table->tallies[cell]);
    moment->state = table->next[cell];
    return 1;
}

static void start_table(const door_table *table, door_moment *moment, uint32_t now_us)
{
    moment->since_us = now_us;
    moment->state = table->start;
    moment->levels = 0;
}

/* One instant: timeouts that are due by now, each at its own time, and then the change of levels. */
static void step_table(const door_table *table, door_moment *moment, uint32_t now_us, uint8_t levels,
                       door_tallies *sum)
{
    uint32_t after_us = table->after_us[moment->state];
    while (after_us != 0 && (uint32_t)(now_us - moment->since_us) >= after_us) {
        moment->since_us += after_us;
        add_tallies(sum, table->after_tallies[moment->state]);
        moment->state = table->after_next[moment->state];
        (void)look(table, moment, sum);
        after_us = table->after_us[moment->state];
    }
    if (levels != moment->levels) {
        moment->levels = levels;
        if (look(table, moment, sum)) {
            moment->since_us = now_us;
        }
    }
}

/* Microseconds until the next timeout; 0 if it is due; DOOR_NEVER if none runs. */
static uint32_t table_wait_us(const door_table *table, const door_moment *moment, uint32_t now_us)
{
    const uint32_t after_us = table->after_us[moment->state];
    const uint32_t gone_us = now_us - moment->since_us;
    if (after_us == 0) {
        return DOOR_NEVER;
    }
    return gone_us >= after_us ? 0 : after_us - gone_us;
}
`;
