/** What the counts do to the rooms: the whole house, each room with each ledger, and pictures of both. */
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { HouseMetrics, Metrics, RoomMetrics } from '../../score/metrics-schema.js';
import { estimateCell, intervalNote } from '../cells.js';
import { drawCharts, isChart, type Chart } from '../charts/chart.js';
import { ledgerWords } from '../ledger-words.js';
import { roomChart } from '../charts/room.js';
import { roomDriftChart } from '../charts/room-drift.js';
import { survivalChart } from '../charts/survival.js';
import { html, scrollable, type Markup } from '../html.js';
import { ledgerChoice } from '../ledger-choice.js';
import { durationWords, waitCell, waitParts } from '../wait-words.js';
import { headlineLogic, named } from '../words.js';
import { MOST_CHARTS } from './overtime.js';

export async function roomsSection(design: Design, metrics: Metrics, figures: Figures): Promise<Markup | null> {
  if (metrics.rooms.length === 0) return null;
  const logic = headlineLogic(design);
  const rooms = [...new Set(metrics.rooms.map((r) => r.room))];
  const charts = roomCharts(design, metrics, figures, rooms);
  const headline = metrics.rooms.filter((r) => r.logic === logic);
  const others = metrics.rooms.filter((r) => r.logic !== logic);
  return html`<section aria-labelledby="rooms"><h2 id="rooms">Rooms over time</h2>
<p>A light that goes out on somebody is worse than one left on, so the two are kept apart. An episode is 10 s or longer: a moment at the door leaves nobody in the dark.</p>
${metrics.houses.length > 0 && rooms.length > 1 && html`<h3>All rooms at once</h3>${scrollable('All rooms at once', houseTable(metrics.houses))}`}
<h3>Room by room</h3>
${scrollable('Rooms', roomTable(rooms, headline, null))}
${others.length > 0 && html`<details class="long"><summary>With the other logics</summary>${scrollable('Rooms with the other logics', roomTable(rooms, others, 'logic'))}</details>`}
<details class="long"><summary>Shares of the time</summary>${scrollable('Shares of the time', shareTable(rooms, metrics.rooms))}</details>
${intervalNote([...headline.flatMap((r) => [r.exact_share, r.empty_while_occupied_per_day, r.longest_empty_while_occupied_min, r.occupied_while_empty_per_day, r.first_wrong_h]), ...metrics.houses.map((h) => h.persons_bias)])}
${
  rooms.length > 1
    ? html`${await titled('How long a count stays right', charts.wrong)}${await titled('How far a count runs away', charts.drift)}${await titled('The first replicate', charts.traces)}`
    : await titled('How long it stays right, how far it runs away, and the first replicate', [
        ...charts.wrong,
        ...charts.drift,
        ...charts.traces,
      ])
}
${rooms.length > MOST_CHARTS && html`<p class="key">Drawn for the first ${MOST_CHARTS} rooms; the tables have all.</p>`}</section>`;
}

async function titled(title: string, charts: readonly Chart[]): Promise<Markup | null> {
  if (charts.length === 0) return null;
  return html`<h3>${title}</h3><div class="charts">${await drawCharts(charts, 4)}</div>`;
}

/** By the logic of the headline, at most {@link MOST_CHARTS} of a sort. */
function roomCharts(design: Design, metrics: Metrics, figures: Figures, rooms: readonly string[]) {
  const logic = headlineLogic(design);
  const choice = ledgerChoice(design, metrics);
  const [first, best] = [choice?.first.ledger, choice?.best.ledger];
  const drawn = rooms.slice(0, MOST_CHARTS);
  const traces = figures.rooms.filter((t) => t.logic === logic);
  const few = traces.length <= MOST_CHARTS ? traces : traces.filter((t) => t.ledger === first);
  const inOrder = <T extends { readonly room: string; readonly logic: string; readonly ledger: string }>(
    all: readonly T[],
    room: string,
  ): T[] => all.filter((one) => one.room === room && one.logic === logic);
  return {
    wrong: drawn.map((room, i) => survivalChart(`right-${i}`, inOrder(figures.survival, room))).filter(isChart),
    drift: drawn
      .map((room, i) => {
        const bands = inOrder(figures.room_drift, room);
        const shown = [first, ...(best === first ? [] : [best])].flatMap((ledger) =>
          bands.filter((b) => b.ledger === ledger),
        );
        return roomDriftChart(`room-drift-${i}`, shown, design.replicates);
      })
      .filter(isChart),
    traces: few
      .slice(0, MOST_CHARTS)
      .map((t, i) => roomChart(`room-${i}`, t, metrics.hours))
      .filter(isChart),
  };
}

