/** The crowd over random houses: nobody appears, vanishes, is in two places, or walks through another. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import type { CrowdDoor, CrowdPlan } from '../../src/agents/crowd-plan.js';
import { OUTSIDE } from '../../src/agents/outside.js';
import { Crowd } from '../../src/agents/crowd.js';
import type { MixEntry } from '../../src/agents/schema.js';
import type { Visit } from '../../src/agents/visit.js';
import { fitsAbreast } from '../../src/agents/walkers.js';
import { Stream } from '../../src/engine/stream.js';
import { howMany } from '../how-many.js';

const HOUR_US = 3.6e9;
const KINDS = ['through', 'abreast', 'close-behind', 'against', 'turn-back', 'linger'] as const;

/** A house of one to three rooms and one to three doors between any two sides. */
const plans: fc.Arbitrary<CrowdPlan> = fc
  .array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 3 })
  .chain((people_at_start) => {
    const side = fc.integer({ min: OUTSIDE, max: people_at_start.length - 1 });
    const mix: fc.Arbitrary<MixEntry[]> = fc
      .array(fc.tuple(fc.constantFrom('adult', 'child', 'adult-with-infant'), fc.constantFrom(...KINDS)), {
        minLength: 1,
        maxLength: 5,
      })
      .map((rows) => rows.map(([who, kind]) => ({ who, kind, share: 1 / rows.length })));
    const door: fc.Arbitrary<CrowdDoor> = fc
      .record({
        sides: fc.tuple(side, side).filter(([from, to]) => from !== to),
        width_m: fc.double({ min: 0.6, max: 2, noNaN: true }),
        per_hour: fc.integer({ min: 1, max: 1200 }),
        forward_share: fc.double({ min: 0, max: 1, noNaN: true }),
        one_way: fc.boolean(),
        stay_mean_min: fc.double({ min: 0.05, max: 20, noNaN: true }),
        mix,
      })
      .map(({ sides: [from, to], width_m, per_hour, ...traffic }) => ({
        name: 'door',
        from,
        to,
        opening: { width_m, zone_m: 1 },
        traffic: { arrivals_per_hour: per_hour, home_pace: 0.7, ...traffic },
      }));
    return fc.record({
      people_at_start: fc.constant(people_at_start),
      doors: fc
        .array(door, { minLength: 1, maxLength: 3 })
        .map((doors) => doors.map((one, i) => ({ ...one, name: `door ${i}` }))),
      walkers: fc.constant({}),
      clock_us: fc.constant(0.3 * HOUR_US),
      starts_at_h: fc.constant(8),
    });
  });

function visitsOf(plan: CrowdPlan, seed: number): Visit[] {
  const visits: Visit[] = [];
  new Crowd(plan, Stream.root(String(seed))).run((visit) => visits.push(visit));
  return visits;
}
const sidesOf = (plan: CrowdPlan, visit: Visit): readonly [from: number, to: number] => {
  const door = plan.doors[visit.door]!;
  return visit.direction === 'forward' ? [door.from, door.to] : [door.to, door.from];
};
const SEEDED = { seed: 17, numRuns: howMany(80, 800) };

describe('over random houses', () => {
  test('every room holds at least nobody, and people are conserved', () => {
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        const rooms = [...plan.people_at_start];
        let outside = 0;
        const crossings = visitsOf(plan, seed)
          .filter((visit) => visit.cross_us !== null)
          .sort((a, b) => a.cross_us! - b.cross_us!);
        for (const visit of crossings) {
          const [from, to] = sidesOf(plan, visit);
          if (from === OUTSIDE) outside -= visit.persons;
          else rooms[from]! -= visit.persons;
          if (to === OUTSIDE) outside += visit.persons;
          else rooms[to]! += visit.persons;
          expect(Math.min(...rooms)).toBeGreaterThanOrEqual(0);
        }
        const sum = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
        expect(sum(rooms) + outside).toBe(sum(plan.people_at_start));
      }),
      SEEDED,
    );
  });

  test('each body comes from where it last went to, and is in one doorway at a time', () => {
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        const bodies = new Map<number, { at: number; until: number; who: string; stature_m: number }>();
        for (const visit of visitsOf(plan, seed)) {
          const [from, to] = sidesOf(plan, visit);
          const before = bodies.get(visit.body);
          if (before) {
            expect(from).toBe(before.at);
            expect(visit.enter_us).toBeGreaterThanOrEqual(before.until);
            expect([visit.who, visit.stature_m]).toEqual([before.who, before.stature_m]);
          }
          bodies.set(visit.body, {
            at: visit.cross_us === null ? from : to,
            until: visit.leave_us,
            who: visit.who,
            stature_m: visit.stature_m,
          });
        }
      }),
      SEEDED,
    );
  });

  test('visits come in order of entering, numbered from 1, begin within the clock and cross on their way', () => {
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        let last = 0;
        visitsOf(plan, seed).forEach((visit, i) => {
          expect(visit.number).toBe(i + 1);
          expect(visit.enter_us).toBeGreaterThanOrEqual(last);
          expect(visit.enter_us).toBeLessThan(plan.clock_us);
          expect(Number.isInteger(visit.enter_us) && Number.isInteger(visit.leave_us)).toBe(true);
          if (visit.cross_us !== null) {
            expect(visit.cross_us).toBeGreaterThan(visit.enter_us);
            expect(visit.cross_us).toBeLessThan(visit.leave_us);
          }
          if (visit.kind === 'turn-back') expect(visit.cross_us).toBeNull();
          last = visit.enter_us;
        });
      }),
      SEEDED,
    );
  });
});

describe("two who don't fit side by side", () => {
  /** All pairs that don't fit and are in one doorway at the same time, by who entered first. */
  function meetings(plan: CrowdPlan, seed: number): (readonly [first: Visit, second: Visit])[] {
    const byDoor = plan.doors.map((): { visit: Visit; body: Body }[] => []);
    new Crowd(plan, Stream.root(String(seed))).run((visit, body) => byDoor[visit.door]!.push({ visit, body }));
    return byDoor.flatMap((visits, d) =>
      visits.flatMap((second, j) =>
        visits
          .slice(0, j)
          .filter((first) => first.visit.leave_us > second.visit.enter_us)
          .filter((first) => !fitsAbreast(first.body, second.body, plan.doors[d]!.opening))
          .map((first) => [first.visit, second.visit] as const),
      ),
    );
  }

  test('nobody meets anybody who comes against them or stands in the way', () => {
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        for (const [first, second] of meetings(plan, seed)) {
          expect(second.direction).toBe(first.direction);
          expect(['turn-back', 'linger']).not.toContain(first.kind);
        }
      }),
      SEEDED,
    );
  });

  test('nobody overtakes, and followers keep 0.4 s behind from one end of the doorway to the other', () => {
    let met = 0;
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        for (const [first, second] of meetings(plan, seed)) {
          expect(second.enter_us - first.enter_us).toBeGreaterThanOrEqual(399_999);
          expect(second.leave_us - first.leave_us).toBeGreaterThanOrEqual(399_999);
          met++;
        }
      }),
      SEEDED,
    );
    expect(met).toBeGreaterThan(100);
  });
});
