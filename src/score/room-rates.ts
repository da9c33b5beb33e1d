/** What a room's count, and those of a whole house, are judged by, over replicates. */
import { DAY_US, HOUR_US, MINUTE_US } from '../engine/time.js';
import { FEW_REPLICATES, bare, jackknifeEstimate, ratioEstimate, sum } from './estimates.js';
import type { SurvivalCurve } from './figures.js';
import type { HouseTimes } from './house.js';
import type { Estimate, HouseMetrics, RoomMetrics } from './metrics-schema.js';
import type { RoomTimes } from './rooms.js';
import { kaplanMeier, medianWait, type Wait } from './survival.js';

/** All metrics of one room under one logic and ledger, one entry per replicate. */
export function roomRates(replicates: readonly RoomTimes[]): Omit<RoomMetrics, 'room' | 'logic' | 'ledger'> {
  const over = (time_us: (times: RoomTimes) => number, max: number) => overTime(replicates, time_us, { max });
  const perDay = (episodes: (times: RoomTimes) => number) => eventsPerDay(replicates, replicates.map(episodes));
  const minutes = (time_us: (times: RoomTimes) => number) => replicates.map((times) => time_us(times) / MINUTE_US);
  const emptyMin = minutes((times) => times.longest_empty_while_occupied_us);
  const occupiedMin = minutes((times) => times.longest_occupied_while_empty_us);
  return {
    exact_share: over((times) => times.exact_us, 1),
    empty_while_occupied_share: over((times) => times.empty_while_occupied_us, 1),
    occupied_while_empty_share: over((times) => times.occupied_while_empty_us, 1),
    mean_absolute_error: over((times) => times.absolute_error_us, Infinity),
    empty_while_occupied_per_day: perDay((times) => times.empty_while_occupied_episodes),
    occupied_while_empty_per_day: perDay((times) => times.occupied_while_empty_episodes),
    longest_empty_while_occupied_min: meanOf(emptyMin),
    longest_occupied_while_empty_min: meanOf(occupiedMin),
    max_empty_while_occupied_min: Math.max(...emptyMin),
    max_occupied_while_empty_min: Math.max(...occupiedMin),
    first_wrong_h: medianWait(firstWrongs(replicates)),
  };
}

/** All metrics of the house; `rooms` are each replicate's. */
export function houseRates(
  replicates: readonly HouseTimes[],
  rooms: readonly (readonly RoomTimes[])[],
): Omit<HouseMetrics, 'logic' | 'ledger'> {
  const perDay = (episodes: (times: RoomTimes) => number) =>
    eventsPerDay(
      replicates,
      rooms.map((ofHouse) => sum(ofHouse.map(episodes))),
    );
  return {
    exact_share: overTime(replicates, (times) => times.exact_us, { max: 1 }),
    persons_bias: overTime(replicates, (times) => times.error_us, { signed: true }),
    persons_absolute_error: overTime(replicates, (times) => times.absolute_error_us, {}),
    empty_while_occupied_per_day: perDay((times) => times.empty_while_occupied_episodes),
    occupied_while_empty_per_day: perDay((times) => times.occupied_while_empty_episodes),
    first_wrong_h: medianWait(firstWrongs(replicates)),
  };
}

/** The curve of a room's first wrong count over the clock. */
export function survivalCurve(replicates: readonly RoomTimes[]): Omit<SurvivalCurve, 'room' | 'logic' | 'ledger'> {
  const steps = kaplanMeier(firstWrongs(replicates));
  const end_h = Math.max(...replicates.map(({ span_us }) => span_us)) / HOUR_US;
  const first = { time: 0, share: 1, low: 1, high: 1 };
  // Wrong from the very start: the step at 0 takes the place of the beginning.
  const all = steps[0]?.time === 0 ? steps : [first, ...steps];
  const points = [...all, { ...all[all.length - 1]!, time: end_h }];
  return {
    time_h: points.map(({ time }) => time),
    share: points.map(({ share }) => share),
    low: points.map(({ low }) => low),
    high: points.map(({ high }) => high),
  };
}

type Clock = Pick<RoomTimes, 'span_us' | 'first_wrong_us'>;

/** Hours until the first wrong count, or until the clock's end. */
function firstWrongs(replicates: readonly Clock[]): Wait[] {
  return replicates.map(({ span_us, first_wrong_us }) => ({
    time: (first_wrong_us ?? span_us) / HOUR_US,
    happened: first_wrong_us !== null,
  }));
}

function overTime<T extends Clock>(
  replicates: readonly T[],
  time_us: (times: T) => number,
  options: { readonly max?: number; readonly signed?: boolean },
): Estimate {
  return ratioEstimate(
    replicates.map(time_us),
    replicates.map(({ span_us }) => span_us),
    { n: replicates.length, nothing: 'no time', counted: false, ...options },
  );
}

function eventsPerDay(replicates: readonly Clock[], events: readonly number[]): Estimate {
  return ratioEstimate(
    events,
    replicates.map(({ span_us }) => span_us / DAY_US),
    { n: replicates.length, nothing: 'no time' },
  );
}

/** Mean over replicates, none below 0. */
function meanOf(values: readonly number[]): Estimate {
  const n = values.length;
  const total = sum(values);
  if (n < 2) return bare(total / n, n, FEW_REPLICATES);
  return jackknifeEstimate(
    total / n,
    values.map((value) => (total - value) / (n - 1)),
    n,
    0,
  );
}
