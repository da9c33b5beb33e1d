/**
 * Switching in C99, the counterpart of `src/sensors/switching/switch.ts`: whole numbers of 32 bits, no memory but the
 * struct's own. `door_` and `DOOR_` are renamed where doors are told apart.
 */

/** Into the header; `DOOR_WINDOW` and `DOOR_LEARN` are its sizes, `DOOR_NO_ECHO` stands before it. */
export const SWITCH_TYPES = `/* How the readings of one ranger become a beam that is broken or clear. */
typedef struct {
    int32_t background_um;
    uint32_t clear_since_us;
    int32_t window[DOOR_WINDOW]; /* the last readings */
    int32_t learnt[DOOR_LEARN];  /* the first readings, sorted */
    uint16_t learnt_count;
    uint8_t window_count;
    uint8_t window_next;
    uint8_t run;     /* near readings in a row while clear */
    uint8_t pending; /* while broken: 1 readings have been clear, 2 for as long as it takes */
    uint8_t level;   /* 1 while broken */
} door_switch;
`;

/** Into the source. */
export const SWITCH_SOURCE = `/* A reading beyond a kilometre is taken for one of a kilometre, so that no sum overflows. */
#define DOOR_FARTHEST_UM 1000000000L

/* What a reading without echo means. */
#define DOOR_SILENCE_CLEAR 0
#define DOOR_SILENCE_BROKEN 1
#define DOOR_SILENCE_KEEPS 2

typedef struct {
    int32_t nearer_than_um; /* fixed switching point; below 0: the background less the margin */
    int32_t margin_um;
    int32_t hysteresis_um;
    int32_t follow_um;
    int32_t range_um; /* what a reading without echo counts as for the background */
    uint32_t off_delay_us;
    uint16_t learn_readings; /* 0 with a fixed switching point */
    uint8_t median_of;
    uint8_t minimum_samples;
    uint8_t no_echo;
} door_switching;

static void start_switch(const door_switching *is, door_switch *beam)
{
    beam->background_um = is->range_um;
    beam->clear_since_us = 0;
    beam->learnt_count = 0;
    beam->window_count = 0;
    beam->window_next = 0;
    beam->run = 0;
    beam->pending = 0;
    beam->level = 0;
}

static void push_reading(door_switch *beam, uint8_t median_of, int32_t value)
{
    beam->window[beam->window_next] = value;
    beam->window_next = (uint8_t)(beam->window_next + 1);
    if (beam->window_next == median_of) {
        beam->window_next = 0;
    }
    if (beam->window_count < median_of) {
        beam->window_count = (uint8_t)(beam->window_count + 1);
    }
}

/* The median of the window; of an even number the greater of the two in the middle. */
static int32_t window_median(const door_switch *beam)
{
    const uint8_t count = beam->window_count;
    const uint8_t middle = (uint8_t)(count / 2);
    uint8_t i;
    for (i = 0; i + 1 < count; i++) {
        uint8_t below = 0;
        uint8_t same = 0;
        uint8_t k;
        for (k = 0; k < count; k++) {
            if (beam->window[k] < beam->window[i]) {
                below = (uint8_t)(below + 1);
            } else if (beam->window[k] == beam->window[i]) {
                same = (uint8_t)(same + 1);
            }
        }
        if (below <= middle && middle < below + same) {
            break;
        }
    }
    /* It is one of them: where all others are not, it is the last. */
    return beam->window[i];
}

/* Takes one of the first readings into its place; their median is the background. */
static void learn_background(const door_switching *is, door_switch *beam, int32_t distance_um)
{
    uint16_t place = beam->learnt_count;
    while (place > 0 && beam->learnt[place - 1] > distance_um) {
        beam->learnt[place] = beam->learnt[place - 1];
        place = (uint16_t)(place - 1);
    }
    beam->learnt[place] = distance_um;
    beam->learnt_count = (uint16_t)(beam->learnt_count + 1);
    if (beam->learnt_count == is->learn_readings) {
        beam->background_um = beam->learnt[is->learn_readings / 2];
    }
}

static int32_t switching_point_um(const door_switching *is, const door_switch *beam)
{
    return is->nearer_than_um >= 0 ? is->nearer_than_um : beam->background_um - is->margin_um;
}

static void read_while_clear(const door_switching *is, door_switch *beam, int32_t seen_um)
{
    if (seen_um >= switching_point_um(is, beam)) {
        beam->run = 0;
        return;
    }
    beam->run = (uint8_t)(beam->run + 1);
    if (beam->run >= is->minimum_samples) {
        beam->run = 0;
        beam->level = 1;
    }
}

/* Notes in time that a switch-off delay is over: the clock wraps. */
static void watch_delay(const door_switching *is, door_switch *beam, uint32_t now_us)
{
    if (beam->pending == 1 && (uint32_t)(now_us - beam->clear_since_us) >= is->off_delay_us) {
        beam->pending = 2;
    }
}

static void read_while_broken(const door_switching *is, door_switch *beam, uint32_t now_us, int32_t seen_um)
{
    if (seen_um < switching_point_um(is, beam) + is->hysteresis_um) {
        beam->pending = 0;
        return;
    }
    if (beam->pending == 0) {
        beam->pending = 1;
        beam->clear_since_us = now_us;
    }
    watch_delay(is, beam, now_us);
    if (beam->pending == 2) {
        beam->pending = 0;
        beam->level = 0;
    }
}

/* The background goes towards a reading. */
static void follow_background(const door_switching *is, door_switch *beam, int32_t distance_um)
{
    const int32_t off_um = distance_um - beam->background_um;
    if (off_um > is->follow_um) {
        beam->background_um += is->follow_um;
    } else if (off_um < -is->follow_um) {
        beam->background_um -= is->follow_um;
    } else {
        beam->background_um = distance_um;
    }
}

/* The next reading of a ranger: whole micrometres, or DOOR_NO_ECHO. */
static void read_switch(const door_switching *is, door_switch *beam, uint32_t now_us, int32_t distance_um)
{
    const uint8_t silent = distance_um < 0;
    const uint8_t ignored = silent && is->no_echo == DOOR_SILENCE_KEEPS;
    int32_t taken_um = distance_um;
    int32_t value = 0;
    if (silent) {
        taken_um = is->range_um;
        value = is->no_echo == DOOR_SILENCE_BROKEN ? INT32_MIN : INT32_MAX;
    } else {
        if (taken_um > DOOR_FARTHEST_UM) {
            taken_um = DOOR_FARTHEST_UM;
        }
        value = taken_um;
    }
    if (!ignored) {
        push_reading(beam, is->median_of, value);
    }
    if (beam->learnt_count < is->learn_readings) {
        learn_background(is, beam, taken_um);
        return;
    }
    if (ignored) {
        return;
    }
    if (beam->level) {
        read_while_broken(is, beam, now_us, window_median(beam));
    } else {
        read_while_clear(is, beam, window_median(beam));
    }
    if (!beam->level && is->nearer_than_um < 0 && !(silent && is->no_echo == DOOR_SILENCE_BROKEN)) {
        follow_background(is, beam, taken_um);
    }
}
`;
