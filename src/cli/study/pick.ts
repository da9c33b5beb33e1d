/** `jambeam pick`: the cheapest design of a study that surely meets what is wanted, or that none does. */
import { quote, short } from '../../engine/printable.js';
import { effortOf } from '../../effort/effort.js';
import { countedOf, eachCell } from '../../study/each-cell.js';
import { type Measure, type MeasureNames, type Ratio, measureOf } from '../../study/judge/measure.js';
import { combinationWords } from '../../study/plan/factor.js';
import type { PlannedDesign } from '../../study/plan/plan.js';
import { type Want, alphaOf, bound, meets, sideOf, wantOf } from '../../study/judge/pick.js';
import { sampleOf } from '../../study/judge/samples.js';
import type { Standing } from '../../study/run/standing.js';
import type { CellSource } from '../../study/store/journal.js';
import type { StudyDesign } from '../../study/summary-schema.js';
import { effortIn } from '../../study/summary.js';
import type { Io } from '../io.js';
import { jsonText } from '../io.js';
import { LEAST, type Least } from '../option-values.js';
import { UserProblem } from '../problem.js';
import { lookAt } from './study-folder.js';

export interface PickOptions {
  readonly want?: readonly string[];
  readonly least?: string;
  readonly json?: boolean;
}

export function pickCommand(folder: string, options: PickOptions, io: Io): void {
  const wants = wantsOf(options.want ?? []);
  const least = leastOf(options.least ?? 'cost');
  const { standing, journal } = lookAt(folder);
  const judged = judge(standing, journal, wants);
  journal.close();

  const fit = judged.filter(({ found }) => found.every((one) => one.meets));
  if (fit.length > 0 && fit.every(({ effort }) => effort[least] === null))
    throw new UserProblem(
      `--least ${least}: no design has it`,
      'a plan of the house gives cable; a scenario with prices gives costs',
    );
  const [picked] = [...fit].sort(
    (a, b) => (a.effort[least] ?? Infinity) - (b.effort[least] ?? Infinity) || a.planned.number - b.planned.number,
  );
  const answer: Answer = { wants, least, judged, fit, picked };
  io.out(options.json === true ? jsonText(answerData(answer)) : answerText(answer, standing));
}

/** A design that was tested: what it comes to in each thing wanted, and what it takes. */
interface Judged {
  readonly planned: PlannedDesign;
  readonly found: readonly {
    readonly want: Want;
    readonly value: number | null;
    /** How bad the true value may be. */
    readonly end: number | null;
    readonly meets: boolean;
  }[];
  readonly effort: StudyDesign['effort'];
}

interface Answer {
  readonly wants: readonly Want[];
  readonly least: Least;
  readonly judged: readonly Judged[];
  /** Those that meet all that is wanted. */
  readonly fit: readonly Judged[];
  readonly picked: Judged | undefined;
}

/** All designs with an interval, by one pass over the cells. */
function judge(standing: Standing, journal: CellSource, wants: readonly Want[]): Judged[] {
  const { plan, designs } = standing;
  const allNames = designs.map(({ planned }) => planned.names);
  const measures = wants.map(({ metric }) => measuresFor(metric, allNames));
  const ratios = new Map<number, Ratio[][]>();
  eachCell(standing, journal, ({ planned }, _replicate, cell) => {
    const own = ratios.get(planned.number) ?? wants.map(() => []);
    ratios.set(planned.number, own);
    measures.forEach((of, w) => own[w]!.push(of(planned.names).of(cell)));
  });
  const tested = designs.filter((one) => one.ended !== 'failed' && countedOf(one) >= 2);
  const alpha = alphaOf(Math.max(1, tested.length), wants.length, plan.stopping.looks);
  return tested.map(({ planned }) => {
    const own = ratios.get(planned.number)!;
    const found = wants.map((want, w) => {
      const measure = measures[w]!(planned.names);
      const end = bound(own[w]!, measure, sideOf(want), alpha);
      return { want, value: sampleOf(own[w]!, measure)?.value ?? null, end, meets: meets(want, end) };
    });
    return { planned, found, effort: effortIn(effortOf(plan.design(planned))) };
  });
}

