/** The top of the page: what was asked, the verdict, and the three numbers that matter. */
import type { Heading } from '../../scenario/heading.js';
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { Estimate, Metrics, RoomMetrics } from '../../score/metrics-schema.js';
import { ledgerWords } from '../charts/room.js';
import { headingRows } from '../heading-words.js';
import { html, type Markup } from '../html.js';
import { sensorsUsed } from '../sensor-words.js';
import { targetTable } from './targets.js';
import { verdictOf, verdictParagraphs } from '../verdict.js';
import { capital, decimal, estimateWords, extentWords, headlineLogic, named, plural } from '../words.js';

export function titleBlock(
  design: Design,
  metrics: Metrics,
  version: string,
  { replayed }: Pick<Figures, 'replayed'>,
  heading: Heading,
): Markup {
  const cells: [string, string][] = [
    ...headingRows(heading, 'Scenario', metrics.scenario),
    [design.doors.length === 1 ? 'Door' : 'Doors', joinFew(design.doors.map((d) => named(d.name)))],
    ['Sensors', capital(sensorsUsed(design))],
    ['Logic of the headline', named(headlineLogic(design))],
    replayed
      ? ['Counted', `a log of ${decimal(replayed.span_h, 2)} hours`]
      : ['Simulated', extentWords(metrics.replicates, metrics.hours)],
    ['From', design.household ? `${capital(design.starts_on)} ${design.starts_at}` : design.starts_at],
    ['Seed', named(metrics.seed)],
    ['Made by', `jambeam ${version}`],
  ];
  return html`<header><p class="over">Doorway report · ${replayed ? 'counted from a log' : 'simulated, not measured'}</p>
<h1>${named(heading.title ?? metrics.scenario)}</h1>
<dl class="block">${cells.map(([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>`)}</dl></header>`;
}

const joinFew = (names: readonly string[]): string =>
  names.length > 4 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');

const MARK = { yes: '✓', no: '✕', undecided: '?', unjudged: '–' } as const;

export function verdictSection(design: Design, metrics: Metrics, figures: Figures): Markup {
  const v = verdictOf(design, metrics, figures.activity);
  return html`<section aria-labelledby="verdict" class="verdict ${v.answer}">
<p class="over">Should I build this?</p>
<h2 id="verdict"><span class="mark" aria-hidden="true">${MARK[v.answer]}</span>${v.headline}</h2>
${verdictParagraphs(v).map((s) => html`<p>${s}</p>`)}
${targetTable(metrics)}
</section>`;
}

interface BigNumber {
  readonly title: string;
  readonly estimate: Estimate;
  readonly as: 'number' | 'share';
  readonly text: string;
}

export function threeNumbers(design: Design, metrics: Metrics): Markup {
  const logic = headlineLogic(design);
  const { house } = metrics;
  const numbers: BigNumber[] = [
    {
      title: 'Wrong per 100 crossings',
      estimate: house.wrong_per_100,
      as: 'number',
      text: `missed, reversed, extra or invented, over ${plural(house.person_crossings, 'crossing')}`,
    },
    {
      title: 'Drift after 100 crossings',
      estimate: house.drift_per_100.bias,
      as: 'number',
      text: spreadText(house.drift_per_100.spread),
    },
  ];
  const rooms = metrics.rooms.filter((r) => r.logic === logic);
  // The room and ledger that leave people in the dark most.
  const dark = [...rooms].sort(
    (a, b) =>
      (b.empty_while_occupied_share.value ?? -1) - (a.empty_while_occupied_share.value ?? -1) ||
      (a.exact_share.value ?? 2) - (b.exact_share.value ?? 2),
  )[0];
  if (dark === undefined) {
    numbers.push({
      title: 'Missed per 100 crossings',
      estimate: house.missed_per_100,
      as: 'number',
      text: 'went through without a tally',
    });
  } else {
    const exact = estimateWords(dark.exact_share, 'share');
    numbers.push({
      title: 'Empty while occupied',
      estimate: dark.empty_while_occupied_share,
      as: 'share',
      text: `of the time in ${named(dark.room)} (${ledgerWords(dark.ledger)})${worstOf(rooms)}; exactly right ${exact.value === null ? 'for an unknown part' : exact.value} of the time`,
    });
  }
  return html`<section aria-labelledby="numbers"><h2 id="numbers">Three numbers that matter</h2>
<ul class="three">${numbers.map(bigNumber)}</ul></section>`;
}

/** What the shown one was chosen from: rooms, or the ledgers of the only room. */
function worstOf(rows: readonly RoomMetrics[]): string {
  if (new Set(rows.map((r) => r.room)).size > 1) return ', the worst of the rooms';
  return rows.length > 1 ? ', the worst of its ledgers' : '';
}

function spreadText(spread: Estimate): string {
  const { value } = estimateWords(spread);
  return value === null
    ? 'counted minus true net, forward counted as plus'
    : `counted minus true net, forward counted as plus; it scatters by ${value} (standard deviation)`;
}

function bigNumber({ title, estimate, as, text }: BigNumber): Markup {
  const { value, range, note } = estimateWords(estimate, as);
  return html`<li><h3>${title}</h3><p class="big">${value ?? 'not known'}</p>
<p class="range">${range === null ? (note ?? 'no interval') : `95\u00a0% interval ${range}`}</p><p>${text}</p></li>`;
}
