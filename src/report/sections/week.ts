/** What goes wrong in a week: who, doing what, at which door, how often, how soon, and what it does to the rooms. */
import type { Design } from '../../scenario/schema.js';
import type { DoorMetrics, Estimate, Metrics } from '../../score/metrics-schema.js';
import { causesOf, weekWords, type Cause } from '../causes.js';
import { estimateCell, intervalNote } from '../cells.js';
import { html, scrollable, type Markup } from '../html.js';
import { waitCell } from '../wait-words.js';
import { doingWords, whoIn } from '../who-words.js';
import { capital, count, estimateWords, headlineLogic, joined, named, plural } from '../words.js';

/** Rows that a reader still looks at; the others are folded. */
export const MOST_ROWS = 25;
/** Folded rows: a house of many doors and guests has thousands, and nobody reads that far. */
const MOST_FOLDED = 50;

export function weekSection(design: Design, metrics: Metrics): Markup | null {
  const logic = headlineLogic(design);
  const causes = causesOf(metrics.doors.filter((door) => door.logic === logic));
  if (causes.length === 0) return null;
  const [shown, folded] = [causes.slice(0, MOST_ROWS), causes.slice(MOST_ROWS, MOST_ROWS + MOST_FOLDED)];
  const left = causes.length - shown.length - folded.length;
  const week = weekWords(metrics.hours);
  const extra = causes.some(({ rate }) => rate.oversampled !== undefined);
  return html`<section aria-labelledby="week"><h2 id="week">What goes wrong ${week === 'a week' ? 'in a week' : 'most often'}</h2>
<p>By the logic ${named(logic)}; passages and wrong counts ${week}. The wait is the median until the first wrong count of that kind. The last column says what those counts do to a room: persons too many (+) or too few (−).${extra && ' A kind marked “extra visits” is rare: it was also walked alone, so that its numbers rest on more visits than the run has.'}</p>
${causeTable('Most wrong counts first', design, shown)}
${folded.length > 0 && html`<details class="long"><summary>${plural(folded.length, 'kind')} more that ${folded.length === 1 ? 'goes' : 'go'} wrong less often</summary>${causeTable('Less often wrong', design, folded)}${left > 0 && html`<p class="key">${count(left)} more stand in metrics.json.</p>`}</details>`}
${intervalNote(shown.flatMap(({ rate }) => [rate.wrong_per_week, rate.net_error_per_week, rate.first_wrong_median_days]))}</section>`;
}

function causeTable(caption: string, design: Design, causes: readonly Cause[]): Markup {
  const several = design.doors.length > 1;
  const who = whoIn(design);
  return scrollable(
    caption,
    html`<table class="causes"><caption>${caption}</caption><thead><tr>${several && html`<th scope="col">door</th>`}<th scope="col">who does what</th><th scope="col">passages</th><th scope="col">wrong</th><th scope="col">first wrong after</th><th scope="col">what it does to rooms</th></tr></thead>
<tbody>${causes.map(
      ({ door, rate }) =>
        html`<tr data-door="${door.door}">${several && html`<td>${named(door.door)}</td>`}<th scope="row">${capital(doingWords(who, rate.who, rate.kind))}</th>${passagesCell(rate)}${estimateCell(rate.wrong_per_week)}${waitCell(rate.first_wrong_median_days, 'days')}${roomsCell(design, door, rate)}</tr>`,
    )}</tbody></table>`,
  );
}

function passagesCell({ visits_per_week, oversampled }: Cause['rate']): Markup {
  const { value } = visits_per_week;
  return html`<td class="num"><b>${value === null ? 'not known' : value >= 10 ? count(value) : value.toFixed(1)}</b>${oversampled !== undefined && html` <small>+ ${count(oversampled)} extra visits</small>`}</td>`;
}

/** The room ahead gains what the room behind loses; outside is no room. The interval is the first named room's. */
function roomsCell(design: Design, door: DoorMetrics, { net_error_per_week: ahead }: Cause['rate']): Markup {
  const { from, to } = design.doors.find(({ name }) => name === door.door) ?? { from: 'outside', to: 'outside' };
  const rooms: [string, Estimate][] = [
    [to, ahead],
    [from, opposite(ahead)],
  ];
  const [first, second] = rooms.filter(([room]) => room !== 'outside');
  const { value, range, note } = estimateWords(first?.[1] ?? ahead);
  if (value === null) return html`<td class="num none"><span>not known</span> <small>${note}</small></td>`;
  if (first === undefined || value === '0')
    return html`<td class="num"><b>${value}</b> <small>${range ?? note}</small></td>`;
  const said = [
    `${named(first[0])} ${plus(value)}`,
    ...(second ? [`${named(second[0])} ${plus(estimateWords(second[1]).value ?? '')}`] : []),
  ];
  return html`<td class="num"><b>${joined(said)}</b> <small>${range ?? note}</small></td>`;
}

const minus = (x: number | null): number | null => (x === null ? null : -x);
const opposite = (e: Estimate): Estimate => ({ ...e, value: minus(e.value), low: minus(e.high), high: minus(e.low) });
const plus = (value: string): string => (/^[1-9]|^0\.0*[1-9]/.test(value) ? `+${value}` : value);
