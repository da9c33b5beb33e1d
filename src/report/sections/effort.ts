/** What installing takes, drilled and surface-mounted side by side. */
import type { Variant } from '../../effort/cables.js';
import { type Effort, effortOf } from '../../effort/effort.js';
import { type Share, holesIn } from '../../effort/share.js';
import type { Design } from '../../scenario/schema.js';
import {
  UNDO,
  holesWords,
  hoursWords,
  lengthWords,
  madeUpMark,
  minutesWords,
  money,
  pricesWords,
  whyNoLengths,
} from '../effort-words.js';
import { html, scrollable, type Markup } from '../html.js';
import { count, decimal, joined, named, plural } from '../words.js';

const VARIANTS = ['drilled', 'surface'] as const;

export function effortSection(design: Design, effort: Effort = effortOf(design)): Markup {
  const why = whyNoLengths(effort);
  return html`<section aria-labelledby="effort"><h2 id="effort">What installing takes</h2>
<p>${why ?? 'Counted from the design and its plan; nothing here was simulated.'} ${pricesWords(effort)} ${minutesWords(design)}${design.work?.hour_rate === undefined && ' Without an hour’s rate, work is hours only.'}</p>
<div class="side">${scrollable('Two ways of mounting', variantsTable(effort))}
<dl class="cautions"><div><dt>Before you drill</dt><dd>Find cables and pipes first, and never drill a fire door or its frame. The cautions below say more.</dd></div>
<div><dt>What can be undone</dt><dd>${UNDO.drilled} ${UNDO.surface}${leafWords(design, effort)}</dd></div></dl></div>
<h3>Door by door</h3>
${scrollable('Effort door by door', doorsTable(effort))}
<details><summary>Parts, one by one</summary><div class="side">${VARIANTS.map((variant) => scrollable(`Parts, ${MOUNTED[variant]}`, partsTable(effort, variant)))}</div></details>
<h3>Controllers and power</h3>
<div class="side">${scrollable('Controllers', controllersTable(effort))}
${scrollable('Power', powerTable(effort))}</div>
</section>`;
}

/** Where a raceway goes through an open doorway, a leaf may have to shut on it. */
function leafWords(design: Design, { passed }: Effort): string {
  const hung = design.doors
    .filter(({ name, leaf }) => leaf && passed.surface.includes(name))
    .map(({ name }) => named(name));
  if (hung.length === 0) return '';
  return ` Surface-mounted cables pass the frame of ${joined(hung)}, where a leaf shuts: only a flat cable lets it.`;
}

function variantsTable(effort: Effort): Markup {
  const row = (what: string, of: (share: Share, variant: Variant) => string): Markup =>
    html`<tr><th scope="row">${what}</th>${VARIANTS.map((variant) => html`<td>${of(effort.total[variant], variant)}</td>`)}</tr>`;
  return html`<table><caption>The whole house</caption><thead><tr><td></td><th scope="col">drilled</th><th scope="col">surface-mounted, nothing drilled</th></tr></thead><tbody>
${row('Holes', ({ holes }) => holesWords(holes))}
${row('Cable', ({ cable_m }) => lengthWords(cable_m))}
${row('Raceway', ({ raceway_m }) => (raceway_m === 0 ? 'none' : lengthWords(raceway_m)))}
${row(`Parts${madeUpMark(effort)}`, ({ parts_cents }) => money(parts_cents, effort.currency))}
${row('Work', ({ minutes }) => hoursWords(minutes))}
${effort.total.drilled.work_cents !== null && row('Cost of work', ({ work_cents }) => money(work_cents ?? 0, effort.currency))}
${effort.total.drilled.work_cents !== null && row('Parts and work', ({ parts_cents, work_cents }) => money(parts_cents + (work_cents ?? 0), effort.currency))}
</tbody></table>`;
}

function doorsTable({ doors, shared, currency }: Effort): Markup {
  const rows = [...doors.map((one) => ({ ...one, name: named(one.door) })), { ...shared, name: 'what all share' }];
  const cells = (share: Share, own: boolean): Markup =>
    html`<td class="num">${count(holesIn(share.holes))}</td><td class="num">${own ? lengthWords(share.cable_m) : '–'}</td><td class="num">${money(share.parts_cents, currency)}</td><td class="num">${hoursWords(share.minutes)}</td>`;
  const heads = ['holes', 'cable', 'parts', 'work'].map((head) => html`<th scope="col">${head}</th>`);
  return html`<table><caption class="hidden">Effort door by door</caption><thead><tr><td></td><th scope="colgroup" colspan="4">drilled</th><th scope="colgroup" colspan="4">surface-mounted</th></tr><tr><th scope="col">door</th>${heads}${heads}</tr></thead>
<tbody>${rows.map((one) => html`<tr><th scope="row">${one.name}</th>${cells(one.drilled, 'door' in one)}${cells(one.surface, 'door' in one)}</tr>`)}</tbody></table>`;
}

const MOUNTED = { drilled: 'drilled', surface: 'surface-mounted' } as const;

function partsTable({ total, currency }: Effort, variant: Variant): Markup {
  return html`<table><caption>Parts, ${MOUNTED[variant]}</caption><thead><tr><th scope="col">part</th><th scope="col">how many</th><th scope="col">price</th><th scope="col">amount</th></tr></thead><tbody>${total[
    variant
  ].lines.map(
    (line) =>
      html`<tr><th scope="row">${named(line.part)}</th><td class="num">${line.unit === 'm' ? lengthWords(line.quantity) : count(line.quantity)}</td><td class="num">${money(line.price_cents, currency)}${line.made_up && html` <small>made up</small>`}</td><td class="num">${money(line.cents, currency)}</td></tr>`,
  )}</tbody></table>`;
}

function controllersTable({ controllers }: Effort): Markup {
  const pins = (needs: number, free: number | null): string =>
    free === null ? count(needs) : `${count(needs)} of ${count(free)} free`;
  return html`<table><caption>What sensors take of controllers</caption><thead><tr><th scope="col">controller</th><th scope="col">sensors</th><th scope="col">digital pins</th><th scope="col">analogue inputs</th></tr></thead>
<tbody>${controllers.map((c) => html`<tr><th scope="row">${named(c.controller)}</th><td class="num">${count(c.sensors)}</td><td>${pins(c.digital_pins, c.free_digital_pins)}</td><td>${pins(c.analogue_inputs, c.free_analogue_inputs)}</td></tr>`)}</tbody></table>`;
}

function powerTable({ power, watt_hours_a_day }: Effort): Markup {
  return html`<table><caption>Watt-hours a day, without what power supplies lose: ${decimal(watt_hours_a_day, 2)}</caption><thead><tr><th scope="col">of</th><th scope="col">how many</th><th scope="col">power of one</th><th scope="col">watt-hours a day</th></tr></thead>
<tbody>${power.map((line) => html`<tr><th scope="row">${named(line.of)}</th><td class="num">${plural(line.count, 'piece')}</td><td>${decimal(line.power_mw)} mW${line.assumed && html`<small>assumed</small>`}</td><td class="num">${decimal(line.watt_hours_a_day, 2)}</td></tr>`)}</tbody></table>`;
}
