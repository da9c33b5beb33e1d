/** The top of the page: what was asked, the verdict, the three numbers that matter, and the door; then the answer in full. */
import type { Heading } from '../../scenario/heading.js';
import type { Design } from '../../scenario/schema.js';
import type { Figures, Silhouette } from '../../score/figures.js';
import type { Estimate, Metrics, RoomMetrics } from '../../score/metrics-schema.js';
import { askedWords } from '../asked.js';
import { ledgerWords } from '../ledger-words.js';
import { headingRows } from '../heading-words.js';
import { peopleDefs, peopleDrawn } from '../drawing/people.js';
import { html, type Markup } from '../html.js';
import { sensorsUsed } from '../sensor-words.js';
import { doorSeenFirst, doorFigures } from './doorway.js';
import { targetTable } from './targets.js';
import { unwiseSection } from './unwise.js';
import { unwiseOf } from '../unwise.js';
import { verdictOf } from '../verdict.js';
import { capital, estimateWords, headlineLogic, named, namedOnce, plural } from '../words.js';

/** Everything a reader sees before scrolling: what was asked, the answer, three numbers, what not to conclude, and the door. */
export function firstScreen(design: Design, metrics: Metrics, figures: Figures, heading: Heading): Markup {
  const people = peopleDrawn(figures);
  return html`${peopleDefs(people)}<div class="first"><div class="say">
<header><p class="over">Doorway report · ${figures.replayed ? 'counted from a log' : 'simulated, not measured'}${heading.prepared_by !== undefined && html` · prepared by ${named(heading.prepared_by)}`}</p>
<h1>${named(heading.title ?? metrics.scenario)}</h1>
<p class="asked">${askedWords(design, metrics, figures)}</p></header>
${verdictSection(design, metrics, figures)}
${unwiseSection(unwiseOf(design, metrics, figures))}</div>
${seenSection(design, metrics, people)}</div>`;
}

const MARK = { yes: '✓', no: '✕', undecided: '?', unjudged: '–' } as const;

function verdictSection(design: Design, metrics: Metrics, figures: Figures): Markup {
  const v = verdictOf(design, metrics, figures.activity);
  return html`<section aria-labelledby="verdict" class="verdict ${v.answer}">
<p class="over">${figures.replayed ? 'Did it count right?' : 'Should I build this?'}</p>
<h2 id="verdict"><span class="mark" aria-hidden="true">${MARK[v.answer]}</span>${v.headline}</h2>
<p>${namedOnce([v.because, ...v.asked, v.worst].join(' '))}</p>
${v.animals !== null && html`<p>${v.animals}</p>`}
${threeNumbers(design, metrics)}
</section>`;
}

/** The only door, or the one where most goes wrong. */
function seenSection(design: Design, metrics: Metrics, people: readonly Silhouette[]): Markup | null {
  const door = doorSeenFirst(design, metrics);
  if (door === undefined) return null;
  return html`<section aria-labelledby="seen" class="seen"><h2 id="seen">Door ${named(door.name)}${design.doors.length > 1 && ', where most goes wrong'}</h2>
${doorFigures(design, door, people)}</section>`;
}

/** What the answer rests on besides the first screen's few sentences, a line each. */
export function answerSection(design: Design, metrics: Metrics, figures: Figures, heading: Heading): Markup {
  const v = verdictOf(design, metrics, figures.activity);
  const lines: [string, string][] = [
    ['Order of kinds', v.rivals ?? ''],
    ['Causes', v.why ?? ''],
    ['Rooms', v.rooms.join(' ')],
    ['Activity', v.activity ?? ''],
    ['Holds for', v.doors.join(' ')],
    ['Another way', v.other_route ?? ''],
  ];
  return html`<section aria-labelledby="answer"><h2 id="answer">The answer in full</h2>
<dl class="words answer">${lines.filter(([, text]) => text !== '').map(([term, text]) => html`<div><dt>${term}</dt><dd>${namedOnce(text)}</dd></div>`)}</dl>
${metrics.targets.length > v.asked.length && targetTable(metrics)}
${titleBlock(design, metrics, heading)}</section>`;
}

/** What the run was, for who files the page. */
function titleBlock(design: Design, metrics: Metrics, heading: Heading): Markup {
  const cells: [string, string][] = [
    ...headingRows(heading, 'Scenario', metrics.scenario),
    [design.doors.length === 1 ? 'Door' : 'Doors', joinFew(design.doors.map((d) => named(d.name)))],
    ['Sensors', capital(sensorsUsed(design))],
    ['Logic of the headline', named(headlineLogic(design))],
    ['Ledger of the headline', design.ledgers[0] === undefined ? 'none' : ledgerWords(design.ledgers[0].name)],
    ['Seed', named(metrics.seed)],
  ];
  return html`<dl class="block">${cells.map(([term, value]) => html`<div><dt>${term}</dt><dd>${value}</dd></div>`)}</dl>`;
}

const joinFew = (names: readonly string[]): string =>
  names.length > 4 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : names.join(', ');

interface BigNumber {
  readonly title: string;
  readonly estimate: Estimate;
  readonly as: 'number' | 'share';
  readonly text: string;
}

function threeNumbers(design: Design, metrics: Metrics): Markup {
  const logic = headlineLogic(design);
  const { house } = metrics;
  const numbers: BigNumber[] = [
    {
      title: 'Wrong per 100 crossings',
      estimate: house.wrong_per_100,
      as: 'number',
      text: `missed, reversed, extra or invented; ${plural(house.person_crossings, 'crossing')}`,
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
      text: `of the time in ${named(dark.room)} (${ledgerWords(dark.ledger)})${worstOf(rooms)}; right ${exact.value === null ? 'for an unknown part' : exact.value} of the time`,
    });
  }
  return html`<ul class="three" aria-label="Three numbers that matter">${numbers.map(bigNumber)}</ul>`;
}

/** What the shown one was chosen from: rooms, or the ledgers of the only room. */
function worstOf(rows: readonly RoomMetrics[]): string {
  if (new Set(rows.map((r) => r.room)).size > 1) return ', the worst of the rooms';
  return rows.length > 1 ? ', the worst of its ledgers' : '';
}

function spreadText(spread: Estimate): string {
  const { value } = estimateWords(spread);
  return value === null
    ? 'counted minus true, forward as plus'
    : `counted minus true, forward as plus; standard deviation ${value}`;
}

function bigNumber({ title, estimate, as, text }: BigNumber): Markup {
  const { value, range, note } = estimateWords(estimate, as);
  return html`<li><h3>${title}</h3><p class="big">${value ?? 'not known'}</p>
<p class="range">${range === null ? (note ?? 'no interval') : `95\u00a0% interval ${range}`}</p><p>${text}</p></li>`;
}
