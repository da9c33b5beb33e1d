/*
 * The four-level walk as a program of its own: build it with `cc -o four-level four-level.c` and run a scenario with
 * --logic-process ./four-level. It counts as the built-in four-level does, tally by tally.
 *
 * It reads line by line and needs to know nothing else of the protocol (docs/own-logic.md).
 */
#include <stdio.h>
#include <string.h>

#define TIMEOUT_US 10000000LL
#define LOST 9

/* Quarter steps from one pair of levels to another, A the lower bit: +1 forward, -1 backward, LOST if both changed. */
static const int QUARTER[4][4] = {
    {0, 1, -1, LOST},
    {-1, 0, LOST, 1},
    {1, LOST, 0, -1},
    {LOST, -1, 1, 0},
};
/* Levels at the positions -3 to +3. */
static const int LEVELS_AT[7] = {1, 3, 2, 0, 1, 3, 2};

static int at = 0;              /* quarter steps from the rest, or LOST */
static long long since_us = 0;  /* when the levels last changed */

static int after(int before, int now) {
    int quarter = QUARTER[before][now];
    if (quarter != LOST) return at + quarter;
    if (now == 0) return 0;
    if (at == 3) return 1;
    if (at == -3) return -1;
    return LOST;
}

static void input(long long time_us, int levels) {
    int before, next;
    if (at == LOST || (at != 0 && time_us - since_us >= TIMEOUT_US)) {
        at = levels == 0 ? 0 : LOST;
        return;
    }
    before = LEVELS_AT[at + 3];
    if (levels == before) return;
    next = after(before, levels);
    if (next != LOST && levels == 0) {
        if (next == 4) printf("forward %lld\n", time_us);
        if (next == -4) printf("backward %lld\n", time_us);
        next = 0;
    }
    at = next;
    since_us = time_us;
}

int main(void) {
    char line[256];
    while (fgets(line, sizeof line, stdin)) {
        long long time_us;
        char a, b;
        if (sscanf(line, "%lld %c%c", &time_us, &a, &b) == 3) {
            input(time_us, (a == '1') | (b == '1') << 1);
        } else if (strcmp(line, "ready\n") == 0) {
            /* No latency, no ticks, no readings: a late timeout is seen at the next line, which is soon enough. */
            printf("jambeam-logic 1\nready\n");
            fflush(stdout);
        } else if (strncmp(line, "flush ", 6) == 0) {
            fputs(line, stdout);
            fflush(stdout);
        }
    }
    return 0;
}
