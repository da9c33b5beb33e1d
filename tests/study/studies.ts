/** Studies for tests, planned and run in this process. */
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import { doCell, withLesson } from '../../src/study/cells/do-cell.js';
import { type StudyPlan, planStudy } from '../../src/study/plan/plan.js';
import { type Study, studySchema } from '../../src/study/plan/schema.js';
import { Standing } from '../../src/study/run/standing.js';
import type { Entry } from '../../src/study/store/entry.js';
import type { CellSource, Span } from '../../src/study/store/journal.js';

export function designOf(text: string, sets: readonly string[] = []): Design {
  const { design, issues } = parseScenario(text, 'test.yaml', { sets });
  if (!design) throw new Error(JSON.stringify(issues));
  return design;
}

export function studyOf(rest: object): Study {
  return studySchema.parse({ format: 1, name: 'test', scenario: 'test.yaml', ...rest });
}

export function planned(scenario: Design, rest: object): StudyPlan {
  const { plan, issues } = planStudy(studyOf(rest), scenario, undefined);
  if (!plan) throw new Error(JSON.stringify(issues));
  return plan;
}

/** A journal in memory. */
export class Memory implements CellSource {
  readonly entries: Entry[] = [];
  put(entry: Entry): Span {
    this.entries.push(entry);
    return { at: this.entries.length - 1, bytes: 0 };
  }
  read({ at }: Span): Entry {
    return this.entries[at]!;
  }
}

/** All cells done one after another. */
export function runHere(plan: StudyPlan): { standing: Standing; journal: Memory } {
  const standing = new Standing(plan);
  const journal = new Memory();
  for (let cell = standing.next(); cell !== null; cell = standing.next()) {
    const { lesson } = standing.designs[cell.planned.number - 1]!;
    const design = plan.design(cell.planned);
    const done = doCell({ design: withLesson(design, lesson), replicate: cell.replicate });
    const entry: Entry = { d: cell.planned.key, r: cell.replicate, ...('cell' in done ? done.cell : done) };
    standing.take(entry, journal.put(entry));
  }
  return { standing, journal };
}

/**
 * Rods of one speed, one way, as a Poisson stream of rate n through the four-level walk. A walk ends when both beams are
 * clear, so a rod is counted for itself if no rod came in the time before it that a rod takes from the first beam's edge to
 * the last one's, T = (rod + beam + spacing)/speed: of 100 rods 100·(1 − exp(−nT)) are missed.
 */
export const ROD = { diameter_m: 0.3, speed_mps: 1, beam_m: 0.006, per_hour: 600 };
export function missedOf100(spacing_m: number, per_hour = ROD.per_hour): number {
  // Half of the disc covered: the beam breaks at its axis, so the rod's own diameter counts.
  const busy_s = (ROD.diameter_m + spacing_m) / ROD.speed_mps;
  return 100 * (1 - Math.exp((-per_hour / 3600) * busy_s));
}
export function rodsText(seed: string | number, hours: number): string {
  return `format: 1
name: rods
seed: ${seed}
replicates: 1
hours: ${hours}
rooms: [{ name: hall }]
walkers: { rod: { kind: test-rod, diameter_m: ${ROD.diameter_m}, speed_mps: ${ROD.speed_mps} } }
sensors: { barrier: { kind: light-barrier, beam_diameter_m: ${ROD.beam_m}, covered_share: 0.5, response_ms: 0 } }
logics: [{ use: four-level, timeout_ms: 2000000 }]
ledgers: [raw]
doors:
  - name: door
    from: outside
    to: hall
    width_m: 0.9
    zone_m: 1.2
    pair: { sensor: barrier, height_m: 0.9, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: ${ROD.per_hour}, one_way: true, mix: [{ who: rod, kind: through, share: 1 }] }
`;
}
