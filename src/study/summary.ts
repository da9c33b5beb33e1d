/** From the cells of a study to study.json. */
import { type Effort, effortOf } from '../effort/effort.js';
import { type Heading, headed } from '../scenario/heading.js';
import { listKeys } from '../scenario/keys.js';
import { ratioEstimate } from '../score/estimates.js';
import type { Estimate } from '../score/metrics-schema.js';
import { VERSION } from '../simulate/version.js';
import type { Cell } from './cells/cell.js';
import { countedOf, eachCell } from './each-cell.js';
import { effects } from './judge/effects.js';
import { front } from './judge/front.js';
import { type Measure, type MeasureNames, type Ratio, estimateOf, measureOf, usualPaths } from './judge/measure.js';
import { rank } from './judge/ranking.js';
import { type Sample, sampleOf } from './judge/samples.js';
import type { PlannedDesign, StudyPlan } from './plan/plan.js';
import type { DesignStanding, Standing } from './run/standing.js';
import type { CellSource } from './store/journal.js';
import type { StudyDesign, StudySummary } from './summary-schema.js';

/** What is gathered of one design. */
interface Gathered {
  readonly metrics: Readonly<Record<string, Estimate>>;
  readonly by_who: StudyDesign['by_who'];
  /** Of the ranked metric, all that count. */
  readonly ranked: readonly Ratio[];
}

export function summarise(standing: Standing, journal: CellSource): StudySummary {
  const { plan } = standing;
  const { study, factors } = plan;
  const gathered = gather(standing, journal);
  const designs = standing.designs.map((one): StudyDesign => designOf(one, gathered.get(one.planned.number), plan));
  const { cells } = standing;
  const placed = comparable(standing, gathered);
  const first = plan.design(plan.designs[0]!);
  return {
    format: 1,
    jambeam: VERSION,
    name: study.name,
    ...headed<Heading>({}, study),
    scenario: plan.scenario.name,
    seed: String(plan.scenario.seed),
    hours: first.hours,
    // A slice that is done is not the whole.
    finished: standing.designs.every(({ ended }) => ended !== null),
    cells: { done: designs.reduce((sum, { replicates }) => sum + replicates, 0), most: cells.most },
    replicates: {
      fixed: plan.stopping.fixed,
      until: plan.stopping.until?.until ?? null,
      half_width: plan.stopping.until?.half_width ?? null,
      batch: plan.stopping.batch,
      at_least: plan.stopping.until?.at_least ?? plan.stopping.most,
      at_most: plan.stopping.most,
      most_passages: plan.stopping.until?.most_passages ?? null,
    },
    rank_by: { metric: study.rank_by, unit: plan.measures(plan.designs[0]!).rank.unit, best: study.best },
    currency: first.currency ?? null,
    doors: first.doors.map(({ name }) => name),
    logics: first.logics.map(({ name }) => name),
    ledgers: first.ledgers.map(({ name }) => name),
    factors: factors.map(({ name, keys, levels }, f) => ({
      name,
      keys: [...keys],
      unit: unitOf(keys),
      unpaired: plan.unpaired[f]!,
      levels: levels.map(({ label, value }) => ({ label, value })),
    })),
    where: [...study.where],
    left_out: plan.left_out,
    designs,
    ranking: {
      replicates: placed.replicates,
      rows: rank(
        placed.designs.map(({ planned: { number, crowd }, sample }) => ({
          number,
          crowd,
          sample,
          effort: designs[number - 1]!.effort,
        })),
        study.best,
      ),
    },
    effects: {
      replicates: placed.replicates,
      ...effects(
        placed.designs.map(({ planned: { levels, crowd }, sample }) => ({ levels, crowd, sample })),
        factors.map(({ levels }) => levels.length),
        factors.map(({ levels }) => levels.every(({ value }) => value !== null)),
      ),
    },
    front: front(
      placed.designs.map(({ planned: { number }, sample: { value } }) => ({
        number,
        value: study.best === 'least' ? value : -value,
        effort: designs[number - 1]!.effort,
      })),
    ),
  };
}

