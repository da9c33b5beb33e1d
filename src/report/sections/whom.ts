/** Who is counted wrong: by kind of passage, by stature, and what the assumed shares of the mix do to the headline. */
import type { Design } from '../../scenario/schema.js';
import type { DoorMetrics, Metrics } from '../../score/metrics-schema.js';
import { estimateCell, intervalNote } from '../cells.js';
import { drawCharts, isChart, type Chart } from '../charts/chart.js';
import { kindsChart } from '../charts/kinds.js';
import { statureChart } from '../charts/stature.js';
import { html, scrollable, trusted, type Markup } from '../html.js';
import { capital, count, formatEstimate, headlineLogic, named, passageWords, percent, plural } from '../words.js';
import { doingWords, whoIn, type WhoWords } from '../who-words.js';
import { worstKinds } from '../worst.js';

/** Doors whose charts are drawn; the others have their tables. */
const MOST_DOORS = 6;
/** Kinds of passage that a table shows unfolded. */
const MOST_KINDS = 16;
/** And folded: the rarest and the best are left to metrics.json. */
const MOST_FOLDED = 20;

export async function whomSection(design: Design, metrics: Metrics): Promise<Markup> {
  const logic = headlineLogic(design);
  const doors = metrics.doors.filter((d) => d.logic === logic);
  const who = whoIn(design);
  const several = doors.length > 1;
  const drawn = doors.slice(0, MOST_DOORS);
  const kinds = drawn.map((door, i) => atDoor(kindsChart(`kinds-${i}`, door, who), door, several)).filter(isChart);
  const statures = drawn
    .map((door, i) => {
      const chart = statureChart(
        `stature-${i}`,
        door,
        design.doors.find((d) => d.name === door.door),
      );
      return atDoor(chart, door, several);
    })
    .filter(isChart);
  const charts = several
    ? html`<h3>By what they do</h3><ul>${doors.map((door) => html`<li data-door="${door.door}">Door ${named(door.door)}: ${inWords(door, who)}</li>`)}</ul>
<div class="charts">${await drawCharts(kinds, 4)}</div><h3>By how tall they are</h3><div class="charts">${await drawCharts(statures, 4)}</div>`
    : html`${doors.map((door) => html`<p>${capitalised(inWords(door, who))}</p>`)}<div class="charts">${await drawCharts([...kinds, ...statures], 3)}</div>`;
  return html`<section aria-labelledby="whom"><h2 id="whom">Who is counted wrong</h2>
<p>By the logic ${named(logic)}. Wrong per 100 visits of each kind: a kind that is rare can be counted badly and still weigh little in the headline.</p>
${charts}
${doors.map((door) => html`<div data-door="${door.door}">${kindTable(door, who, several)}${design.household === undefined && inTheirPlace(door, design)}</div>`)}</section>`;
}

/** Of several doors each chart says whose it is. */
function atDoor(chart: Chart | null, door: DoorMetrics, several: boolean): Chart | null {
  return chart && several ? { ...chart, title: `Door ${named(door.door)}. ${chart.title}` } : chart;
}

function inWords(door: DoorMetrics, who: WhoWords): Markup {
  const ranked = worstKinds([door]);
  const [first] = ranked;
  if (first === undefined) return html`nobody came.`;
  const { rate } = first;
  if (rate.wrong_per_100_visits.value === 0)
    return ranked.some((kind) => (kind.rate.wrong_per_100_visits.value ?? 0) > 0)
      ? html`only kinds that came seldom went wrong in this run.`
      : html`no kind of passage went wrong in this run.`;
  return html`wrong most often for their visits are <b>${doingWords(who, rate.who, rate.kind)}</b>, ${formatEstimate(rate.wrong_per_100_visits)} per 100 visits of that kind, from ${plural(rate.visits, 'visit')}.`;
}

/** The first letter large, of markup that begins with one. */
const capitalised = ({ text }: Markup): Markup => trusted(capital(text));

