/** The end of the page: cautions, limits, how to reproduce it, the words used. */
import type { Design } from '../../scenario/schema.js';
import { cautionsFor } from '../cautions.js';
import { WORDS } from '../glossary.js';
import { html, type Markup } from '../html.js';
import { NOT_MODELLED } from '../limits.js';
import { reproduceCommand, scenarioText } from '../reproduce.js';
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

export function reproduceSection(design: Design, version: string): Markup {
  const tables = Object.entries(design.tables);
  return html`<section aria-labelledby="reproduce"><h2 id="reproduce">How to reproduce this</h2>
<p>Save the scenario below as <code>scenario.yaml</code>${tables.length > 0 && ', each logic table under its name beside it,'} and run it with jambeam ${version}. Same scenario, seed and version: the same numbers.</p>
<pre tabindex="0" aria-label="Command line">${reproduceCommand(design)}</pre>
<details><summary>The scenario, defaults filled in</summary><pre tabindex="0" aria-label="Scenario">${scenarioText(design)}</pre></details>
${tables.map(([file, text]) => html`<details><summary>Logic table ${named(file)}</summary><pre tabindex="0" aria-label="Logic table ${plain(file)}">${text}</pre></details>`)}
</section>`;
}

export function wordsSection(): Markup {
  return html`<section aria-labelledby="words"><h2 id="words">Words used</h2>
<dl class="words">${WORDS.map(([word, meaning]) => html`<div><dt>${word}</dt><dd>${meaning}</dd></div>`)}</dl></section>`;
}
