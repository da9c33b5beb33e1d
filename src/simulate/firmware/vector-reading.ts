/** What a ranger says in the test vectors. */
import { NO_ECHO, micrometres } from '../../sensors/ranger.js';
import type { RangerSensor } from '../../sensors/schema.js';
import type { Switch } from '../../sensors/switching/switch.js';
import type { Draws } from './draws.js';

/** Up to so many readings that have to agree, the odd ones are as frequent as they are below; with more they are rarer. */
const AGREE = 6;

/**
 * Somebody is nearer than the switching point, nobody is beyond it; a few readings are anything, none, or just at the edge.
 *
 * @param now the ranger's own switching, as it stands @returns whole micrometres, or NO_ECHO
 */
export function vectorReading(
  { switching, range_m }: RangerSensor,
  now: Pick<Switch, 'background_um'>,
  near: boolean,
  draws: Draws,
): number {
  const { nearer_than_m, margin_m, hysteresis_m, median_of, minimum_samples } = switching;
  const far_um = micrometres(range_m);
  const hysteresis_um = micrometres(hysteresis_m);
  const fixed_um = nearer_than_m === undefined ? undefined : micrometres(nearer_than_m);
  const point_um = fixed_um ?? now.background_um - micrometres(margin_m);
  const kind = draws.next() * Math.max(1, (median_of + minimum_samples) / AGREE);
  if (kind < 0.03) return NO_ECHO;
  if (kind < 0.06) return draws.below(far_um);
  if (kind < 0.15) return Math.max(0, point_um + draws.below(2) * hysteresis_um - draws.below(2));
  // A jamb at a third of the range, as the background to be learnt.
  const background_um = fixed_um === undefined ? Math.round(far_um / 3) : fixed_um + hysteresis_um + 100_000;
  return near
    ? draws.below(Math.max(1, Math.min(point_um, Math.round(0.6 * background_um))))
    : background_um - 5000 + draws.below(10_000);
}