/** Walkers seen doing what the mix gives only to others. Parties on their way back go plainly through. */
function inTheirPlace(door: DoorMetrics, design: Design): Markup | null {
  const mix = design.doors.find((d) => d.name === door.door)?.traffic.mix ?? [];
  const given = (who: string, kind: string): boolean =>
    mix.some((m) => m.who === who && (m.kind === kind || kind === 'through'));
  const others = door.by_kind.filter((k) => !given(k.who, k.kind));
  if (others.length === 0) return null;
  const visits = others.reduce((sum, k) => sum + k.visits, 0);
  return html`<p class="key">${plural(visits, 'visit')} are of kinds that the mix does not give to those walkers: where nobody of the name was in the room, somebody else who was there went.</p>`;
}

function kindTable(door: DoorMetrics, who: WhoWords, several: boolean): Markup | null {
  if (door.by_kind.length === 0) return null;
  const ranked = worstKinds([door]).map((k) => k.rate);
  const all = [...ranked, ...door.by_kind.filter((k) => !ranked.includes(k))];
  const rows = all.slice(0, MOST_FOLDED);
  const left = all.length - rows.length;
  const table = scrollable(
    `Kinds of passage at door ${named(door.door)}`,
    html`<table><caption>${several && `Door ${named(door.door)}: `}${several ? 'kinds' : 'Kinds'} of passage, most wrong first</caption><thead><tr><th scope="col">who does what</th><th scope="col">wrong per 100 visits</th><th scope="col">visits</th><th scope="col">crossings</th><th scope="col">missed</th><th scope="col">reversed</th><th scope="col">extra</th><th scope="col">invented</th></tr></thead>
<tbody>${rows.map(
      (k) =>
        html`<tr><th scope="row">${doingWords(who, k.who, k.kind)}</th>${estimateCell(k.wrong_per_100_visits)}${[k.visits, k.person_crossings, k.missed, k.reversed, k.extra, k.invented].map((n) => html`<td class="num">${count(n)}</td>`)}</tr>`,
    )}</tbody></table>`,
  );
  const note = intervalNote(rows.map((k) => k.wrong_per_100_visits));
  // A house has as many kinds as people times what they carry and do: the chart has the first of them.
  return rows.length > MOST_KINDS
    ? html`<details class="long"><summary>${several && `Door ${named(door.door)}: `}${plural(rows.length, 'kind')} of passage, one by one</summary>${table}${note}${left > 0 && html`<p class="key">${plural(left, 'kind')} less often wrong, or with few visits, ${left === 1 ? 'stands' : 'stand'} in metrics.json.</p>`}</details>`
    : html`${table}${note}`;
}

/** The headline if one assumed share were half or double. */
export function sharesSection(design: Design, metrics: Metrics): Markup | null {
  const logic = headlineLogic(design);
  const doors = metrics.doors.filter((d) => d.logic === logic && d.by_assumed_share.length > 0);
  // A household has no mix: who goes where when is its day's.
  if (design.household !== undefined || doors.length === 0) return null;
  return html`<section aria-labelledby="shares"><h2 id="shares">If the mix were another</h2>
<p>Nobody has surveyed who does what in a doorway at home, so the shares of the mix are assumptions. Here one share at a time is halved and doubled, walking plainly through takes the rest, and this run’s own rates are weighed anew.</p>
${doors.map(
  (d) =>
    html`<article data-door="${d.door}"><h3>Door ${named(d.door)}</h3>${scrollable(
      `Headline under other shares at door ${named(d.door)}`,
      html`<table><caption>Wrong per 100 crossings; as it is: ${formatEstimate(d.wrong_per_100)}</caption><thead><tr><th scope="col">assumed share</th><th scope="col">as it is</th><th scope="col">if half</th><th scope="col">if double</th></tr></thead>
<tbody>${d.by_assumed_share.map((s) => html`<tr><th scope="row">${passageWords(s.who, s.kind)}</th><td class="num">${percent(s.share)}</td>${estimateCell(s.half)}${estimateCell(s.double)}</tr>`)}</tbody></table>`,
    )}${intervalNote(d.by_assumed_share.flatMap((s) => [s.half, s.double]))}</article>`,
)}</section>`;
}
