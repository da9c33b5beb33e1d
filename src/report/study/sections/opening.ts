/** The top of a study's report: what it is, how far it came, the verdict, and what was tried. */
import type { StudySummary } from '../../../study/summary-schema.js';
import { headingRows } from '../../heading-words.js';
import { html, scrollable, type Markup } from '../../html.js';
import { unwiseSection } from '../../sections/unwise.js';
import { metricWords } from '../../sections/targets.js';
import { capital, count, decimal, estimateWords, joined, named, plural } from '../../words.js';
import { differenceParts, factorWords, levelWords, shortMetric } from '../study-words.js';
import { studyUnwise } from '../unwise.js';
import { studyVerdict } from '../verdict.js';
import type { StudyView } from '../view.js';

/** Names and levels told one by one. */
const NAMES = 4;
const LEVELS = 12;

/** Everything a reader sees before scrolling: what was asked, the answer, what not to conclude, and the weightiest picture. */
export function studyFirst(view: StudyView, picture: Markup | null): Markup {
  const { summary } = view;
  return html`<div class="first"><div class="say">
<header><p class="over">Study of doorways · simulated, not measured${!summary.finished && html` · <b>${stateWords(summary)}</b>`}${summary.prepared_by !== undefined && html` · prepared by ${named(summary.prepared_by)}`}</p>
<h1>${named(summary.title ?? summary.name)}</h1>
<p class="asked">${askedWords(summary)}</p></header>
${verdictSection(view)}
${unwiseSection(studyUnwise(view))}</div>
${picture && html`<section aria-labelledby="seen" class="seen"><h2 id="seen">What matters most</h2>${picture}${threeNumbers(view)}</section>`}</div>`;
}

/** The best design's number, how much worse the worst is, and how many may be the best. */
function threeNumbers(view: StudyView): Markup | null {
  const { best, ranked, perhaps, summary } = view;
  const e = view.estimate(best ?? undefined);
  const worst = ranked.at(-1)?.worse_than_best;
  if (best === null || e === null || ranked.length < 2) return null;
  const own = estimateWords(e, view.as);
  const behind = worst ? differenceParts(view, worst) : null;
  return html`<ul class="three" aria-label="Three numbers that matter">
<li><h3>The best: ${shortMetric(summary.rank_by.metric)}</h3><p class="big">${own.value ?? 'not known'}</p><p class="range">${own.range === null ? (own.note ?? 'no interval') : `95\u00a0% interval ${own.range}`}</p><p>design ${best.number}</p></li>
<li><h3>The worst is worse by</h3><p class="big">${behind?.value ?? 'not known'}</p><p class="range">${behind?.range ?? 'no interval'}</p><p>design ${ranked.at(-1)!.design}</p></li>
<li><h3>May be the best</h3><p class="big">${count(perhaps.length)}</p><p>of ${count(ranked.length)} designs, with 95\u00a0% confidence</p></li></ul>`;
}

/** What was asked, of what, how thoroughly. */
function askedWords(summary: StudySummary): string {
  const { factors, designs, doors } = summary;
  const varied = factors.map((factor) => `${factorWords(factor)} (${plural(factor.levels.length, 'level')})`);
  return `${capital(plural(designs.length, 'design'))} of ${doors.length === 1 ? `door ${named(doors[0]!)}` : plural(doors.length, 'door')} in ${named(summary.scenario)}, varying ${joined(varied)}; ${replicatesWords(summary)}, under the same crowds wherever nothing changes the crowd itself.`;
}

function stateWords({ designs, cells, finished }: StudySummary): string {
  const done = designs.filter(({ state }) => state === 'done').length;
  return finished
    ? 'finished'
    : `not finished: ${count(done)} of ${plural(designs.length, 'design')}, ${count(cells.done)} of at most ${plural(cells.most, 'cell')}`;
}

