/** What holds for every run: the same seed gives the same bytes, a world turned round gives itself, lone rods are right. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import type { EdgeRow, TallyRow } from '../../src/simulate/outcome.js';
import { runReplicate } from '../../src/simulate/replicate.js';
import { simulate } from '../../src/simulate/simulate.js';
import type { Visit } from '../../src/agents/visit.js';
import { howMany } from '../how-many.js';

const LONG = howMany(1, 20);
const DIAMETER_M = 0.006;

function designOf(text: string): Design {
  const { design, issues } = parseScenario(text, 'run.yaml');
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

interface Rows {
  readonly visits: Visit[];
  readonly edges: EdgeRow[];
  readonly tallies: TallyRow[];
}
function rowsOf(design: Design, number = 1): Rows {
  const rows: Rows = { visits: [], edges: [], tallies: [] };
  runReplicate(design, number, {
    passage: (_, visit) => rows.visits.push(visit),
    edge: (_, edge) => rows.edges.push(edge),
    tally: (_, tally) => rows.tallies.push(tally),
  });
  return rows;
}

/** A hall with people in it behind a front door with every kind of passage, seen from outside or from the hall. */
interface House {
  readonly seed: number;
  readonly width_m: number;
  readonly height_m: number;
  readonly spacing_m: number;
  readonly per_hour: number;
  readonly extra?: string;
}
const houses: fc.Arbitrary<House> = fc.record({
  seed: fc.nat(1e6),
  width_m: fc.double({ min: 0.7, max: 1.6, noNaN: true }),
  height_m: fc.double({ min: 0.05, max: 1.7, noNaN: true }),
  spacing_m: fc.double({ min: 0.03, max: 0.25, noNaN: true }),
  per_hour: fc.integer({ min: 30, max: 400 }),
});
function house({ seed, width_m, height_m, spacing_m, per_hour, extra = '' }: House, turnedRound: boolean): Design {
  const jamb = turnedRound ? 'right' : 'left';
  const [from, to] = turnedRound ? ['hall', 'outside'] : ['outside', 'hall'];
  const beam = (name: string, side: number) =>
    `{ name: ${name}, sensor: barrier, at_m: ${(side * spacing_m) / 2}, height_m: ${height_m}, mount: ${jamb}-jamb }`;
  return designOf(`format: 1
name: house
seed: ${seed}
replicates: 3
hours: 0.5
rooms: [{ name: hall, people_at_start: 6 }]
sensors: { barrier: { kind: light-barrier, beam_diameter_m: ${DIAMETER_M}, covered_share: 0.4${extra} } }
logics: [four-level, first-broken, hold-off]
doors:
  - name: front
    from: ${from}
    to: ${to}
    width_m: ${width_m}
    beams: [${beam('A', -1)}, ${beam('B', 1)}]
    traffic:
      arrivals_per_hour: ${per_hour}
      forward_share: ${turnedRound ? 0 : 1}
      stay_mean_min: 2
      mix:
        - { who: adult, kind: through, share: 0.3 }
        - { who: child, kind: through, share: 0.2 }
        - { who: adult, kind: abreast, share: 0.1 }
        - { who: adult, kind: close-behind, share: 0.1 }
        - { who: adult, kind: against, share: 0.1 }
        - { who: child, kind: turn-back, share: 0.1 }
        - { who: adult-with-infant, kind: linger, share: 0.1 }
`);
}

describe('chance, repeatably', () => {
  const noisy = houses.map((one) => ({
    ...one,
    extra: ', spurious_per_hour: 20, missed_share: 0.05, layout: reflector, shiny_share: 0.1',
  }));

  test('the same seed gives the same bytes; another seed does not', () => {
    fc.assert(
      fc.property(noisy, (one) => {
        const bytes = (seed: number) => {
          const design = house({ ...one, seed }, false);
          const rows: unknown[] = [];
          const outcome = simulate(design, {
            passage: (...row) => rows.push(row),
            edge: (...row) => rows.push(row),
            tally: (...row) => rows.push(row),
          });
          return JSON.stringify([rows, outcome]);
        };
        const first = bytes(one.seed);
        expect(bytes(one.seed)).toBe(first);
        expect(bytes(one.seed + 1)).not.toBe(first);
      }),
      { seed: 1, numRuns: LONG > 1 ? 8 * LONG : 3 },
    );
  });

  test('a replicate run by itself is the one of the whole run', () => {
    fc.assert(
      fc.property(noisy, (one) => {
        const design = house(one, false);
        const whole: Rows[] = [1, 2, 3].map(() => ({ visits: [], edges: [], tallies: [] }));
        simulate(design, {
          passage: (number, visit) => whole[number - 1]!.visits.push(visit),
          edge: (number, edge) => whole[number - 1]!.edges.push(edge),
          tally: (number, tally) => whole[number - 1]!.tallies.push(tally),
        });
        for (const number of [3, 1, 2]) expect(rowsOf(design, number)).toEqual(whole[number - 1]);
      }),
      { seed: 2, numRuns: LONG > 1 ? 5 * LONG : 2 },
    );
  });

  test('the crowd is the same whatever is mounted in the frame', () => {
    fc.assert(
      fc.property(houses, houses, (one, other) => {
        const moved = { ...one, height_m: other.height_m, spacing_m: other.spacing_m, extra: ', response_ms: 30' };
        expect(rowsOf(house(moved, false)).visits).toEqual(rowsOf(house(one, false)).visits);
      }),
      { seed: 3, numRuns: 5 * LONG },
    );
  });
});

