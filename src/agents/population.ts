/**
 * Draws a person of a population: age, sex, stature, then every proportion with its own scatter.
 *
 * Each purpose has a draw number of its own in the person's stream, so that a purpose added later moves nothing, and
 * a known stature or speed leaves the rest of the person as it was. Scatters are normal, cut at three standard
 * deviations. Breadths follow stature as weakly as the survey found; scatters of different measures are independent,
 * but for the girths of one leg, of one arm, and of the waist, which each share a draw.
 */
import { pick, runningTotals, standardWithin3, uniform } from '../engine/distributions.js';
import type { Stream } from '../engine/stream.js';
import { personOf, type Identity } from './build.js';
import type { Person, Sex } from './person.js';
import type { PetWalker, Walker } from './schema.js';
import { ageOfStature, statureAt } from './stature.js';

/** Draw numbers in a person's stream; those of the body are in build.ts. Never renumber: only add. */
const DRAW = { row: 0, age: 1, sex: 2, stature: 3 } as const;

/** Walkers that are people; a test rod has no age, a pet no stature. */
export type PeopleWalker = Exclude<Walker, PetWalker | { kind: 'test-rod' }>;

/**
 * One person of `walker`, a pure function of the stream. Takes about 2 µs.
 *
 * @param homePace walking pace as a share of the comfortable pace; a speed the walker states is taken as it is
 * @example drawPerson({ kind: 'people', ages_y: [18, 80], women_share: 0.5, with_infant: false }, stream.nth(17), 0.7)
 */
export function drawPerson(walker: PeopleWalker, stream: Stream, homePace: number): Person {
  return personOf(identify(walker, stream), stream, homePace);
}

function identify(walker: PeopleWalker, stream: Stream): Identity {
  const infant = walker.with_infant;
  switch (walker.kind) {
    case 'person':
      return { sex: walker.sex, age_y: walker.age_y, stature_m: walker.stature_m, speed_mps: walker.speed_mps, infant };
    case 'people': {
      const sex = drawSex(stream, walker.women_share);
      const age_y = uniform(stream.at(DRAW.age), walker.ages_y[0], walker.ages_y[1]);
      const stature_m = statureAt(standardWithin3(stream.at(DRAW.stature)), sex, age_y);
      return { sex, age_y, stature_m, speed_mps: undefined, infant };
    }
    case 'table': {
      const row = walker.rows[pick(stream.at(DRAW.row), totalsOf(walker))] as (typeof walker.rows)[number];
      const sex = row.sex ?? drawSex(stream, 0.5);
      const age_y = row.age_y ?? ageOfStature(row.stature_m, sex);
      return { sex, age_y, stature_m: row.stature_m, speed_mps: undefined, infant };
    }
  }
}

function drawSex(stream: Stream, womenShare: number): Sex {
  return stream.at(DRAW.sex) < womenShare ? 'woman' : 'man';
}

/** Running totals of a table's shares, worked out once per table. */
const TOTALS = new WeakMap<object, readonly number[]>();
function totalsOf(walker: Extract<Walker, { kind: 'table' }>): readonly number[] {
  let totals = TOTALS.get(walker);
  if (!totals) {
    totals = runningTotals(walker.rows.map((row) => row.share));
    TOTALS.set(walker, totals);
  }
  return totals;
}
