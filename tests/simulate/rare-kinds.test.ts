/** Extra lone parties of a kind go wrong as often as those of a run do. */
import { describe, expect, test } from 'vitest';
import { tQuantile } from '../../src/engine/distribution-functions.js';
import { wrongOf } from '../../src/score/door-counts.js';
import { ratioEstimate, sum } from '../../src/score/estimates.js';
import type { Estimate } from '../../src/score/metrics-schema.js';
import { oversampled, rareKinds } from '../../src/simulate/rare-kinds.js';
import { runReplicate } from '../../src/simulate/replicate.js';
import { simulate } from '../../src/simulate/simulate.js';
import { doorDesign } from './designs.js';

// At the height of shins and thighs all kinds go wrong now and then. So few come that they hardly ever meet.
const KINDS = ['through', 'turn-back', 'linger', 'abreast', 'close-behind'] as const;
const MIX = `[${KINDS.map((kind) => `{ who: adult, kind: ${kind}, share: 0.2 }`).join(', ')}]`;
const base = doorDesign({ height_m: 0.45, mix: MIX });
const front = base.doors[0]!;
const calm = { ...front, traffic: { ...front.traffic, arrivals_per_hour: 3 } };
const design = { ...base, doors: [calm], replicates: 20, hours: 60 };

/** Standard error of an estimate from its interval over 20 replicates or blocks. */
const errorOf = ({ low, value, high }: Estimate) => Math.max(high! - value!, value! - low!) / tQuantile(0.975, 19);

describe('where no kind is rare', () => {
  const replicates = Array.from(
    { length: design.replicates },
    (_, r) => runReplicate(design, r + 1, {}).record.doors[0]!.logics[0]!,
  );
  const rows = KINDS.map((kind) => {
    const cases = replicates.map((door) => door.kinds.find((counts) => counts.kind === kind)!);
    const visits = cases.map((counts) => counts.visits);
    return {
      kind,
      visits: sum(visits),
      plain: ratioEstimate(cases.map(wrongOf), visits, { nothing: '' }),
      net: ratioEstimate(
        cases.map((counts) => counts.net_error),
        visits,
        { nothing: '', signed: true },
      ),
      extra: oversampled(design, calm, 'adult', kind),
    };
  });

  test('nothing is oversampled', () => {
    expect(Math.min(...rows.map(({ visits }) => visits))).toBeGreaterThan(100);
    expect(rareKinds(design, [replicates])).toEqual([[]]);
  });

  // Ten comparisons of two independent estimates, each held to 4 standard errors. With the fewest degrees of freedom that
  // they can have, 19, a right program fails each with probability 0.00077, and one of them at level 0.01.
  test.each(rows)('$kind: the extra ones agree with those of the run', ({ plain, net, extra }) => {
    const joint = (a: Estimate, b: Estimate) => Math.sqrt(errorOf(a) * errorOf(a) + errorOf(b) * errorOf(b));
    expect(Math.abs(plain.value! - extra.wrong.value!)).toBeLessThan(4 * joint(plain, extra.wrong));
    expect(Math.abs(net.value! - extra.net_error.value!)).toBeLessThan(4 * joint(net, extra.net_error));
  });

  test('which is no small matter: most kinds differ from one another by more than that', () => {
    let apart = 0;
    for (const a of rows) {
      for (const b of rows) {
        if (a.kind >= b.kind) continue;
        const joint = Math.sqrt(errorOf(a.plain) * errorOf(a.plain) + errorOf(b.extra.wrong) * errorOf(b.extra.wrong));
        if (Math.abs(a.plain.value! - b.extra.wrong.value!) > 4 * joint) apart++;
      }
    }
    expect(apart).toBeGreaterThan(5);
  });

  test('weighed by how often they come, the extra ones add up to all that went wrong in the run', () => {
    const total = replicates.map((door) => sum(door.kinds.map(wrongOf)));
    const wrong = ratioEstimate(
      total,
      total.map(() => 1),
      { nothing: '' },
    );
    const perReplicate = rows.map(({ visits }) => visits / replicates.length);
    const weighed = sum(rows.map(({ extra }, k) => perReplicate[k]! * extra.wrong.value!));
    const variance = sum(
      rows.map(({ extra }, k) => {
        const error = perReplicate[k]! * errorOf(extra.wrong);
        return error * error;
      }),
    );
    // How often they come is the same on both sides, so this is a little wider than it need be.
    const joint = Math.sqrt(variance + errorOf(wrong) * errorOf(wrong));
    expect(Math.abs(weighed - wrong.value!)).toBeLessThan(4 * joint);
  });
});

describe('where one is', () => {
  const seldom = '[{ who: adult, kind: through, share: 0.99 }, { who: child, kind: linger, share: 0.01 }]';
  const rare = { ...doorDesign({ height_m: 0.45, mix: seldom }), replicates: 4, hours: 24 };
  const { metrics } = simulate(rare);
  const [door] = metrics.doors;

  test('it is oversampled and the common one is not, and its numbers a week are how often it comes times what the extra ones say', () => {
    const row = (who: string, kind: string) => door!.by_kind.find((one) => one.who === who && one.kind === kind);
    const [common, lingering] = [row('adult', 'through'), row('child', 'linger')];
    expect(common).not.toHaveProperty('oversampled');
    expect(lingering).toMatchObject({ who: 'child', kind: 'linger', oversampled: 400 });
    expect(lingering!.visits).toBeLessThan(100);
    const { wrong } = oversampled(rare, rare.doors[0]!, 'child', 'linger');
    expect(lingering!.wrong_per_week.value).toBeCloseTo(lingering!.visits_per_week.value! * wrong.value!, 12);
    const width = ({ low, high, value }: Estimate) => (high! - low!) / value!;
    expect(width(wrong)).toBeLessThan(width(lingering!.wrong_per_100_visits));
  });

  test('a house of many doors has fewer extra parties for each, and never fewer than forty', () => {
    const of = (doors: number) => {
      const [front] = rare.doors;
      const house = { ...rare, doors: Array.from({ length: doors }, (_, d) => ({ ...front!, name: `door ${d}` })) };
      const counts = runReplicate({ ...rare, hours: 2 }, 1, {}).record.doors.map(({ logics }) => [logics[0]!]);
      const once = rareKinds(
        house,
        Array.from({ length: doors }, () => counts[0]!),
      );
      return new Set(once.flat().map(({ visits }) => visits));
    };
    expect(of(1)).toEqual(new Set([400]));
    // 3,000 parties over 40 doors with at least one rare kind each: 75 at the most.
    const many = [...of(40)];
    expect(many).toHaveLength(1);
    expect(many[0]).toBeGreaterThanOrEqual(40);
    expect(many[0]).toBeLessThanOrEqual(75);
  });

  test('what is said of the whole door is still what the run counted', () => {
    const totals = [1, 2, 3, 4].map((number) => runReplicate(rare, number, {}).record.doors[0]!.logics[0]!.total);
    const crossings = sum(totals.map((total) => total.crossings));
    expect(door!.person_crossings).toBe(crossings);
    expect(door!.wrong_per_100.value).toBeCloseTo((100 * sum(totals.map(wrongOf))) / crossings, 12);
  });
});
