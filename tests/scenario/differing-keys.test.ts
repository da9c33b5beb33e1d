// Where designs differ, key by key, as --set names them.
import { describe, expect, test } from 'vitest';
import { differingKeys } from '../../src/scenario/differing-keys.js';
import { applySets } from '../../src/scenario/set.js';
import { designOf } from '../report/compare/runs.js';

const plain = designOf();
const keys = (...designs: Parameters<typeof differingKeys>[0]) => differingKeys(designs);

describe('keys in which designs differ', () => {
  test('equal designs differ in none', () => {
    expect(keys(plain, plain, designOf())).toEqual([]);
  });

  test('what differs alike in several places stands together; far ends that go along are not told', () => {
    expect(keys(plain, designOf(['doors.*.beams.*.height_m=1.3']))).toEqual([
      {
        key: 'doors.*.beams.*.height_m',
        places: ['front', 'back'].flatMap((door) => ['A', 'B'].map((beam) => `doors.${door}.beams.${beam}.height_m`)),
        values: [0.95, 1.3],
      },
    ]);
  });

  test('each key found is one that --set takes: set in one design it makes the other', () => {
    const other = designOf([
      'doors.front.width_m=0.8',
      'doors.back.beams.B.height_m=1.1',
      'sensors.barrier.response_ms=3',
      'hours=4',
    ]);
    const found = keys(plain, other);
    const sets = found.map(({ key, values }) => `${key}=${JSON.stringify(values[1])}`);
    expect(found.map(({ key }) => key).sort()).toEqual(
      ['doors.back.beams.B.height_m', 'doors.front.width_m', 'hours', 'sensors.barrier.response_ms'].sort(),
    );
    expect(applySets(plain, sets).design).toEqual(other);
  });

  test('a star stands only where names differ', () => {
    expect(keys(plain, designOf(['doors.front.beams.*.height_m=1.3'])).map(({ key }) => key)).toEqual([
      'doors.front.beams.*.height_m',
    ]);
  });

  test('places that differ otherwise stand apart', () => {
    const found = keys(plain, designOf(['doors.front.beams.A.height_m=0.5', 'doors.front.beams.B.height_m=0.6']));
    expect(found.map(({ key, values }) => [key, ...values])).toEqual([
      ['doors.front.beams.A.height_m', 0.95, 0.5],
      ['doors.front.beams.B.height_m', 0.95, 0.6],
    ]);
  });

  test('a door that only one has is one row, there or not there', () => {
    const [front] = plain.doors;
    const found = keys(plain, { ...plain, doors: [front!] });
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ key: 'doors.back', values: [{ name: 'back' }, undefined] });
  });

  test('which logic comes first is told, for it gives the headline', () => {
    const both = designOf(['logics=[four-level, first-broken]']);
    const turned = { ...both, logics: [...both.logics].reverse() };
    expect(keys(both, turned)).toEqual([
      expect.objectContaining({
        key: 'logics.(order)',
        values: [
          ['four-level', 'first-broken'],
          ['first-broken', 'four-level'],
        ],
      }),
    ]);
  });

  test('rows of a mix go by position; mixes of other lengths are told whole', () => {
    const row = keys(plain, designOf(['doors.front.traffic.mix.1.share=0.5', 'doors.front.traffic.mix.2.share=0.3']));
    expect(row.map(({ key }) => key)).toEqual(['doors.front.traffic.mix.1.share', 'doors.front.traffic.mix.2.share']);
    const shorter = keys(plain, designOf(['doors.front.traffic.mix=[{ who: adult, kind: through, share: 1 }]']));
    expect(shorter.map(({ key }) => key)).toEqual(['doors.front.traffic.mix']);
  });

  test('tables are whole, and what was learnt is nobody’s key', () => {
    const [a, b] = ['x: 1\n', 'x: 2\n'].map((text) => ({ ...plain, tables: { 'own.yaml': text } }));
    expect(keys(a!, b!).map(({ key }) => key)).toEqual(['tables.own.yaml']);
    expect(keys(a!, plain)).toHaveLength(1);
    expect(keys(plain, { ...plain, calibration: [] } as never)).toEqual([]);
  });
});
