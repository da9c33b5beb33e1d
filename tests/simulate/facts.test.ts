/** Facts of a door against what can be worked out by hand. */
import jstat from 'jstat';
import { describe, expect, test } from 'vitest';
import { ADULT_STATURE } from '../../src/agents/figures/stature.js';
import type { DoorFacts } from '../../src/simulate/fact-types.js';
import { deriveFacts } from '../../src/simulate/facts.js';
import { type DoorChanges, ROD, doorDesign } from './designs.js';

const ONLY_RODS = '[{ who: rod, kind: through, share: 1 }]';

/** Many tests ask about one door: it is worked out once. */
const known = new Map<string, DoorFacts>();
function factsOf(changes: DoorChanges = {}): DoorFacts {
  const key = JSON.stringify(changes);
  const facts = known.get(key) ?? deriveFacts(doorDesign(changes), { drawn: 1000, crossings: 100 })[0]!;
  known.set(key, facts);
  return facts;
}
const rods = (changes: DoorChanges = {}) => factsOf({ mix: ONLY_RODS, walkers: ROD, ...changes });
const codes = (facts: DoorFacts) => facts.cautions.map((caution) => caution.code);

describe('who stands taller than a beam', () => {
  // Half women, half men, each normal with the survey's mean and deviation (cut at 3 SD, which moves a share by 0.001).
  test.each([1.5, 1.6, 1.7, 1.8])('at %f m the share of adults is the mean of two normal tails', (height_m) => {
    const { reach } = factsOf({ height_m }).beams[0]!;
    const adults = reach.find(({ who }) => who === 'adults')!.above;
    const tails = (['woman', 'man'] as const).map((sex) => {
      const { mean, sd } = ADULT_STATURE[sex].value;
      return 1 - jstat.normal.cdf(height_m, mean, sd);
    });
    const expected = (tails[0]! + tails[1]!) / 2;
    const standardError = Math.sqrt((expected * (1 - expected)) / adults.n);
    expect(Math.abs(adults.value - expected)).toBeLessThan(4 * standardError + 0.001);
  });

  test('the older the children, the more stand above a beam; a rod stands above it or does not', () => {
    const { reach } = factsOf({ height_m: 1.2 }).beams[0]!;
    const children = reach.filter(({ who }) => who === 'children');
    expect(children.map(({ ages_y }) => ages_y?.join('-'))).toEqual(['9-12', '6-8', '3-5']);
    const [oldest, middle, youngest] = children.map(({ above }) => above.value);
    expect(oldest!).toBeGreaterThan(middle!);
    expect(middle!).toBeGreaterThan(youngest!);
    const rodAt = (height_m: number) => rods({ height_m }).beams[0]!.reach.find(({ who }) => who === 'rod')!.above;
    expect(rodAt(1.79)).toEqual({ value: 1, n: 1000 });
    expect(rodAt(1.81)).toEqual({ value: 0, n: 1000 });
  });
});

describe('which part a beam meets', () => {
  const metAt = (height_m: number, who: 'adult' | 'child') =>
    factsOf({ height_m })
      .beams[0]!.met.find((met) => met.who === who)!
      .parts.map(({ part }) => part);

  test('shanks or feet at the ankle, trunk and arms at the chest, the head at its height, and nothing above', () => {
    expect(metAt(0.2, 'adult').every((part) => part === 'shank' || part === 'foot')).toBe(true);
    expect(metAt(0.65, 'adult')).toContain('thigh');
    expect(metAt(1.2, 'adult')[0]).toBe('trunk');
    expect(metAt(1.6, 'adult')).toEqual(['head']);
    expect(metAt(1.5, 'child')).toEqual([]);
    expect(metAt(1.9, 'adult')).toEqual([]);
  });
});

