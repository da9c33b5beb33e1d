/** What `jambeam run` prints: the verdict, every door and logic with intervals, the targets. */
import Table from 'cli-table3';
import { createColors } from 'picocolors';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { DoorMetrics, Estimate, Metrics } from '../score/metrics-schema.js';
import { NO_BORDERS, foldedLines } from './plain-text.js';
import { sensorsUsed } from './sensor-words.js';
import { limitWords, metricWords, moreWords, targetResult } from './sections/targets.js';
import { verdictOf, verdictParagraphs, type Answer } from './verdict.js';
import { bestWords } from './ranking-words.js';
import { bare, count, estimateWords, extentWords, formatEstimate, named, plain } from './words.js';

/** Width text is wrapped to, characters. */
const WIDTH = 78;

/** The summary, ending with a line break. Without `colour` it holds no escape sequences at all. */
export function summaryText(
  design: Design,
  metrics: Metrics,
  options: { readonly colour: boolean; readonly activity?: Figures['activity'] },
): string {
  const paint = createColors(options.colour);
  const verdict = verdictOf(design, metrics, options.activity);
  const hue: Readonly<Record<Answer, (s: string) => string>> = {
    yes: paint.green,
    no: paint.red,
    undecided: paint.yellow,
    unjudged: paint.cyan,
  };
  const lines = [
    `${paint.bold(named(metrics.scenario))}: ${extentWords(metrics.replicates, metrics.hours)}, seed ${named(metrics.seed)}`,
    wrap(`Sensors: ${sensorsUsed(design)}`),
    '',
    paint.bold(hue[verdict.answer](verdict.headline)),
    ...verdictParagraphs(verdict).map(wrap),
    '',
    doorTable(metrics, options.colour),
    wrap(
      'Per 100 crossings, 95\u00a0% intervals beneath. wrong = missed + extra + reversed + invented; drift = counted minus true, forward as plus.',
    ),
    ...rankingLines(metrics).map(wrap),
  ];
  if (metrics.targets.length > 0) {
    lines.push('', 'Targets');
    for (const t of metrics.targets) {
      const mark =
        { met: paint.green('met'), missed: paint.red('missed') }[t.outcome as string] ?? paint.yellow(t.outcome);
      const more = t.outcome === 'undecided' && t.more_replicates !== null ? `; ${moreWords(t.more_replicates)}` : '';
      lines.push(
        `  ${mark}: ${metricWords(t.metric)}, ${limitWords(t)}`,
        `      this run: ${targetResult(metrics, t.metric, t.at_most === undefined)}${more}`,
      );
    }
  }
  return `${forTerminal(lines.join('\n'))}\n`;
}

/** How far each logic is behind the best one, over all doors. */
function rankingLines({ ranking }: Metrics): string[] {
  const rows = ranking.filter(({ door }) => door === null);
  if (rows.length === 0) return [];
  const behind = rows.flatMap(({ logic, more_than_best_per_100: more }) =>
    more === null ? [] : [`  ${named(logic)}: ${formatEstimate(more)} more per 100 than ${named(rows[0]!.logic)}`],
  );
  return ['', `Logics, pair by pair over the same crowds: ${bestWords(rows)}.`, ...behind];
}

/** One table for all doors, a line over each door's logics; no ruled borders, so that it fits 80 characters. */
function doorTable(metrics: Metrics, colour: boolean): string {
  const paint = createColors(colour);
  const table = new Table({
    head: ['', ...MEASURES.map(([name]) => name)].map((name) => paint.dim(name)),
    chars: NO_BORDERS,
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 2 },
  });
  for (const door of new Set(metrics.doors.map((d) => d.door))) {
    const rows = metrics.doors.filter((d) => d.door === door);
    const crossings = `${count(rows[0]?.person_crossings ?? 0)} crossings`;
    table.push([{ colSpan: MEASURES.length + 1, content: `${paint.bold(`door ${plain(door)}`)}, ${crossings}` }]);
    for (const d of rows) {
      table.push([plain(d.logic), ...MEASURES.map(([, of]) => cell(of(d)))].map(forTerminal));
    }
  }
  return table.toString().replace(/ +$/gm, '');
}

const MEASURES: readonly [string, (d: DoorMetrics) => Estimate][] = [
  ['wrong', (d) => d.wrong_per_100],
  ['missed', (d) => d.missed_per_100],
  ['extra', (d) => d.extra_per_100],
  ['reversed', (d) => d.reversed_per_100],
  ['invented', (d) => d.invented_per_100],
  ['drift', (d) => d.drift_per_100.bias],
];

/** The value, its interval beneath: '7.9–10.7', with a word between where a minus sign would run into the dash. */
function cell(e: Estimate): string {
  const { value, range } = estimateWords(e);
  if (value === null) return 'not known';
  if (range === null) return `${value}\nno interval`;
  return `${value}\n${range.startsWith('\u2212') ? range : range.replace(' to ', '\u2013')}`;
}

const wrap = (text: string): string => foldedLines(text, WIDTH).join('\n');

/** Direction isolates, narrow spaces and the like are for pages; a terminal gets plain characters. */
function forTerminal(text: string): string {
  return bare(text)
    .replace(/\u00a0/g, ' ')
    .replace(/\u2212/g, '-');
}
