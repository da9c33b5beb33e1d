/** Small runs to compare, truly simulated: invented doors, changed where a test needs it. */
import type { CompareRun } from '../../../src/report/compare/runs.js';
import { formatIssue } from '../../../src/scenario/explain.js';
import { parseScenario } from '../../../src/scenario/parse.js';
import type { Design } from '../../../src/scenario/schema.js';
import { applySets } from '../../../src/scenario/set.js';
import type { ReplicateSample } from '../../../src/score/replicate-sample.js';
import { simulate } from '../../../src/simulate/simulate.js';

const SCENARIO = `format: 1
name: "Invented: two doors and a hall"
seed: 5
hours: 3
replicates: 6
rooms: [{ name: hall }, { name: shed }]
controllers: [{ name: main }]
sensors: { barrier: { kind: light-barrier } }
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair: { sensor: barrier, height_m: 0.95, spacing_m: 0.06 }
    traffic: &traffic
      arrivals_per_hour: 30
      mix:
        - { who: adult, kind: through, share: 0.6 }
        - { who: child, kind: through, share: 0.2 }
        - { who: adult, kind: turn-back, share: 0.2 }
  - name: back
    from: outside
    to: shed
    width_m: 0.9
    pair: { sensor: barrier, height_m: 0.95, spacing_m: 0.06 }
    traffic: *traffic
logics: [four-level]
ledgers: [floor]
`;

export function designOf(sets: readonly string[] = [], text = SCENARIO): Design {
  const parsed = parseScenario(text, 'compare.yaml');
  const { design, issues } = parsed.design ? applySets(parsed.design, sets) : parsed;
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

/** What `jambeam run` would have found out. */
export function runOf(label: string, sets: readonly string[] = [], text = SCENARIO): CompareRun {
  const design = designOf(sets, text);
  return { label, design, ...simulate(design) };
}

export const LOW = 'doors.*.beams.*.height_m=0.3';
export const HIGH = 'doors.*.beams.*.height_m=1.3';

/** A run with other counts at its first door, the other doors silent: [crossings, missed] per replicate. */
export function withCounts(
  run: CompareRun,
  counts: readonly (readonly [crossings: number, missed: number])[],
): CompareRun {
  const replicates = counts.map(
    ([crossings, missed], r): ReplicateSample => ({
      ...run.figures.replicates![r]!,
      doors: run.design.doors.map((_, d) => [d === 0 ? [crossings, missed, 0, 0, 0, 0] : [0, 0, 0, 0, 0, 0]]),
    }),
  );
  return {
    ...run,
    metrics: { ...run.metrics, replicates: counts.length },
    figures: { ...run.figures, replicates },
  };
}
