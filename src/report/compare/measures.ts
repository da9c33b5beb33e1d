/** What runs are compared by: each a ratio of each replicate, and an estimate of each run, under the run's headline. */
import { type DoorSampleCounts, type ReplicateSample, doorSampleCounts } from '../../score/replicate-sample.js';
import type { DoorMetrics, Estimate, RoomMetrics } from '../../score/metrics-schema.js';
import type { Ratio } from '../../study/judge/measure.js';
import { headlineLogic, named } from '../words.js';
import { type CompareRun, doorNames, headlineLedger, inAll, roomNames } from './runs.js';

export interface Place {
  readonly of: 'house' | 'door' | 'rooms' | 'room';
  readonly name: string;
}

export interface CompareMeasure {
  readonly place: Place;
  /** 'wrong', 'exactly right'. */
  readonly words: string;
  /** Shares are printed as percentages. */
  readonly as: 'number' | 'share';
  /** What is good: little, much, or to be near nothing. */
  readonly best: 'less' | 'more' | 'zero';
  /** What a ratio is multiplied by. */
  readonly scale: number;
  estimate(run: CompareRun): Estimate | null;
  /** One replicate's part. */
  ratio(run: CompareRun, sample: ReplicateSample): Ratio;
}

type Rates = Pick<
  DoorMetrics,
  'wrong_per_100' | 'missed_per_100' | 'reversed_per_100' | 'extra_per_100' | 'invented_per_100' | 'drift_per_100'
>;
const ERRORS = ['wrong', 'missed', 'reversed', 'extra', 'invented'] as const;

/** Errors of all doors or of one, the headline's first. */
export function errorMeasures(place: Place): CompareMeasure[] {
  const rates = ({ metrics, design }: CompareRun): Rates | undefined =>
    place.of === 'house'
      ? metrics.house
      : metrics.doors.find(({ door, logic }) => door === place.name && logic === headlineLogic(design));
  const counts = ({ design }: CompareRun, sample: ReplicateSample): DoorSampleCounts => {
    const ofDoors = sample.doors.filter((_, d) => place.of === 'house' || design.doors[d]?.name === place.name);
    return doorSampleCounts(ofDoors.flatMap(([first]) => (first === undefined ? [] : [first])));
  };
  const measure = (
    words: string,
    best: CompareMeasure['best'],
    estimate: (of: Rates) => Estimate,
    events: (of: DoorSampleCounts) => number,
  ): CompareMeasure => ({
    place,
    words,
    as: 'number',
    best,
    scale: 100,
    estimate(run) {
      const found = rates(run);
      return found === undefined ? null : estimate(found);
    },
    ratio(run, sample) {
      const found = counts(run, sample);
      return { events: events(found), exposure: found.crossings };
    },
  });
  return [
    ...ERRORS.map((error) =>
      measure(
        error,
        'less',
        (of) => of[`${error}_per_100`],
        (of) => of[error],
      ),
    ),
    measure(
      'drift',
      'zero',
      (of) => of.drift_per_100.bias,
      (of) => of.net_error,
    ),
  ];
}

const EXACT = { words: 'exactly right', best: 'more' } as const;
const SHARES = [
  { ...EXACT, key: 'exact_share' },
  { words: 'empty while occupied', best: 'less', key: 'empty_while_occupied_share' },
  { words: 'occupied while empty', best: 'less', key: 'occupied_while_empty_share' },
] as const;

/** Shares of time of one room, with each run's first logic and ledger. */
export function roomMeasures(name: string): CompareMeasure[] {
  const found = ({ metrics, design }: CompareRun): RoomMetrics | undefined =>
    metrics.rooms.find(
      ({ room, logic, ledger }) =>
        room === name && logic === headlineLogic(design) && ledger === headlineLedger(design),
    );
  return SHARES.map(({ words, best, key }, i) => ({
    place: { of: 'room', name },
    words,
    as: 'share',
    best,
    scale: 1,
    estimate: (run) => found(run)?.[key] ?? null,
    ratio(run, sample) {
      const r = run.design.rooms.findIndex((room) => room.name === name);
      return { events: sample.rooms[r]?.[0]?.[0]?.[i] ?? 0, exposure: sample.clock_us };
    },
  }));
}

/** The share of time in which the counts of all rooms are right at once. */
export const ALL_ROOMS: CompareMeasure = {
  ...EXACT,
  place: { of: 'rooms', name: '' },
  as: 'share',
  scale: 1,
  estimate: ({ metrics, design }) =>
    metrics.houses.find(({ logic, ledger }) => logic === headlineLogic(design) && ledger === headlineLedger(design))
      ?.exact_share ?? null,
  ratio: (_, sample) => ({ events: sample.houses[0]?.[0] ?? 0, exposure: sample.clock_us }),
};

export const HOUSE: Place = { of: 'house', name: '' };
/** What the verdict asks first. */
export const WRONG: CompareMeasure = errorMeasures(HOUSE)[0]!;

/** Whether all runs count some room. */
export const allHaveRooms = (runs: readonly CompareRun[]): boolean =>
  runs.every(({ design }) => design.rooms.length > 0);

export interface MeasureGroup {
  readonly place: Place;
  readonly measures: readonly CompareMeasure[];
}

/** All that can be compared: the house, each door and each room that all runs have. */
export function measureGroups(runs: readonly CompareRun[]): MeasureGroup[] {
  const doors = inAll(runs, doorNames);
  const rooms = inAll(runs, roomNames);
  const several = runs.some(({ design }) => design.doors.length > 1);
  return [
    { place: HOUSE, measures: errorMeasures(HOUSE) },
    ...(allHaveRooms(runs) ? [{ place: ALL_ROOMS.place, measures: [ALL_ROOMS] }] : []),
    ...rooms.map((name) => ({ place: { of: 'room', name } as const, measures: roomMeasures(name) })),
    ...(several ? doors : []).map((name) => ({
      place: { of: 'door', name } as const,
      measures: errorMeasures({ of: 'door', name }),
    })),
  ];
}

/** 'All doors', 'Door “front”'. */
export function placeWords({ of, name }: Place): string {
  if (of === 'house') return 'All doors';
  if (of === 'rooms') return 'All rooms at once';
  return `${of === 'door' ? 'Door' : 'Room'} ${named(name)}`;
}

/** 'wrong per 100 crossings'; 'empty while occupied, share of time'. */
export const unitWords = ({ as }: CompareMeasure): string => (as === 'share' ? 'share of time' : 'per 100 crossings');
