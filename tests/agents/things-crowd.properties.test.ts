/** The crowd at random doorways with leaves, curtains, loads and what rolls: a shut leaf is shut for everybody. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CrowdPlan } from '../../src/agents/crowd-plan.js';
import { OUTSIDE } from '../../src/agents/outside.js';
import { Crowd } from '../../src/agents/crowd.js';
import type { MixEntry } from '../../src/agents/schema.js';
import type { Visit } from '../../src/agents/visit.js';
import { Stream } from '../../src/engine/stream.js';
import { howMany } from '../how-many.js';

const HOUR_US = 3.6e9;
const WHO = [
  ['adult', 'through'],
  ['adult', 'abreast'],
  ['adult', 'against'],
  ['child', 'reach'],
  ['adult', 'linger'],
  ['adult-with-pram', 'through'],
  ['wheelchair-pushed', 'close-behind'],
  ['wheelchair-user', 'through'],
  ['adult-with-suitcase', 'turn-back'],
  ['adult-with-laundry-basket', 'reach'],
  ['robot-vacuum', 'through'],
] as const;

/** One doorway between outside and a room. */
const plans: fc.Arbitrary<CrowdPlan> = fc
  .record({
    people: fc.integer({ min: 0, max: 6 }),
    per_hour: fc.integer({ min: 1, max: 400 }),
    mix: fc.array(fc.constantFrom(...WHO), { minLength: 1, maxLength: 5 }),
    width_m: fc.double({ min: 0.7, max: 1.6, noNaN: true }),
    shut_share: fc.double({ min: 0, max: 1, noNaN: true }),
    swing_s: fc.double({ min: 0.3, max: 8, noNaN: true }),
    opens_deg: fc.integer({ min: 60, max: 180 }),
    draught_per_hour: fc.integer({ min: 0, max: 200 }),
    gusts: fc.integer({ min: 0, max: 200 }),
    forward_share: fc.double({ min: 0, max: 1, noNaN: true }),
  })
  .map(({ people, per_hour, mix, width_m, forward_share, gusts, ...leaf }) => ({
    people_at_start: [people],
    doors: [
      {
        name: 'door',
        from: OUTSIDE,
        to: 0,
        opening: { width_m, zone_m: 1 },
        traffic: {
          arrivals_per_hour: per_hour,
          home_pace: 0.7,
          one_way: false,
          stay_mean_min: 2,
          forward_share,
          mix: mix.map(([who, kind]): MixEntry => ({ who, kind, share: 1 / mix.length })),
        },
        hangs: {
          place: { width_m, height_m: 2, jamb_depth_m: 0.12 },
          leaf: { hinge: 'left' as const, opens: 'forward' as const, thickness_m: 0.04, ...leaf },
          curtain: { at_m: 0.4, swing_m: -0.5, per_hour: gusts, gust_s: 2 },
        },
      },
    ],
    walkers: {},
    clock_us: 0.5 * HOUR_US,
    starts_at_h: 8,
  }));

function visitsOf(plan: CrowdPlan, seed: number): Visit[] {
  const visits: Visit[] = [];
  new Crowd(plan, Stream.root(String(seed))).run((visit) => visits.push(visit));
  return visits;
}
const SEEDED = { seed: 5, numRuns: howMany(60, 600) };

describe('at random doorways with a leaf', () => {
  test('a leaf swings by turns, open and shut, and nobody is in the doorway from when it shuts until it is open', () => {
    let spans = 0;
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        const { leaf } = plan.doors[0]!.hangs!;
        const visits = visitsOf(plan, seed);
        // A stir is as long as no swing here is seen to be, and moves nothing.
        const swings = visits.filter(({ who, leave_us, enter_us }) => who === 'leaf' && leave_us - enter_us !== 3e6);
        let shut = leaf!.shut_share > 0.5 ? 0 : Infinity;
        for (const swing of swings) {
          if (swing.direction === 'forward') {
            expect(shut).toBeLessThanOrEqual(swing.enter_us);
            const within = visits.filter(
              ({ who, enter_us, leave_us }) =>
                who !== 'leaf' && who !== 'curtain' && enter_us < swing.leave_us && leave_us > shut,
            );
            expect(within).toEqual([]);
            shut = Infinity;
            spans++;
          } else {
            expect(shut).toBe(Infinity);
            shut = swing.enter_us;
          }
        }
        if (shut < Infinity)
          expect(visits.filter(({ persons, enter_us }) => persons > 0 && enter_us > shut)).toEqual([]);
      }),
      SEEDED,
    );
    expect(spans).toBeGreaterThan(100);
  });

  test('visits come in order, of one body one at a time, and people are conserved whatever they push', () => {
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        const until = new Map<number, number>();
        let last = 0;
        const visits = visitsOf(plan, seed);
        visits.forEach((visit, i) => {
          expect(visit.number).toBe(i + 1);
          expect(visit.enter_us).toBeGreaterThanOrEqual(last);
          expect(visit.enter_us).toBeGreaterThanOrEqual(until.get(visit.body) ?? 0);
          expect(visit.enter_us).toBeLessThan(plan.clock_us);
          if (visit.kind === 'swing' || visit.kind === 'reach') expect(visit.cross_us).toBeNull();
          if (visit.kind === 'swing') expect([visit.persons, visit.sort, visit.entry]).toEqual([0, 'thing', -1]);
          until.set(visit.body, visit.leave_us);
          last = visit.enter_us;
        });
        let inside = plan.people_at_start[0]!;
        for (const { persons, direction } of visits
          .filter(({ cross_us }) => cross_us !== null)
          .toSorted((a, b) => a.cross_us! - b.cross_us!)) {
          inside += direction === 'forward' ? persons : -persons;
          expect(inside).toBeGreaterThanOrEqual(0);
        }
      }),
      SEEDED,
    );
  });

  test('what hangs in the doorway changes nobody: the same people set out, whoever has to wait', () => {
    fc.assert(
      fc.property(plans, fc.nat(1e6), (plan, seed) => {
        // Visitors only and no robot: nobody is kept out or missing from a room.
        const [door] = plan.doors;
        const { traffic, ...rest } = door!;
        const mix = [{ who: 'adult', kind: 'through' as const, share: 1 }];
        const alone = { ...rest, traffic: { ...traffic, one_way: true, forward_share: 1, mix } };
        const bare = { ...plan, doors: [{ ...alone, hangs: undefined }] };
        const people = (one: CrowdPlan) =>
          new Map(
            visitsOf(one, seed).flatMap(({ kind, body, stature_m }) => (kind === 'swing' ? [] : [[body, stature_m]])),
          );
        const [hung, free] = [people({ ...plan, doors: [alone] }), people(bare)];
        for (const [body, stature] of hung) expect(free.get(body)).toBe(stature);
      }),
      SEEDED,
    );
  });
});