/** What the study was, for who files the page. */
function titleBlock(summary: StudySummary): Markup {
  const { designs, doors } = summary;
  const rows: [string, string][] = [
    ...headingRows(summary, 'Study', summary.name),
    ['State', stateWords(summary)],
    ['Scenario', named(summary.scenario)],
    [doors.length === 1 ? 'Door' : 'Doors', few(doors)],
    ['Designs', count(designs.length)],
    ['Replicates', replicatesWords(summary)],
    ['Seed', named(summary.seed)],
    ['Made by', `jambeam ${summary.jambeam}`],
  ];
  return html`<dl class="block">${rows.map(([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>`)}</dl>`;
}

const few = (names: readonly string[]): string =>
  names.length > NAMES
    ? `${names
        .slice(0, NAMES - 1)
        .map(named)
        .join(', ')} and ${names.length - NAMES + 1} more`
    : names.map(named).join(', ');

/** '20 replicates each, of 8 h'; of a study that stops by itself the range counted. */
function replicatesWords({ replicates, designs, hours }: StudySummary): string {
  const extent = `of ${decimal(hours, 2)}\u00a0h`;
  if (replicates.fixed !== null) return `${plural(replicates.fixed, 'replicate')} each, ${extent}`;
  const counted = designs.map((design) => design.replicates);
  const [least, most] = [
    counted.reduce((a, b) => Math.min(a, b), Infinity),
    counted.reduce((a, b) => Math.max(a, b), 0),
  ];
  return `${least >= most ? '' : `${count(least)} to `}${plural(most, 'replicate')} each, ${extent}`;
}

function verdictSection(view: StudyView): Markup {
  const { headline, unfinished, paragraphs } = studyVerdict(view);
  const mark = unfinished === null ? 'unjudged' : 'undecided';
  return html`<section aria-labelledby="verdict" class="verdict ${mark}">
<p class="over">Which design should I build?</p>
<h2 id="verdict">${unfinished !== null && html`<span class="mark" aria-hidden="true">?</span>`}${headline}</h2>
${unfinished !== null && html`<p><b>${unfinished}</b></p>`}
${paragraphs.map((words, i) => html`<p>${i === 0 ? html`<b>${words}</b>` : words}</p>`)}
</section>`;
}

/** Factors with their keys and levels, conditions, and how many replicates designs got. */
export function triedSection({ summary }: StudyView): Markup {
  const { factors, where, left_out, replicates, rank_by } = summary;
  const metric = metricWords(rank_by.metric);
  return html`<section aria-labelledby="tried"><h2 id="tried">What was tried</h2>
${scrollable(
  'Factors',
  html`<table class="told"><caption class="hidden">Factors</caption><thead><tr><th scope="col">factor</th><th scope="col">levels</th><th scope="col">keys of the scenario</th></tr></thead>
<tbody>${factors.map(
    (factor) =>
      html`<tr><th scope="row">${factorWords(factor)}${factor.unpaired && html`<small>changes the crowd itself</small>`}</th><td class="say">${levelsOf(factor)}</td><td>${keysOf(factor.keys)}</td></tr>`,
  )}</tbody></table>`,
)}
<p>Every combination is a design.${where.length > 0 && html` Conditions: ${where.map((condition, i) => html`${i > 0 && ', '}<code>${named(condition)}</code>`)}.`}${left_out > 0 && ` ${plural(left_out, 'combination')} did not meet them and ${left_out === 1 ? 'was' : 'were'} left out.`} Designs are ranked by ${metric}${!metric.endsWith(rank_by.unit) && ` (${rank_by.unit})`}, ${rank_by.best} first. ${stoppingWords(replicates)}</p>
${titleBlock(summary)}</section>`;
}

function keysOf(keys: readonly string[]): Markup {
  const shown = keys.slice(0, NAMES);
  return html`${shown.map((key, i) => html`${i > 0 && ', '}<code>${named(key)}</code>`)}${keys.length > shown.length && ` and ${keys.length - shown.length} more`}`;
}

function levelsOf(factor: StudySummary['factors'][number]): string {
  const all = factor.levels.map((_, level) => levelWords(factor, level));
  if (all.length <= LEVELS) return all.join(', ');
  return `${all.slice(0, LEVELS - 1).join(', ')}, … ${all[all.length - 1]} (${count(all.length)} levels)`;
}

function stoppingWords({
  fixed,
  until,
  half_width,
  batch,
  at_least,
  at_most,
  most_passages,
}: StudySummary['replicates']): string {
  if (fixed !== null) return `Every design gets ${plural(fixed, 'replicate')}.`;
  const budgets = [
    `${plural(at_most, 'replicate')}`,
    ...(most_passages === null ? [] : [`the batch in which it comes to ${plural(most_passages, 'visit')}`]),
  ];
  return capital(
    `a design gets replicates until the interval of ${metricWords(until ?? '')} is no wider than ±${decimal(half_width ?? Number.NaN, 4)}; it is looked at after ${count(at_least)} and then every ${plural(batch, 'replicate')}, and ends at the latest with ${joined(budgets)}.`,
  );
}
