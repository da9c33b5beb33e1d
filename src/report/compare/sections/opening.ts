/** The top of a comparison: which runs, the verdict, what would be unwise to conclude, three numbers of each. */
import type { PageScripts } from '../../alive/page-scripts.js';
import { estimateCell } from '../../cells.js';
import { ledgerWords } from '../../ledger-words.js';
import { html, scrollable, type Markup } from '../../html.js';
import { capital, extentWords, headlineLogic, named, plural } from '../../words.js';
import { type CompareRun, apart, headlineLedger, labelWords } from '../runs.js';
import { unwise } from '../unwise.js';
import { compareVerdict, darkestRoom } from '../verdict.js';

/** What names the page, its author and whom it is for. */
export interface CompareOptions {
  readonly version: string;
  readonly title?: string | undefined;
  readonly prepared_by?: string | undefined;
  /** What brings charts to life; without, the page holds no script. */
  readonly scripts?: PageScripts | undefined;
}

/** Everything a reader sees before scrolling: what is compared, the answer, what not to conclude, and three numbers a run. */
export function compareFirst(runs: readonly CompareRun[], { title, prepared_by }: CompareOptions): Markup {
  return html`<div class="first"><div class="say">
<header><p class="over">Comparison of runs · ${runs.every(({ figures }) => figures.replayed) ? 'counted from logs' : 'simulated, not measured'}${prepared_by !== undefined && html` · prepared by ${named(prepared_by)}`}</p>
<h1>${title === undefined ? runs.map((run, i) => html`${i > 0 && ' against '}${labelWords(run)}`) : named(title)}</h1></header>
${verdictSection(runs)}
${unwiseSection(runs)}</div>
<section aria-labelledby="numbers" class="seen"><h2 id="numbers">Three numbers that matter</h2>
<ul class="runs">${runs.map(runLine)}</ul>
${threeNumbersTable(runs)}</section></div>`;
}

/** What was compared, for who files the page. */
export function compareBlock(runs: readonly CompareRun[], { version, prepared_by }: CompareOptions): Markup {
  const [reference, ...others] = runs;
  const pairs = others.map((run) => apart(run, reference!));
  const crowds = pairs.every((why) => why === null)
    ? 'the same in all runs'
    : pairs.every((why) => why !== null)
      ? 'not the same: nothing is paired'
      : 'not the same in all runs';
  const of = (words: (run: CompareRun) => string): string => {
    const all = [...new Set(runs.map(words))];
    return all.length === 1 ? all[0]! : all.join('; ');
  };
  const rows: [string, string][] = [
    ['Runs', `${plural(runs.length, 'run')}, compared with ${labelWords(reference!)}`],
    [
      'Simulated',
      of(({ metrics, figures }) =>
        figures.replayed ? 'counted from a log' : extentWords(metrics.replicates, metrics.hours),
      ),
    ],
    ['Crowds', crowds],
    [
      new Set(runs.map(({ metrics }) => metrics.seed)).size === 1 ? 'Seed' : 'Seeds',
      of(({ metrics }) => named(metrics.seed)),
    ],
    ['Made by', `jambeam ${version}`],
    ...(prepared_by === undefined ? [] : [['Prepared by', named(prepared_by)] as [string, string]]),
  ];
  return html`<dl class="block">${rows.map(([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>`)}</dl>`;
}

function runLine(run: CompareRun): Markup {
  const { design, metrics, figures } = run;
  const rooms = design.rooms.length === 0 ? '' : `, ledger ${ledgerWords(headlineLedger(design))}`;
  const extent = figures.replayed ? 'a log' : extentWords(metrics.replicates, metrics.hours);
  return html`<li><b>${labelWords(run)}</b>: ${named(metrics.scenario)}<br><small>${plural(design.doors.length, 'door')}, logic ${named(headlineLogic(design))}${rooms}; ${extent}, seed ${named(metrics.seed)}, jambeam ${named(metrics.jambeam)}</small></li>`;
}

function verdictSection(runs: readonly CompareRun[]): Markup {
  const { headline, told, paragraphs } = compareVerdict(runs);
  return html`<section aria-labelledby="verdict" class="verdict ${told ? 'unjudged' : 'undecided'}">
<p class="over">Which of these should I build: which is counted wrong least often, and whose rooms are right longest?</p>
<h2 id="verdict">${!told && html`<span class="mark" aria-hidden="true">?</span>`}<span>${headline}</span></h2>
${paragraphs.map((words) => html`<p>${words}</p>`)}
<p>Whether the best of them is good enough is not said here: each run’s own report holds it against its targets.</p>
</section>`;
}

function unwiseSection(runs: readonly CompareRun[]): Markup {
  return html`<section aria-labelledby="unwise" class="unwise"><h2 id="unwise">What you would be unwise to conclude</h2>
<ul>${unwise(runs).map((line) => html`<li>${line}</li>`)}</ul></section>`;
}

/** The run's three numbers, a row a run. */
function threeNumbersTable(runs: readonly CompareRun[]): Markup {
  const rooms = runs.some(({ design }) => design.rooms.length > 0);
  const third = (run: CompareRun): Markup => {
    if (!rooms) return estimateCell(run.metrics.house.missed_per_100);
    const room = darkestRoom(run);
    return room === undefined
      ? html`<td class="none">no rooms</td>`
      : estimateCell(room.empty_while_occupied_share, 'share');
  };
  const where = (run: CompareRun): string => {
    const room = rooms ? darkestRoom(run) : undefined;
    return room === undefined ? '' : `worst room ${named(room.room)}`;
  };
  return html`${scrollable(
    'Three numbers of each run',
    html`<table class="compare big"><caption class="hidden">Three numbers of each run</caption><thead><tr><th scope="col">run</th><th scope="col">wrong per 100 crossings</th><th scope="col">drift after 100 crossings</th><th scope="col">${rooms ? 'empty while occupied, worst room' : 'missed per 100 crossings'}</th></tr></thead>
<tbody>${runs.map(
      (run) =>
        html`<tr><th scope="row">${capital(labelWords(run))}${where(run) !== '' && html`<small>${where(run)}</small>`}</th>${estimateCell(run.metrics.house.wrong_per_100)}${estimateCell(run.metrics.house.drift_per_100.bias)}${third(run)}</tr>`,
    )}</tbody></table>`,
  )}<p class="key">Each run’s own numbers with 95\u00a0% intervals. Intervals that overlap don’t mean that nothing differs: the differences below are sharper, because the crowds’ chance falls out of them where crowds are the same.</p>`;
}
