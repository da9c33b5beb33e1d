/** The end of the page: cautions, limits, assumptions and sources, how to reproduce it, the words used. */
import { figureValueText, type Figure } from '../../engine/figure.js';
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import { SENSOR_KINDS, type SensorKind } from '../../sensors/schema.js';
import { cautionsFor } from '../cautions.js';
import { WORDS } from '../glossary.js';
import { livesHere } from '../household-words.js';
import { html, scrollable, type Markup } from '../html.js';
import { NOT_MODELLED } from '../limits.js';
import type { ReportInput } from '../report.js';
import { copiedCommand, replayCommand, reproduceCommand, scenarioText } from '../reproduce.js';
import { kindsUsed } from '../sensor-words.js';
import { sha256 } from '../sha256.js';
import { clothingTable, sensorSettings } from './settings.js';
import { decimal, joined, mixWords, named, percent, plain, plural } from '../words.js';

export function cautionsSection(design: Design): Markup {
  return html`<section aria-labelledby="cautions"><h2 id="cautions">Cautions</h2>
<dl class="cautions">${cautionsFor(design).map((c) => html`<div><dt>${c.title}</dt><dd>${c.text}</dd></div>`)}</dl></section>`;
}

export function limitsSection(): Markup {
  return html`<section aria-labelledby="limits"><h2 id="limits">What was not modelled</h2>
<ul>${NOT_MODELLED.map((l) => html`<li>${l}</li>`)}</ul>
<p>The numbers are a simulation’s. Walk through the built door and count before you trust them.</p></section>`;
}

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
${assumed.length > 0 && html`<h3>Built in, without a published source</h3>${figureTable(assumed, 'Figures without a published source')}`}
${cited.length > 0 && html`<h3>Built in, with a source</h3><details><summary>${plural(cited.length, 'figure')} with citation</summary>${figureTable(cited, 'Figures with a source')}</details>`}
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

/** Figures with the same source stand together beneath it, so that a source is read once. */
function figureTable(figures: readonly Figure[], label: string): Markup {
  const bySource = new Map<string, Figure[]>();
  for (const f of figures) bySource.set(f.citation, [...(bySource.get(f.citation) ?? []), f]);
  const row = (f: Figure): Markup =>
    html`<tr><th scope="row">${f.id}<small>${f.used_in}</small></th><td>${valueText(f)}${f.note !== undefined && html`<small>${f.note}</small>`}</td><td>${f.status}</td></tr>`;
  return scrollable(
    label,
    html`<table class="sources"><caption class="hidden">${label}</caption><thead><tr><th scope="col">figure</th><th scope="col">value</th><th scope="col">status</th></tr></thead>
${[...bySource].map(([source, those]) => html`<tbody><tr><th scope="rowgroup" colspan="3" class="source">${source}</th></tr>${those.map(row)}</tbody>`)}</table>`,
  );
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

export function reproduceSection(input: Pick<ReportInput, 'design' | 'figures' | 'version' | 'design_sha256'>): Markup {
  const { design, figures, version } = input;
  const scenario = scenarioText(design);
  const again = figures.replayed
    ? html`<p>This file carries its scenario, but not the log it was counted from. With the log and the list of who came:</p>
<pre tabindex="0" aria-label="Command line">${replayCommand(design)}</pre>`
    : html`<p>This file carries its scenario. Saved as <code>report.html</code>, it runs again:</p>
<pre tabindex="0" aria-label="Command line">${reproduceCommand(design)}</pre>`;
  const facts: [string, string][] = [
    ['Seed', named(String(design.seed))],
    ['Made by', `jambeam ${version}`],
    ['SHA-256 of design.json, the scenario as it was run and what was learnt before', input.design_sha256],
    ['SHA-256 of the scenario that this file carries', sha256(scenario)],
    ...design.logics.flatMap((logic): [string, string][] =>
      'sha256' in logic && logic.sha256 !== undefined
        ? [[`SHA-256 of the code of the logic ${named(logic.name)}`, logic.sha256]]
        : [],
    ),
  ];
  return html`<section aria-labelledby="reproduce"><h2 id="reproduce">How to reproduce this</h2>
${again}
<p>Same scenario, seed and version: the same numbers, to the last digit.${outsideCode(design) && ' Logics that are code are not carried: have their files at hand, and run only code you trust.'}</p>
<dl class="words">${facts.map(([term, value]) => html`<div><dt>${term}</dt><dd class="hash">${value}</dd></div>`)}</dl>
${!outsideCode(design) && byHand(design, scenario)}
</section>`;
}

const outsideCode = ({ logics }: Design): boolean => logics.some(({ use }) => use === 'module' || use === 'process');

/** For a reader who has the page but not the file: on paper, or in a message. */
function byHand(design: Design, scenario: string): Markup {
  const tables = Object.entries(design.tables);
  return html`<details><summary>By hand, without this file</summary>
<p>Save the scenario as <code>scenario.yaml</code>${tables.length > 0 && ', each logic table under its name beside it,'} and run:</p>
<pre tabindex="0" aria-label="Command line for the copied scenario">${copiedCommand(design)}</pre>
<h3>The scenario, defaults filled in</h3><pre tabindex="0" aria-label="Scenario">${scenario}</pre>
${tables.map(([file, text]) => html`<h3>Logic table ${named(file)}</h3><pre tabindex="0" aria-label="Logic table ${plain(file)}">${text}</pre>`)}
</details>`;
}

export function wordsSection(): Markup {
  return html`<section aria-labelledby="words"><h2 id="words">Words used</h2>
<dl class="words">${WORDS.map(([word, meaning]) => html`<div><dt>${word}</dt><dd>${meaning}</dd></div>`)}</dl></section>`;
}
