/** A capture program in plain C99, to be finished by who builds: it knows no board and no sensor. */
import type { FitKind, ReadingColumn } from '../bench.js';

/** The column a builder's program gives most readily. */
const USUAL: Readonly<Record<FitKind, ReadingColumn>> = {
  'ultrasonic-ranger': 'echo_us',
  'triangulation-ranger': 'adc_counts',
  'time-of-flight-ranger': 'reading_mm',
};

export function captureProgram(kind?: FitKind): string {
  return PROGRAM.replace('@COLUMN@', kind === undefined ? 'reading_mm' : USUAL[kind]);
}

const PROGRAM = `/*
 * Takes readings of one ranger at true distances and prints them as CSV for \`jambeam fit\`. C99, nothing else.
 *
 * Three hooks are yours: read_sensor(), wait_ms(), and next_distance_mm() where there is no keyboard.
 * As it stands it runs on any computer, and every reading is without echo.
 *
 *   cc -std=c99 capture.c -o capture && ./capture > readings.csv
 *
 * On a controller without files, send what it prints over the serial line and store that.
 */
#include <stdio.h>
#include <stdlib.h>

/* What read_sensor() gives: reading_mm, reading_m, echo_us, adc_counts or volts; whole numbers only. */
#define COLUMN "@COLUMN@"

/* Readings kept at each distance, and those thrown away before them. */
#define READINGS 30
#define THROWN_AWAY 5

/* From one reading to the next: no less than the sensor needs, or one is the echo of the other. */
#define PAUSE_MS 100UL

#define NO_ECHO (-1L)

/* HOOK: one reading in the unit of COLUMN, or NO_ECHO. */
static long read_sensor(void)
{
    return NO_ECHO;
}

/* HOOK: let this much time go by. */
static void wait_ms(unsigned long ms)
{
    (void)ms;
}

/* HOOK: the next true distance in millimetres as somebody types it, or 0 to end. */
static long next_distance_mm(void)
{
    char line[32];
    fprintf(stderr, "true distance in mm, empty line to end: ");
    if (fgets(line, sizeof line, stdin) == NULL) {
        return 0L;
    }
    return strtol(line, NULL, 10);
}

int main(void)
{
    long mm;
    int i;

    printf("true_mm," COLUMN "\\n");
    while ((mm = next_distance_mm()) > 0L) {
        for (i = 0; i < THROWN_AWAY + READINGS; i++) {
            long reading = read_sensor();
            if (i >= THROWN_AWAY) {
                if (reading == NO_ECHO) {
                    printf("%ld,\\n", mm);
                } else {
                    printf("%ld,%ld\\n", mm, reading);
                }
            }
            wait_ms(PAUSE_MS);
        }
        fflush(stdout);
    }
    return 0;
}
`;
