/** The logics side by side: every one was given the same crowds. */
import { logicInfo } from '../../counter/logic-info.js';
import { compileTable, type CompiledTable } from '../../counter/table/compile.js';
import { tableAsSvg } from '../../counter/table/svg.js';
import type { Design } from '../../scenario/schema.js';
import type { DoorMetrics, Estimate, Metrics, RankedLogic } from '../../score/metrics-schema.js';
import { estimateCell, intervalNote } from '../cells.js';
import { html, scrollable, trusted, type Markup } from '../html.js';
import { bestWords } from '../ranking-words.js';
import { count, decimal, named, plural } from '../words.js';

const ROWS: readonly [string, (d: DoorMetrics) => Estimate][] = [
  ['wrong per 100 crossings', (d) => d.wrong_per_100],
  ['missed per 100', (d) => d.missed_per_100],
  ['extra per 100', (d) => d.extra_per_100],
  ['reversed per 100', (d) => d.reversed_per_100],
  ['invented per 100', (d) => d.invented_per_100],
  ['invented per hour', (d) => d.invented_per_hour],
  ['drift per 100 crossings', (d) => d.drift_per_100.bias],
  ['scatter of that drift, persons', (d) => d.drift_per_100.spread],
];

export function logicsSection(design: Design, metrics: Metrics): Markup {
  const alone = design.logics.length === 1;
  return html`<section aria-labelledby="logics"><h2 id="logics">${alone ? 'The logic in numbers' : 'Logics compared'}</h2>
<p>${alone ? 'Only one logic was tried; more of them under `logics` would be judged on the same people.' : 'All logics saw the same crowds, beam by beam, so a difference between two of them is theirs.'}</p>
<div class="matrices${design.doors.length === 1 && ' alone'}">${rankingTable(design, metrics)}
${design.doors.map((door) =>
  compared(
    door.name,
    metrics.doors.filter((d) => d.door === door.name),
    // With one door the ranking of the house is the door's.
    metrics.ranking.filter((row) => row.door === (design.doors.length === 1 ? null : door.name)),
  ),
)}</div>
${intervalNote(metrics.doors.flatMap((d) => ROWS.map(([, of]) => of(d))))}
<dl class="words">${design.logics.map((l) => html`<div><dt>${named(l.name)}</dt><dd>${aboutLogic(l, design.tables)}</dd></div>`)}</dl>
${design.logics.map((l) => diagram(l, design.tables))}
</section>`;
}

type NamedLogic = Design['logics'][number];

/** What it does, what defeats it, how it is set. */
function aboutLogic(l: NamedLogic, tables: Design['tables']): string {
  const info = logicInfo().find((i) => i.use === l.use);
  const parts = [whatItIs(l) ?? info?.description ?? ''];
  const defeated = l.use === 'table' ? tableOf(l, tables)?.logic?.defeated_by : (ofItself(l) ?? info?.defeated_by);
  if (defeated !== undefined && defeated !== '') parts.push(`What defeats it: ${defeated}`);
  if ('timeout_ms' in l) parts.push(`Timeout ${decimal(l.timeout_ms / 1000)}\u00a0s.`);
  if (l.use === 'hold-off') parts.push(`Hold-off ${decimal(l.hold_off_ms / 1000)}\u00a0s.`);
  return parts.join(' ');
}

/** What a logic of the user's own is; undefined for a built-in one. */
function whatItIs(l: NamedLogic): string | undefined {
  if (l.use === 'table') return `A table of states and rules, ${named(l.file)}.`;
  if (l.use !== 'module' && l.use !== 'process') return undefined;
  const what = l.use === 'module' ? `A module, ${named(l.file)}` : `A program, started as ${named(l.command)}`;
  // Enough digits to tell one version from another at a glance; design.json has them all.
  return `${what}${l.sha256 === undefined ? '' : ` (SHA-256 ${l.sha256.slice(0, 12)}…)`}.`;
}

function ofItself(l: NamedLogic): string | undefined {
  return 'defeated_by' in l ? l.defeated_by : undefined;
}

function tableOf(l: NamedLogic, tables: Design['tables']): CompiledTable | null {
  if (l.use !== 'table' || !Object.hasOwn(tables, l.file)) return null;
  return compileTable(tables[l.file] ?? '', l.file, l.name);
}

/** A table logic as a picture, with the table itself in words for those who do not see it. */
function diagram(l: NamedLogic, tables: Design['tables']): Markup | null {
  const table = tableOf(l, tables)?.table;
  if (!table) return null;
  const heading = `States of ${named(l.name)}`;
  return html`<figure class="diagram"><figcaption><h3>${heading}</h3></figcaption>${scrollable(heading, trusted(tableAsSvg(table)))}</figure>`;
}

/** All logics over all doors, with how far each is behind the best. */
function rankingTable(design: Design, { ranking }: Metrics): Markup | null {
  const rows = ranking.filter(({ door }) => door === null);
  if (rows.length === 0) return null;
  const where = design.doors.length === 1 ? '' : ', all doors together';
  const title = `Ranked${where}: ${bestWords(rows)}`;
  return html`<article><h3>${title}</h3>
${scrollable(
  title,
  html`<table><caption class="hidden">${title}</caption><thead><tr><th scope="col">logic</th><th scope="col">wrong per 100 crossings</th><th scope="col">more than the best, pair by pair</th></tr></thead>
<tbody>${rows.map(
    ({ logic, wrong_per_100, more_than_best_per_100: more }) =>
      html`<tr><th scope="row">${named(logic)}</th>${estimateCell(wrong_per_100)}${more ? estimateCell(more) : html`<td class="num">–</td>`}</tr>`,
  )}</tbody></table>`,
)}
<p class="key">A difference is taken crowd by crowd, so what makes all logics wrong alike falls out of it. Each interval stands for itself; among many logics the best one owes a little to luck.</p>${intervalNote(
    rows.flatMap((row) => [row.wrong_per_100, ...(row.more_than_best_per_100 ? [row.more_than_best_per_100] : [])]),
  )}</article>`;
}

function compared(door: string, rows: readonly DoorMetrics[], ranked: readonly RankedLogic[]): Markup | null {
  const first = rows[0];
  if (first === undefined) return null;
  return html`<article data-door="${door}"><h3>Door ${named(door)}: ${ranked.length > 0 ? bestWords(ranked) : `${named(first.logic)} alone`}</h3>
${scrollable(
  `Logics compared at door ${named(door)}`,
  html`<table><caption class="hidden">Logics compared at door ${named(door)}</caption><thead><tr><th scope="col">measure</th>${rows.map((d) => html`<th scope="col">${named(d.logic)}</th>`)}</tr></thead>
<tbody>${ROWS.map(([name, of]) => html`<tr><th scope="row">${name}</th>${rows.map((d) => estimateCell(of(d)))}</tr>`)}
<tr><th scope="row">tallies</th>${rows.map((d) => html`<td class="num">${count(d.tallies)}</td>`)}</tr></tbody></table>`,
)}
<p class="key">${plural(first.visits, 'visit')}, ${plural(first.person_crossings, 'crossing')}.${
    first.unmet_parties > 0 &&
    ` ${plural(first.unmet_parties, 'party', 'parties')} set out from a room with too few people in it and did not come.`
  }</p></article>`;
}