describe('spacing', () => {
  test('A to B takes spacing over speed: 0.10 m at 1.25 m/s is 80 ms', () => {
    const walkers = '{ aunt: { kind: person, sex: woman, age_y: 50, stature_m: 1.7, speed_mps: 1.25 } }';
    const { spacings } = factsOf({ walkers, mix: '[{ who: aunt, kind: through, share: 1 }]' });
    expect(spacings).toHaveLength(1);
    expect(spacings[0]).toMatchObject({ first: 'A', second: 'B', spacing_m: 0.1, fastest_mps: 1.25 });
    expect(spacings[0]!.fastest_ms).toBeCloseTo(80, 9);
    expect(spacings[0]!.slowest_ms).toBeCloseTo(80, 9);
  });

  test('of speeds drawn evenly from 0.5 to 1.5 m/s, 2.5 in 100 are above 1.475 and below 0.525', () => {
    const walkers = '{ rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 0.5, speed_to_mps: 1.5 } }';
    const [spacing] = rods({ walkers }).spacings;
    // A percentile p of 1,000 even draws scatters by range × √(p(1 − p)/n) = 0.005.
    expect(Math.abs(spacing!.fastest_mps - 1.475)).toBeLessThan(4 * 0.005);
    expect(Math.abs(spacing!.slowest_mps - 0.525)).toBeLessThan(4 * 0.005);
  });

  test('a rod keeps a beam broken over its own thickness, and over the chord of its rounded top near its end', () => {
    expect(rods({ height_m: 1 }).spacings[0]!.depth_m!.middle).toBeCloseTo(0.3, 4);
    // The top's half sphere has its centre at 1.80 − 0.15 = 1.65 m: 2 √(0.15² − 0.10²) at 1.75 m.
    expect(rods({ height_m: 1.75 }).spacings[0]!.depth_m!.middle).toBeCloseTo(2 * Math.sqrt(0.0125), 4);
  });

  test('a rod thinner than the spacing never breaks both beams at once; a thicker one always does', () => {
    expect(rods({ spacing_m: 0.31 }).spacings[0]).toMatchObject({
      shallower: { value: 1 },
      never_together: { value: 1 },
    });
    const [close] = rods({ spacing_m: 0.29 }).spacings;
    expect(close!.shallower.value).toBe(0);
    expect(close!.never_together.value).toBe(0);
  });
});

describe('a polled controller', () => {
  test('sees A alone for sure up to spacing over interval: 0.10 m in 100 ms is 1 m/s', () => {
    const walkers = '{ rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 0.5, speed_to_mps: 1.5 } }';
    const poll = rods({ walkers, poll_ms: 100 }).spacings[0]!.poll!;
    expect(poll.sure_to_mps).toBeCloseTo(1, 12);
    expect(Math.abs(poll.unsure.value - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / poll.unsure.n));
  });

  test('is sure of everybody at an interval of exactly s/v, and of nobody just above', () => {
    expect(rods({ poll_ms: 100 }).spacings[0]!.poll!.unsure.value).toBe(0);
    const slow = rods({ poll_ms: 100.1 });
    expect(slow.spacings[0]!.poll!.unsure.value).toBe(1);
    expect(codes(slow)).toContain('poll_slow');
    expect(rods().spacings[0]!.poll).toBeNull();
  });
});

test('a break of a 0.02 m rod at 1 m/s lasts 20 ms: a response time of 30 ms sees none of it, 10 ms all', () => {
  const walkers = '{ rod: { kind: test-rod, diameter_m: 0.02, speed_mps: 1 } }';
  const at = (response_ms: number) => rods({ walkers, sensor: `{ kind: light-barrier, response_ms: ${response_ms} }` });
  expect(at(10).beams[0]!.response!.shortest_break_ms).toBeCloseTo(20, 1);
  expect(at(10).beams[0]!.response!.unseen.value).toBe(0);
  expect(at(30).beams[0]!.response!.unseen.value).toBe(1);
  expect(codes(at(30))).toContain('response_slow');
});

test('an emitter reaches the other receiver within its half-angle: 0.05 m across 0.90 m is 3.2°, 0.10 m is 6.3°', () => {
  const sensor = '{ kind: light-barrier, separation: none, half_angle_deg: 4 }';
  expect(factsOf({ sensor, spacing_m: 0.05 }).interference).toEqual([
    { emitter: 'A', receiver: 'B' },
    { emitter: 'B', receiver: 'A' },
  ]);
  expect(factsOf({ sensor, spacing_m: 0.1 }).interference).toEqual([]);
  expect(factsOf({ spacing_m: 0.05 }).interference).toEqual([]);
});

test('two adults fit side by side through a wide opening only, and turn their shoulders in a narrow one', () => {
  const narrow = factsOf({ width_m: 0.55 });
  expect(narrow.opening.abreast.value).toBe(0);
  expect(narrow.opening.turned.value).toBeGreaterThan(0.9);
  expect(codes(narrow)).toContain('narrow');
  const wide = factsOf({ width_m: 1.6 });
  expect(wide.opening.abreast.value).toBe(1);
  expect(wide.opening.turned.value).toBe(0);
});

test('cautions follow the height: legs below, people who pass beneath above, neither at the hip of adults', () => {
  const adults = '[{ who: adult, kind: through, share: 1 }]';
  expect(codes(factsOf({ mix: adults, height_m: 0.2 }))).toContain('legs');
  expect(codes(factsOf({ mix: adults, height_m: 1.7 }))).toContain('too_high');
  expect(codes(factsOf({ mix: adults, height_m: 1.2 }))).toEqual([]);
});

test('the zone covers every break, and no seed changes a fact', () => {
  const design = doorDesign();
  expect(deriveFacts(design)[0]!.zone).toMatchObject({ zone_m: 1, least_m: 0.65, cut: { value: 0 } });
  expect(deriveFacts({ ...design, seed: 'another' })).toEqual(deriveFacts(design));
});