function houseTable(houses: readonly HouseMetrics[]): Markup {
  const several = new Set(houses.map(({ logic }) => logic)).size > 1;
  return html`<table><caption class="hidden">All rooms at once</caption><thead><tr><th scope="col">${several && 'logic and '}ledger</th><th scope="col">all right at once</th><th scope="col">counted minus true, persons</th><th scope="col">dark, times a day</th><th scope="col">left on, times a day</th><th scope="col">first wrong after</th></tr></thead>
<tbody>${houses.map(
    (h) =>
      html`<tr><th scope="row">${several && html`${named(h.logic)}, `}${ledgerWords(h.ledger)}</th>${estimateCell(h.exact_share, 'share')}${estimateCell(h.persons_bias)}${estimateCell(h.empty_while_occupied_per_day)}${estimateCell(h.occupied_while_empty_per_day)}${waitCell(h.first_wrong_h, 'h')}</tr>`,
  )}</tbody></table>`;
}

/** Dark: the count says empty and somebody is there. Left on: the other way round. */
function roomTable(rooms: readonly string[], rows: readonly RoomMetrics[], by: 'logic' | null): Markup {
  const longest = (e: RoomMetrics['exact_share'], most: number): Markup => {
    const { value, range, note } = waitParts(e, 'min');
    return html`<td class="num"><b>${value ?? 'not known'}</b> <small>${range ?? note}</small>${most > 0 && html` <small>at most ${durationWords(most, 'min')}</small>`}</td>`;
  };
  return html`<table class="rooms"><caption>${by === null ? 'By the logic of the headline' : 'By the other logics'}</caption><thead><tr><th scope="col">${by !== null && 'logic and '}ledger</th><th scope="col">exactly right</th><th scope="col">dark, times a day <small>empty while occupied</small></th><th scope="col">longest dark <small>mean of replicates</small></th><th scope="col">left on, times a day <small>occupied while empty</small></th><th scope="col">longest left on</th><th scope="col">first wrong after <small>median</small></th></tr></thead>
${rooms.map(
  (room) => html`<tbody data-room="${room}"><tr><th scope="rowgroup" colspan="7" class="group">${named(room)}</th></tr>
${rows
  .filter((r) => r.room === room)
  .map(
    (r) =>
      html`<tr><th scope="row">${by !== null && html`${named(r.logic)}, `}${ledgerWords(r.ledger)}</th>${estimateCell(r.exact_share, 'share')}${estimateCell(r.empty_while_occupied_per_day)}${longest(r.longest_empty_while_occupied_min, r.max_empty_while_occupied_min)}${estimateCell(r.occupied_while_empty_per_day)}${longest(r.longest_occupied_while_empty_min, r.max_occupied_while_empty_min)}${waitCell(r.first_wrong_h, 'h')}</tr>`,
  )}</tbody>`,
)}</table>`;
}

function shareTable(rooms: readonly string[], rows: readonly RoomMetrics[]): Markup {
  return html`<table><caption class="hidden">Shares of the time</caption><thead><tr><th scope="col">logic and ledger</th><th scope="col">empty while occupied</th><th scope="col">occupied while empty</th><th scope="col">mean error, persons</th></tr></thead>
${rooms.map(
  (room) => html`<tbody data-room="${room}"><tr><th scope="rowgroup" colspan="4" class="group">${named(room)}</th></tr>
${rows
  .filter((r) => r.room === room)
  .map(
    (r) =>
      html`<tr><th scope="row">${named(r.logic)}, ${ledgerWords(r.ledger)}</th>${estimateCell(r.empty_while_occupied_share, 'share')}${estimateCell(r.occupied_while_empty_share, 'share')}${estimateCell(r.mean_absolute_error)}</tr>`,
  )}</tbody>`,
)}</table>`;
}
