/** Settings of switching as constants for the switching in C99. */
import { c32, cSigned32 } from '../../engine/c-array.js';
import { micrometres } from '../ranger.js';
import type { RangerSensor } from '../schema.js';
import type { SwitchingSettings } from '../switching/schema.js';

/** As the switching's source numbers them. */
const NO_ECHO = { clear: 0, broken: 1, keep: 2 } as const satisfies Record<SwitchingSettings['no_echo'], number>;

/** @returns an initialiser of `door_switching`, as `Switch` rounds its settings */
export function switchData({ switching, range_m }: Pick<RangerSensor, 'switching' | 'range_m'>): string {
  const { nearer_than_m, margin_m, hysteresis_m, follow_um, off_delay_ms, median_of, minimum_samples } = switching;
  const fixed = nearer_than_m !== undefined;
  return `{${[
    cSigned32(fixed ? micrometres(nearer_than_m) : -1),
    cSigned32(micrometres(margin_m)),
    cSigned32(micrometres(hysteresis_m)),
    cSigned32(follow_um),
    cSigned32(micrometres(range_m)),
    c32(Math.round(off_delay_ms * 1000)),
    learnReadings(switching),
    median_of,
    minimum_samples,
    NO_ECHO[switching.no_echo],
  ].join(', ')}}`;
}

/** How many first readings are learnt from; none with a fixed switching point. */
export function learnReadings({ nearer_than_m, learn_readings }: SwitchingSettings): number {
  return nearer_than_m === undefined ? learn_readings : 0;
}