function designOf(standing: DesignStanding, gathered: Gathered | undefined, plan: StudyPlan): StudyDesign {
  const { planned, ended, failed } = standing;
  return {
    number: planned.number,
    levels: [...planned.levels],
    crowd: planned.crowd,
    state: ended === 'failed' ? 'failed' : ended === null ? 'unfinished' : 'done',
    ...(ended === 'failed' && { error: failed!.message }),
    replicates: countedOf(standing),
    passages: standing.passages(countedOf(standing)),
    ended: ended === 'failed' ? null : ended,
    metrics: gathered?.metrics ?? {},
    by_who: gathered?.by_who ?? [],
    effort: effortIn(effortOf(plan.design(planned))),
  };
}

/** What an installation takes, drilled through walls. */
export function effortIn({ total }: Effort): StudyDesign['effort'] {
  const { holes, cable_m, minutes, parts_cents, work_cents } = total.drilled;
  return {
    holes: holes.sensors + holes.outlets + holes.doorways + holes.ceilings,
    cable_m,
    hours: Math.round(minutes / 0.6) / 100,
    cost: work_cents === null ? parts_cents / 100 : (parts_cents + work_cents) / 100,
  };
}

/** One pass over all cells, one design at a time: ten thousand designs are never in memory at once. */
function gather(standing: Standing, journal: CellSource): Map<number, Gathered> {
  const found = new Map<number, Gathered>();
  let current: DesignStanding | null = null;
  let cells: Cell[] = [];
  const close = (): void => {
    if (current) found.set(current.planned.number, gatheredOf(current.planned, cells, standing.plan));
    cells = [];
  };
  eachCell(standing, journal, (design, _replicate, cell) => {
    if (design !== current) close();
    current = design;
    cells.push(cell);
  });
  close();
  return found;
}

const measuresByNames = new WeakMap<MeasureNames, readonly Measure[]>();

/** All that a design is told by, the ranked and the looked at among them. */
function toldBy(planned: PlannedDesign, plan: StudyPlan): readonly Measure[] {
  const { names } = planned;
  const known = measuresByNames.get(names);
  if (known) return known;
  const { rank: ranked, stop } = plan.measures(planned);
  const paths = new Set([...usualPaths(names.rooms.length > 0), ranked.path, stop.path]);
  const all = [...paths].map((path) => measureOf(path, names) as Measure);
  measuresByNames.set(names, all);
  return all;
}

function gatheredOf(planned: PlannedDesign, cells: readonly Cell[], plan: StudyPlan): Gathered {
  const { rank: ranked } = plan.measures(planned);
  const who = [...new Set(cells.flatMap((cell) => cell.who.map((one) => one.who)))].sort();
  return {
    metrics: Object.fromEntries(
      toldBy(planned, plan).map((measure) => [
        measure.path,
        estimateOf(
          measure,
          cells.map((cell) => measure.of(cell)),
        ),
      ]),
    ),
    by_who: who.map((name) => {
      const of = cells.map((cell) => cell.who.find((one) => one.who === name) ?? { visits: 0, wrong: 0 });
      return {
        who: name,
        visits: of.reduce((sum, { visits }) => sum + visits, 0),
        wrong_per_100_visits: ratioEstimate(
          of.map(({ wrong }) => wrong),
          of.map(({ visits }) => visits),
          { scale: 100, nothing: 'no visits' },
        ),
      };
    }),
    ranked: cells.map((cell) => ranked.of(cell)),
  };
}

/** Designs that can be compared, over the replicates that all of them have. */
function comparable(
  { plan, designs }: Standing,
  gathered: ReadonlyMap<number, Gathered>,
): { replicates: number; designs: { planned: PlannedDesign; sample: Sample }[] } {
  const some = designs.filter((one) => one.ended !== 'failed' && gathered.has(one.planned.number));
  const replicates = some.length === 0 ? 0 : Math.min(...some.map(countedOf));
  return {
    replicates,
    designs: some.flatMap(({ planned }) => {
      const sample = sampleOf(gathered.get(planned.number)!.ranked.slice(0, replicates), plan.measures(planned).rank);
      return sample ? [{ planned, sample }] : [];
    }),
  };
}

/** The unit that the keys of a factor share; null where they have none, or several. */
function unitOf(keys: readonly string[]): string | null {
  const units = new Set(
    keys.map((key) => {
      const last = key.split('.').at(-1)!;
      return listKeys().find(({ path, unit }) => unit !== undefined && path.split('.').at(-1) === last)?.unit ?? null;
    }),
  );
  return units.size === 1 ? [...units][0]! : null;
}
