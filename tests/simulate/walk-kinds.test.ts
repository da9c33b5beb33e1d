/** Which walks test a door: what somebody can be asked to do, of what matters most. */
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import type { DoorMetrics } from '../../src/score/metrics-schema.js';
import { chooseKinds, ENOUGH, MOST_KINDS } from '../../src/score/walk-test/choose-kinds.js';
import { kindsNamed, predictedKinds } from '../../src/simulate/walk-kinds.js';
import { est, inventedMetrics } from '../report/fixture.js';
import { doorDesign } from './designs.js';

type Row = DoorMetrics['by_kind'][number];
const metrics = inventedMetrics().doors[0]!;
/** A row of a run: `wrong` counts missed in 1000 visits; only what counts here is meant. */
const row = (who: string, kind: string, wrong: number, visits = 1000): Row => ({
  ...metrics.by_kind[0]!,
  who,
  kind,
  visits,
  person_crossings: visits,
  missed: wrong,
  reversed: 0,
  extra: 0,
  invented: 0,
  wrong_per_100_visits: est((100 * wrong) / visits, 2, visits),
});
const names = (rows: readonly { readonly who: string; readonly kind: string }[]) =>
  rows.map(({ who, kind }) => `${who} ${kind}`);

describe('choosing', () => {
  const anything = () => true;

  test('the worst come first, until they make most of the wrong counts; the commonest is always there', () => {
    const rows = [row('a', 'through', 1, 9000), row('b', 'through', 60), row('c', 'linger', 39), row('d', 'reach', 2)];
    const { chosen, left_out } = chooseKinds(rows, anything);
    expect(names(chosen)).toEqual(['b through', 'c linger', 'a through']);
    expect(99 / 102).toBeGreaterThan(ENOUGH);
    expect(left_out).toMatchObject([{ row: { who: 'd' }, share: 2 / 102, can: true }]);
  });

  test('never more than an evening has room for', () => {
    const rows = Array.from({ length: 12 }, (_, i) => row(`w${i}`, 'through', 20 - i, 1000 + i));
    expect(names(chooseKinds(rows, anything).chosen)).toEqual([
      ...Array.from({ length: MOST_KINDS - 1 }, (_, i) => `w${i} through`),
      'w11 through',
    ]);
  });

  test('without errors the commonest is walked', () => {
    expect(names(chooseKinds([row('a', 'linger', 0, 5), row('b', 'through', 0, 50)], anything).chosen)).toEqual([
      'b through',
    ]);
    expect(chooseKinds([], anything)).toEqual({ chosen: [], left_out: [] });
  });
});

describe('a door with pets and things', () => {
  const design = doorDesign();
  const [door, logic] = [design.doors[0]!, design.logics[0]!];
  const by_kind = [
    row('adult', 'through', 30, 3000),
    row('adult', 'at-heel', 2, 200),
    row('dog-large', 'at-heel', 80, 200),
    row('dog-large', 'through', 50),
    row('robot-vacuum', 'through', 40),
    row('leaf', 'swing', 20),
  ];
  const stream = Stream.root('kinds');
  const { kinds, left_out } = predictedKinds(design, door, logic, { ...metrics, by_kind }, stream);

  test('nobody asks a dog, a robot or a leaf to walk, and what that leaves out is said', () => {
    expect(names(kinds)).toEqual(['dog-large at-heel', 'adult through']);
    expect(names(left_out.map((one) => one.row))).toEqual(['dog-large through', 'robot-vacuum through', 'leaf swing']);
    expect(left_out.every(({ can }) => !can)).toBe(true);
  });

  test('a walk with a dog at heel is bounded by what the run says of both', () => {
    const [heel] = kinds;
    // The dog is wrong in 40 (38 to 42) of 100, its leader in 1 (0 to 3): together at most 45, and at least half of 38.
    expect(heel!.prediction.low).toBeCloseTo(0.19, 12);
    expect(heel!.prediction.value).toBeCloseTo(0.41, 12);
    expect(heel!.prediction.high).toBeCloseTo(0.45, 12);
    expect(heel).toMatchObject({ rests_on: 0, crosses: { backward: { forward: 0, backward: 1 } } });
  });

  test('a sheet names its kinds, and what nobody predicts is given back', () => {
    const rows = [
      { who: 'adult', kind: 'through' },
      { who: 'adult', kind: 'through' },
      { who: 'leaf', kind: 'swing' },
      { who: 'adult', kind: 'flying' },
    ];
    const named = kindsNamed(design, door, logic, { ...metrics, by_kind }, stream, rows);
    expect(names(named.kinds)).toEqual(['adult through']);
    expect(named.unknown).toEqual(rows.slice(2));
    // Sheet and plan speak of the same prediction.
    expect(named.kinds[0]!.prediction).toEqual(kinds[1]!.prediction);
  });
});
