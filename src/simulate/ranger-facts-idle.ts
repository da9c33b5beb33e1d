/** What a ranger makes of the idle door: background, switching point, noise, temperature. */
import { normalCdf } from '../engine/distribution-functions.js';
import { HOUR_US } from '../engine/time.js';
import { vectorOf } from '../geometry/beam-line.js';
import { NO_ECHO } from '../sensors/ranger.js';
import { noiseTail } from '../sensors/scan/noise-tail.js';
import type { Background, Interval, RangerFacts } from './ranger-fact-types.js';
import { breaksBeam, nearestOf, type Placed } from './ranger-facts-house.js';
import { type Opening, sightAlongAxis } from './ranger-facts-rod.js';

/** Standard deviations by which noise is told. */
const SIGMAS = 3;

export type IdleFacts = Omit<RangerFacts, 'interval' | 'crossings'>;

export function idleFacts(placed: Placed, opening: Opening, interval: Interval, air_c: number): IdleFacts {
  const { mounted, ranger, idle_m, idle_um, point_um } = placed;
  const { sensor } = mounted;
  const low_um = ranger.reading(idle_m, normalCdf(-SIGMAS, 0, 1));
  const always_broken = breaksBeam(placed, idle_um);
  const noise_breaks = always_broken ? 0 : shareBroken(placed);
  return {
    axis_m: axisOf(placed),
    nearest_m: nearestOf(mounted),
    range_m: sensor.range_m,
    background: backgroundOf(placed),
    idle: idle_um === NO_ECHO ? null : { reads_m: idle_um / 1e6, true_m: axisOrSeen(placed) },
    point_m: point_um / 1e6,
    learnt: sensor.switching.nearer_than_m === undefined,
    always_broken,
    noise_m: idle_um === NO_ECHO || low_um === NO_ECHO ? null : (idle_um - low_um) / 1e6,
    noise_breaks,
    noise_breaks_per_hour: breaksPerHour(placed, noise_breaks, interval),
    sight_m: sightAlongAxis(placed, opening),
    air: airFacts(placed, air_c),
  };
}

function axisOf({ mounted: { line } }: Placed): number {
  return vectorOf(line).length_m;
}

/** An echo may come from another part of the frame than the axis meets; light comes from where it is pointed. */
function axisOrSeen(placed: Placed): number {
  return placed.mounted.sensor.kind === 'ultrasonic-ranger' ? placed.idle_m : axisOf(placed);
}

function backgroundOf(placed: Placed): Background {
  const { mounted, idle_um } = placed;
  const axis_m = axisOf(placed);
  if (idle_um !== NO_ECHO && mounted.sensor.kind === 'ultrasonic-ranger') return 'seen';
  if (axis_m > mounted.sensor.range_m) return 'beyond';
  if (axis_m < nearestOf(mounted)) return 'too-near';
  return idle_um === NO_ECHO ? 'faint' : 'seen';
}

/** Share of idle readings that noise alone takes past the switching point. */
function shareBroken(placed: Placed): number {
  return noiseTail((u) => breaksBeam(placed, placed.ranger.reading(placed.idle_m, u)), 60);
}

/** So many samples in a row, of medians that are near: taken as if each were of readings of its own. */
function breaksPerHour({ mounted }: Placed, share: number, { idle_ms }: Interval): number {
  const { median_of, minimum_samples } = mounted.sensor.switching;
  let median = 0;
  for (let near = (median_of >> 1) + 1; near <= median_of; near++) median += chanceOf(near, median_of, share);
  let run = 1;
  for (let i = 0; i < minimum_samples; i++) run *= median;
  return (run * HOUR_US) / (1000 * idle_ms);
}

/** Binomial chance of `k` out of `n`. */
function chanceOf(k: number, n: number, share: number): number {
  let chance = 1;
  for (let i = 1; i <= k; i++) chance *= ((n - k + i) / i) * share;
  for (let i = 0; i < n - k; i++) chance *= 1 - share;
  return chance;
}

/** By how much a longer way is read too long: real against assumed speed of sound. */
function airFacts({ mounted: { sensor }, ranger }: Placed, real_c: number): RangerFacts['air'] {
  if (sensor.kind !== 'ultrasonic-ranger') return null;
  const way_m = Math.min(1, ranger.strays_m[1]);
  const reads_m = ranger.reading(way_m, 0.5) / 1e6 - sensor.bias_m;
  return { real_c, assumed_c: sensor.assumed_temperature_c, off_per_m: reads_m / way_m - 1 };
}
