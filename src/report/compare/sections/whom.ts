/** Who is counted wrong under each run, and why: kinds of passage and causes side by side, the largest change first. */
import type { DoorMetrics, Estimate, WhyMetrics } from '../../../score/metrics-schema.js';
import { weekWords } from '../../causes.js';
import { html, scrollable, type Markup } from '../../html.js';
import { whoIn, doingWords } from '../../who-words.js';
import { causeWords } from '../../why-words.js';
import { capital, decimal, estimateWords, headlineLogic, named, plural } from '../../words.js';
import { type CompareRun, labelWords } from '../runs.js';

const MOST_ROWS = 14;

interface Row<T> {
  readonly words: string;
  /** Per run; undefined where it has none. */
  readonly found: readonly (T | undefined)[];
}

/** Rows of all runs by key, those that change most between runs first; equal ones in the order they were met. */
function sideBySide<T>(
  runs: readonly CompareRun[],
  rowsOf: (run: CompareRun) => readonly { readonly key: string; readonly words: string; readonly found: T }[],
  size: (found: T | undefined) => number,
): Row<T>[] {
  const all = runs.map((run) => new Map(rowsOf(run).map((row) => [row.key, row])));
  const keys = [...new Set(all.flatMap((rows) => [...rows.keys()]))];
  const rows = keys.map((key) => {
    const found = all.map((one) => one.get(key)?.found);
    return { words: all.find((one) => one.has(key))!.get(key)!.words, found };
  });
  const change = ({ found }: Row<T>): number => Math.max(...found.map(size)) - Math.min(...found.map(size));
  return rows.filter(({ found }) => found.some((one) => size(one) > 0)).sort((a, b) => change(b) - change(a));
}

type Kind = DoorMetrics['by_kind'][number];

export function compareWhomSection(runs: readonly CompareRun[]): Markup {
  const several = runs.some(({ design }) => design.doors.length > 1);
  const rows = sideBySide<Kind>(
    runs,
    ({ metrics, design }) => {
      const who = whoIn(design);
      return metrics.doors
        .filter(({ logic }) => logic === headlineLogic(design))
        .flatMap(({ door, by_kind }) =>
          by_kind.map((found) => ({
            key: JSON.stringify([door, found.who, found.kind]),
            words: `${capital(doingWords(who, found.who, found.kind))}${several ? `, door ${named(door)}` : ''}`,
            found,
          })),
        );
    },
    (kind) => kind?.wrong_per_week.value ?? 0,
  );
  const cell = (kind: Kind | undefined): Markup =>
    kind === undefined
      ? html`<td class="none">none came</td>`
      : html`<td class="num"><b>${weekly(kind.wrong_per_week)}</b> <small>${rangeWords(kind.wrong_per_week)}</small><small>${share(kind)} per 100, ${plural(kind.visits, 'visit')}</small></td>`;
  return html`<section aria-labelledby="whom"><h2 id="whom">Who is counted wrong</h2>
${
  rows.length === 0
    ? html`<p>Nobody, in any of the runs.</p>`
    : html`<p>Wrong counts ${weekWords(Math.min(...runs.map(({ metrics }) => metrics.hours)))} by kind of passage, each run by its first logic, largest change first. Small: 95\u00a0% intervals of each run for itself, and wrong counts per 100 visits of the kind. Whether a change is more than chance isn’t tested kind by kind.</p>
${table('Kinds of passage side by side', 'who does what', runs, rows, cell)}`
}
</section>`;
}

const weekly = (e: Estimate): string => estimateWords(e).value ?? 'not known';
const rangeWords = (e: Estimate): string => estimateWords(e).range ?? 'no interval';
const share = ({ wrong_per_100_visits: { value } }: Kind): string =>
  value === null ? 'unknown' : decimal(value, value < 1 ? 2 : value < 10 ? 1 : 0);

type Cause = WhyMetrics['causes'][number];

export function compareWhySection(runs: readonly CompareRun[]): Markup | null {
  const whyOf = ({ metrics, design }: CompareRun): WhyMetrics | undefined =>
    metrics.why.find(({ door, logic }) => door === null && logic === headlineLogic(design));
  const rows = sideBySide<Cause>(
    runs,
    (run) =>
      (whyOf(run)?.causes ?? []).map((found) => ({
        key: JSON.stringify([found.how, found.things]),
        words: capital(causeWords(found)),
        found,
      })),
    (cause) => cause?.per_week.value ?? 0,
  );
  if (rows.length === 0) return null;
  const cell = (cause: Cause | undefined): Markup =>
    cause === undefined
      ? html`<td class="none">not met</td>`
      : html`<td class="num"><b>${weekly(cause.per_week)}</b> <small>${rangeWords(cause.per_week)}</small><small>${plural(cause.explained, 'case')}</small></td>`;
  const looked = runs.map((run) => `${labelWords(run)} ${plural(whyOf(run)?.explained ?? 0, 'case')}`).join(', ');
  return html`<section aria-labelledby="why"><h2 id="why">Why</h2>
<p>Causes of wrong visits and of tallies of nobody, ${weekWords(Math.min(...runs.map(({ metrics }) => metrics.hours)))}, largest change first. Each rests on cases that were simulated again with one thing taken away at a time: ${looked}.</p>
${table('Causes side by side', 'cause', runs, rows, cell)}
</section>`;
}

function table<T>(
  label: string,
  what: string,
  runs: readonly CompareRun[],
  rows: readonly Row<T>[],
  cell: (found: T | undefined) => Markup,
): Markup {
  const one = (some: readonly Row<T>[]): Markup =>
    scrollable(
      label,
      html`<table class="compare"><caption class="hidden">${label}</caption><thead><tr><th scope="col">${what}</th>${runs.map((run) => html`<th scope="col">${labelWords(run)}</th>`)}</tr></thead>
<tbody>${some.map(({ words, found }) => html`<tr><th scope="row">${words}</th>${found.map(cell)}</tr>`)}</tbody></table>`,
    );
  const [shown, rest] = [rows.slice(0, MOST_ROWS), rows.slice(MOST_ROWS)];
  return html`${one(shown)}${rest.length > 0 && html`<details class="long"><summary>${plural(rest.length, 'more row')}</summary>${one(rest)}</details>`}`;
}
