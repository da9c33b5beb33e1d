// What each replicate found, as figures.json keeps it: summed over replicates it must be what metrics.json says.
import { describe, expect, test } from 'vitest';
import { figuresSchema } from '../../src/cli/figures-schema.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { doorSampleCounts, samplesFit } from '../../src/score/replicate-sample.js';
import { simulate } from '../../src/simulate/simulate.js';

const { design, issues } = parseScenario(
  `format: 1
name: Invented, two doors
seed: 4
hours: 2
replicates: 3
rooms: [{ name: hall }]
controllers: [{ name: main }]
sensors: { barrier: { kind: light-barrier } }
doors:
${['front', 'back']
  .map(
    (name) => `  - name: ${name}
    from: outside
    to: hall
    width_m: 0.9
    pair: { sensor: barrier, height_m: 0.9, spacing_m: 0.06 }
    traffic:
      arrivals_per_hour: 40
      mix: [{ who: adult, kind: through, share: 0.7 }, { who: child, kind: turn-back, share: 0.3 }]`,
  )
  .join('\n')}
logics: [four-level, first-broken]
ledgers: [raw, floor]
`,
  'doors.yaml',
);
if (!design) throw new Error(issues.map(formatIssue).join('\n'));
const { metrics, figures } = simulate(design);
const samples = figures.replicates!;

describe('what each replicate found', () => {
  test.each(['front', 'back'])('the counts of %s add up to the totals and rates of the metrics', (name) => {
    const d = design.doors.findIndex((door) => door.name === name);
    design.logics.forEach((logic, l) => {
      const found = metrics.doors.find((one) => one.door === name && one.logic === logic.name)!;
      const sum = doorSampleCounts(samples.map(({ doors }) => doors[d]![l]!));
      expect(sum.crossings).toBe(found.person_crossings);
      const per100 = (events: number): number => (100 * events) / sum.crossings;
      expect(per100(sum.wrong)).toBeCloseTo(found.wrong_per_100.value!, 10);
      expect(per100(sum.missed)).toBeCloseTo(found.missed_per_100.value!, 10);
      expect(per100(sum.reversed)).toBeCloseTo(found.reversed_per_100.value!, 10);
      expect(per100(sum.extra)).toBeCloseTo(found.extra_per_100.value!, 10);
      expect(per100(sum.invented)).toBeCloseTo(found.invented_per_100.value!, 10);
      expect(per100(sum.net_error)).toBeCloseTo(found.drift_per_100.bias.value!, 10);
    });
  });

  test('the times of a room make its shares', () => {
    for (const found of metrics.rooms) {
      const l = design.logics.findIndex(({ name }) => name === found.logic);
      const g = design.ledgers.findIndex(({ name }) => name === found.ledger);
      const clock = samples.reduce((sum, { clock_us }) => sum + clock_us, 0);
      const share = (i: 0 | 1 | 2): number => samples.reduce((sum, { rooms }) => sum + rooms[0]![l]![g]![i], 0) / clock;
      expect(share(0)).toBeCloseTo(found.exact_share.value!, 10);
      expect(share(1)).toBeCloseTo(found.empty_while_occupied_share.value!, 10);
      expect(share(2)).toBeCloseTo(found.occupied_while_empty_share.value!, 10);
    }
    for (const house of metrics.houses) {
      const l = design.logics.findIndex(({ name }) => name === house.logic);
      const g = design.ledgers.findIndex(({ name }) => name === house.ledger);
      const right = samples.reduce((sum, { houses }) => sum + houses[l]![g]!, 0);
      expect(right / samples.reduce((sum, { clock_us }) => sum + clock_us, 0)).toBeCloseTo(
        house.exact_share.value!,
        10,
      );
    }
  });

  test('read back they are what was written; samples of another design do not fit', () => {
    expect(figuresSchema.parse(JSON.parse(JSON.stringify(figures))).replicates).toEqual(samples);
    expect(samplesFit(samples, design, 3)).toBe(true);
    expect(samplesFit(samples, design, 4)).toBe(false);
    expect(samplesFit(samples, { ...design, doors: design.doors.slice(1) }, 3)).toBe(false);
    expect(samplesFit(samples, { ...design, ledgers: design.ledgers.slice(1) }, 3)).toBe(false);
    const { replicates: _, ...old } = figures;
    expect(figuresSchema.parse(JSON.parse(JSON.stringify(old))).replicates).toBeUndefined();
  });

  test('six doors and rooms, three logics and ledgers, twenty replicates of a week stay below 60 kB', () => {
    const [sample] = samples;
    const times = <T>(n: number, one: T): T[] => Array.from({ length: n }, () => one);
    const WEEK = 604_800_000_000;
    const big = times(20, {
      ...sample!,
      clock_us: WEEK,
      doors: times(6, times(3, [1234, 123, 12, 12, 123, -123])),
      rooms: times(6, times(3, times(1, [WEEK - 1, 12_345_678_901, 12_345_678_901]))),
      houses: times(3, times(1, WEEK - 1)),
    });
    expect(JSON.stringify(big).length).toBeLessThan(60_000);
  });
});
