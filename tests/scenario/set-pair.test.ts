/** In a design a pair is two beams; whoever sets a pair, or one of its keys, sets those. */
import { describe, expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';

const TEXT = (pair: string): string => `format: 1
name: x
rooms: [{ name: hall }]
doors:
  - { name: front, from: outside, to: hall, width_m: 0.9, ${pair}, traffic: { arrivals_per_hour: 10 } }
  - { name: back, from: outside, to: hall, width_m: 0.8, ${pair}, traffic: { arrivals_per_hour: 10 } }
`;
const PAIR = 'pair: { height_m: 0.9, spacing_m: 0.1 }';

const parse = (pair: string, ...sets: string[]) => parseScenario(TEXT(pair), 'x.yaml', { sets });

describe('a pair that is set is the pair that would have been written', () => {
  test.each([
    ['height_m', '{ height_m: 1.2, spacing_m: 0.1 }', ['doors.*.pair.height_m=1.2']],
    ['spacing_m', '{ height_m: 0.9, spacing_m: 0.06 }', ['doors.*.pair.spacing_m=0.06']],
    ['the whole', '{ height_m: 1, spacing_m: 0.05 }', ['doors.*.pair={ height_m: 1, spacing_m: 0.05 }']],
    [
      'another sensor',
      '{ sensor: time-of-flight-ranger, height_m: 0.9, spacing_m: 0.1 }',
      ['doors.*.pair.sensor=time-of-flight-ranger'],
    ],
    [
      'a mount',
      '{ sensor: time-of-flight-ranger, mount: interleaved, height_m: 0.9, spacing_m: 0.1 }',
      ['doors.*.pair.sensor=time-of-flight-ranger', 'doors.*.pair.mount=interleaved'],
    ],
    [
      'facing rangers go on facing',
      '{ sensor: time-of-flight-ranger, mount: facing, height_m: 0.9, spacing_m: 0.2 }',
      [
        'doors.*.pair={ sensor: time-of-flight-ranger, mount: facing, height_m: 0.9, spacing_m: 0.1 }',
        'doors.*.pair.spacing_m=0.2',
      ],
    ],
  ])('%s', (_, written, sets) => {
    const set = parse(PAIR, ...sets);
    expect(set.issues).toEqual([]);
    expect(set.design).toEqual(parse(`pair: ${written}`).design);
  });

  test('of one door alone', () => {
    const { design } = parse(PAIR, 'doors.back.pair.height_m=0.5');
    expect(design!.doors.map(({ beams }) => beams.map(({ height_m }) => height_m))).toEqual([
      [0.9, 0.9],
      [0.5, 0.5],
    ]);
  });
});

describe('what can not be set is said', () => {
  test.each([
    ['doors.*.pair.hight_m=1', 'unknown_path'],
    ['doors.*.pair.spacing_m=far', 'wrong_type'],
    ['doors.*.pair={ height_m: 1 }', 'missing_key'],
    ['doors.side.pair.height_m=1', 'unknown_path'],
  ])('%s', (set, code) => {
    const { design, issues } = parse(PAIR, set);
    expect(design).toBe(null);
    expect(issues.map(({ problem }) => problem.code)).toEqual([code]);
  });

  test('a door of three beams has no pair', () => {
    const beams =
      'beams: [{ name: A, sensor: light-barrier, at_m: -0.1, height_m: 1 }, { name: B, sensor: light-barrier, at_m: 0, height_m: 1 }, { name: C, sensor: light-barrier, at_m: 0.1, height_m: 1 }]';
    const { issues } = parseScenario(TEXT(beams) + 'logics: [hidden-markov]\n', 'x.yaml', {
      sets: ['doors.*.pair.height_m=1'],
    });
    expect(JSON.stringify(issues)).toContain('no pair');
  });
});

test('logics that are set by their bare names get their defaults and names', () => {
  const set = parse(PAIR, 'logics=[first-broken, { use: four-level, timeout_ms: 500 }]');
  expect(set.issues).toEqual([]);
  expect(set.design!.logics.map(({ name }) => name)).toEqual(['first-broken', 'four-level']);
});
