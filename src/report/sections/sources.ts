/** What the run assumes, and every built-in figure with its source and status. */
import { figureValueText, type Figure } from '../../engine/figure.js';
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import { SENSOR_KINDS, type SensorKind } from '../../sensors/schema.js';
import { livesHere } from '../household-words.js';
import { html, type Markup } from '../html.js';
import { kindsUsed } from '../sensor-words.js';
import { decimal, joined, mixWords, named, percent, plural } from '../words.js';
import { clothingTable, sensorSettings } from './settings.js';

/** What rests on somebody's judgement rather than on a publication. */
const ASSUMED = new Set<Figure['status']>(['assumption', 'from memory', 'common practice']);

export function sourcesSection(design: Design, figures: Figures, sources: readonly Figure[]): Markup {
  const used = sources.filter((f) => concerns(design, f));
  const assumed = used.filter((f) => ASSUMED.has(f.status));
  const cited = used.filter((f) => !ASSUMED.has(f.status));
  return html`<section aria-labelledby="sources"><h2 id="sources">Assumptions and sources</h2>
<h3>Assumed by the scenario</h3>
${scenarioAssumptions(design)}
${sensorSettings(design)}
${clothingTable(figures)}
${assumed.length > 0 && html`<h3>Built in, without a published source</h3><details><summary>${plural(assumed.length, 'figure')} that somebody judged or remembered</summary>${figureList(assumed)}</details>`}
${cited.length > 0 && html`<h3>Built in, with a source</h3><details><summary>${plural(cited.length, 'figure')} with citation</summary>${figureList(cited)}</details>`}
</section>`;
}

/** Figures about a kind of sensor, by how their names begin. */
const ABOUT_KIND: Readonly<Record<SensorKind, string>> = {
  'light-barrier': 'sensor.light_barrier.',
  'ultrasonic-ranger': 'sensor.ultrasonic.',
  'triangulation-ranger': 'sensor.triangulation.',
  'time-of-flight-ranger': 'sensor.time_of_flight.',
};

/** Whether a design can rest on a figure: one about a kind of sensor only where that kind is used. */
function concerns(design: Design, { id }: Figure): boolean {
  const used = new Set(kindsUsed(design));
  return SENSOR_KINDS.every((kind) => used.has(kind) || !id.startsWith(ABOUT_KIND[kind]));
}

/** Who lives in the house and how they walk, or who comes to each door. */
function scenarioAssumptions(design: Design): Markup {
  const { household } = design;
  if (household === undefined)
    return html`<ul>${assumptions(design).map(([doors, text]) => html`<li>${doors.length === 1 ? 'Door' : 'Doors'} ${joined(doors)}: ${text}.</li>`)}</ul>`;
  const { activity, home_pace, turn_back_share, linger_share, reach_share } = household;
  return html`<ul>${livesHere(household).map((sentence) => html`<li>${sentence}</li>`)}
<li>Their habits, when they sleep, eat, go out and walk from room to room, are invented; they are as active as ${decimal(activity)} times these habits say.</li>
<li>People walk at ${decimal(home_pace)} of the published pace. In a doorway ${percent(turn_back_share)} of walks turn back, ${percent(linger_share)} linger, ${percent(reach_share)} begin with reaching through.</li></ul>`;
}

/** What the scenario assumes of who comes, doors with the same assumptions together. */
function assumptions(design: Design): [string[], string][] {
  const byText = new Map<string, string[]>();
  for (const { name, traffic } of design.doors) {
    const returns = traffic.one_way ? 'nobody returns' : `they stay ${decimal(traffic.stay_mean_min)} min on average`;
    const text = `${mixWords(traffic.mix)} (shares of arriving parties); people walk at ${decimal(traffic.home_pace)} of the published pace; ${returns}`;
    byText.set(text, [...(byText.get(text) ?? []), named(name)]);
  }
  return [...byText].map(([text, doors]) => [doors, text]);
}

/** Figures with the same source stand together beneath it, so that a source is read once; its status where they agree on it. */
function figureList(figures: readonly Figure[]): Markup {
  const bySource = new Map<string, Figure[]>();
  for (const f of figures) bySource.set(f.citation, [...(bySource.get(f.citation) ?? []), f]);
  return html`<dl class="sources">${[...bySource].map(([source, those]) => {
    const [status, ...others] = new Set(those.map((f) => f.status));
    const alike = others.length === 0;
    return html`<div><dt>${source}${alike && html` · ${status}`}</dt>${those.map((f) => html`<dd><b>${f.id}</b> ${valueText(f)}${!alike && html` · ${f.status}`} <small>${f.used_in}${f.note !== undefined && `; ${f.note}`}</small></dd>`)}</div>`;
  })}</dl>`;
}

/** Whole tables of numbers are named, not printed: the command that lists sources prints them. */
const LONGEST_VALUE = 90;
function valueText(f: Figure): string {
  const text = figureValueText(f.value);
  const unit = f.unit === '' || f.unit === '1' ? '' : ` ${f.unit}`;
  if (text.length <= LONGEST_VALUE) return text + unit;
  const rows = Array.isArray(f.value) ? f.value.length : 1;
  return rows > 1 ? `${plural(rows, 'row')}${unit}; see jambeam sources` : text + unit;
}