function answerData({ wants, least, judged, fit, picked }: Answer): object {
  return {
    want: wants,
    least,
    tested: judged.length,
    confidence: 0.95,
    meeting: fit.map(({ planned }) => planned.number),
    picked: picked
      ? { design: picked.planned.number, bounds: picked.found.map(({ end }) => end), effort: picked.effort }
      : null,
  };
}

function answerText({ wants, least, judged, fit, picked }: Answer, { plan, finished }: Standing): string {
  const tested = judged.length;
  const wanted = wants.map(({ metric, is, limit }) => `${metric} ${is} ${short(limit)}`).join(' and ');
  const shown = picked ?? nearest(judged);
  const lines = [
    ...(picked ? [] : [`None of ${tested} designs surely meets ${wanted}.`]),
    ...(shown
      ? [
          `${picked ? 'D' : 'Nearest comes d'}esign ${shown.planned.number}: ${combinationWords(plan.factors, shown.planned.levels)}`,
        ]
      : []),
    ...(shown?.found ?? []).map(
      ({ want, value, end }) =>
        `  ${want.metric} ${value === null ? 'unknown' : short(value, 3)}, with 95 % confidence ${sideOf(want) === 'upper' ? 'at most' : 'at least'} ${end === null ? 'unknown' : short(end, 3)}`,
    ),
    ...(picked
      ? [
          `  ${least} ${picked.effort[least] ?? 'unknown'}, the least of ${fit.length} that meet ${wanted}, of ${tested} tested`,
        ]
      : []),
    ...(picked && least === 'cost' ? ['Costs are by the prices of the scenario, made-up ones where it has none.'] : []),
    `The confidence is for all ${tested} designs${plan.stopping.looks > 1 ? ` and all ${plan.stopping.looks} looks of each` : ''} at once.`,
    ...(finished ? [] : ['The study is not finished: more replicates narrow the bounds.']),
  ];
  return `${lines.join('\n')}\n`;
}

/** The design that misses by least, as a share of the limit. */
function nearest(judged: readonly Judged[]): Judged | undefined {
  const miss = ({ found }: Judged): number =>
    Math.max(
      ...found.map(({ want, end }) =>
        end === null
          ? Infinity
          : ((sideOf(want) === 'upper' ? 1 : -1) * (end - want.limit)) / Math.max(Math.abs(want.limit), 1e-9),
      ),
    );
  return [...judged].sort((a, b) => miss(a) - miss(b))[0];
}

function wantsOf(texts: readonly string[]): Want[] {
  if (texts.length === 0)
    throw new UserProblem(
      '--want: expected what the design must meet, found nothing',
      "for example --want 'house.wrong_per_100 < 3'",
    );
  return texts.map((text) => {
    const want = wantOf(text);
    if (want) return want;
    throw new UserProblem(
      `--want: expected METRIC < NUMBER or METRIC > NUMBER, found ${quote(text)}`,
      "for example --want 'house.wrong_per_100 < 3'",
    );
  });
}

function leastOf(text: string): Least {
  const least = LEAST.find((one) => one === text);
  if (least) return least;
  throw new UserProblem(`--least: expected ${LEAST.join(', ')}, found ${quote(text)}`);
}

/** The measure of a metric by the names of a design's doors, rooms and logics. */
function measuresFor(metric: string, all: readonly MeasureNames[]): (names: MeasureNames) => Measure {
  const known = new Map<MeasureNames, Measure>();
  for (const names of new Set(all)) {
    const measure = measureOf(metric, names);
    if (typeof measure === 'string') throw new UserProblem(`--want ${metric}: ${measure}`);
    known.set(names, measure);
  }
  return (names) => known.get(names)!;
}
