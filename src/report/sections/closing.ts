/** The end of the page: cautions, limits, how to reproduce it, the words used. */
import type { Design } from '../../scenario/schema.js';
import { cautionsFor } from '../cautions.js';
import { WORDS } from '../glossary.js';
import { html, type Markup } from '../html.js';
import { NOT_MODELLED } from '../limits.js';
import type { ReportInput } from '../report-input.js';
import { copiedCommand, replayCommand, reproduceCommand, scenarioText } from '../reproduce.js';
import { sha256 } from '../sha256.js';
import { named, plain } from '../words.js';

export function cautionsSection(design: Design): Markup {
  return html`<section aria-labelledby="cautions"><h2 id="cautions">Cautions</h2>
<dl class="cautions">${cautionsFor(design).map((c) => html`<div><dt>${c.title}</dt><dd>${c.text}</dd></div>`)}</dl></section>`;
}

export function limitsSection(): Markup {
  return html`<section aria-labelledby="limits"><h2 id="limits">What was not modelled</h2>
<ul>${NOT_MODELLED.map((l) => html`<li>${l}</li>`)}</ul>
<p>The numbers are a simulation’s. Walk through the built door and count before you trust them.</p></section>`;
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