describe('a world turned half round', () => {
  test('A and B and all directions change places, and nothing else', () => {
    let edges = 0;
    fc.assert(
      fc.property(houses, (one) => {
        const here = rowsOf(house(one, false));
        const there = rowsOf(house(one, true));
        const other = (direction: string) => (direction === 'forward' ? 'backward' : 'forward');
        expect(there.visits).toEqual(here.visits.map((visit) => ({ ...visit, direction: other(visit.direction) })));
        const turned = here.edges.map((edge) => ({ ...edge, beam: 1 - edge.beam }));
        const inOrder = (rows: EdgeRow[]) => rows.toSorted((a, b) => a.time_us - b.time_us || a.beam - b.beam);
        expect(inOrder(there.edges)).toEqual(inOrder(turned));
        expect(there.tallies).toEqual(here.tallies.map((row) => ({ ...row, direction: other(row.direction) })));
        edges += here.edges.length;
      }),
      { seed: 4, numRuns: 25 * LONG },
    );
    expect(edges).toBeGreaterThan(10_000 * LONG);
  });
});

describe('a rod alone', () => {
  const rods = fc.record({
    seed: fc.nat(1e6),
    spacing_m: fc.double({ min: 0.02, max: 0.3, noNaN: true }),
    height_m: fc.double({ min: 0.03, max: 1.7, noNaN: true }),
    speed_mps: fc.double({ min: 0.2, max: 4, noNaN: true }),
    deeper_m: fc.double({ min: 0.002, max: 0.3, noNaN: true }),
    slower: fc.double({ min: 1.01, max: 20, noNaN: true }),
    forward_share: fc.double({ min: 0, max: 1, noNaN: true }),
  });
  type Rods = Parameters<Parameters<typeof rods.map>[0]>[0];

  /** Visits that no other overlaps, with the tallies of each. */
  function alone(one: Rods, diameter_m: number, logics: string): { visit: Visit; tallies: TallyRow[] }[] {
    // Longest response that the rod is slow enough for: its shadow must outlast it.
    const response_ms = Math.min(1000, (1000 * diameter_m) / one.speed_mps / one.slower);
    const design = designOf(`format: 1
name: rods
seed: ${one.seed}
replicates: 1
hours: 2
rooms: [{ name: hall }, { name: yard, people_at_start: 1000 }]
walkers: { rod: { kind: test-rod, diameter_m: ${diameter_m}, height_m: 1.9, speed_mps: ${one.speed_mps} } }
sensors: { barrier: { kind: light-barrier, response_ms: ${response_ms} } }
logics: ${logics}
doors:
  - name: door
    from: outside
    to: yard
    width_m: 0.9
    pair: { sensor: barrier, height_m: ${one.height_m}, spacing_m: ${one.spacing_m} }
    traffic:
      arrivals_per_hour: 60
      one_way: true
      forward_share: ${one.forward_share}
      mix: [{ who: rod, kind: through, share: 1 }]
`);
    const { visits, tallies } = rowsOf(design);
    // A tally may come a response and a hold-off after the body has left.
    const late_us = 2e6;
    return visits
      .filter((visit, i) => {
        const [before, after] = [visits[i - 1], visits[i + 1]];
        return (
          (!before || before.leave_us + late_us < visit.enter_us) &&
          (!after || visit.leave_us + late_us < after.enter_us)
        );
      })
      .map((visit) => ({
        visit,
        tallies: tallies.filter((row) => row.time_us >= visit.enter_us && row.time_us <= visit.leave_us + late_us),
      }));
  }

  test('taller than the beams, deeper than the spacing, slow enough for the response: always right', () => {
    let seen = 0;
    fc.assert(
      fc.property(rods, (one) => {
        for (const { visit, tallies } of alone(
          one,
          one.spacing_m + one.deeper_m,
          '[four-level, first-broken, hold-off]',
        )) {
          expect(tallies.map(({ logic, direction }) => `${logic} ${direction}`).toSorted()).toEqual([
            `0 ${visit.direction}`,
            `1 ${visit.direction}`,
            `2 ${visit.direction}`,
          ]);
          seen++;
        }
      }),
      { seed: 5, numRuns: 60 * LONG },
    );
    expect(seen).toBeGreaterThan(2000 * LONG);
  });

  test('shallower than the spacing: the four-level walk never counts it', () => {
    let seen = 0;
    fc.assert(
      fc.property(rods, fc.double({ min: 0.05, max: 0.99, noNaN: true }), (one, part) => {
        fc.pre(one.spacing_m * part > DIAMETER_M);
        for (const { tallies } of alone(one, one.spacing_m * part, '[four-level]')) {
          expect(tallies).toEqual([]);
          seen++;
        }
      }),
      { seed: 6, numRuns: 60 * LONG },
    );
    expect(seen).toBeGreaterThan(2000 * LONG);
  });
});
