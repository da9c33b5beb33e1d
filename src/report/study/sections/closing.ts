/** The end of a study's report: what it can't tell, how it was made, cautions, how to reproduce it, the words used. */
import { CAUTIONS } from '../../cautions.js';
import { WORDS } from '../../glossary.js';
import { html, type Markup } from '../../html.js';
import { NOT_MODELLED } from '../../limits.js';
import { studyLimits } from '../limits.js';
import type { StudyView } from '../view.js';

export function studyLimitsSection(view: StudyView): Markup {
  return html`<section aria-labelledby="limits"><h2 id="limits">What this study can’t tell</h2>
<ul>${studyLimits(view).map((limit) => html`<li>${limit}</li>`)}</ul>
<details><summary>What was not modelled</summary><ul>${NOT_MODELLED.map((one) => html`<li>${one}</li>`)}</ul></details>
<p>The numbers are a simulation’s. Walk through the built door and count before you trust them.</p></section>`;
}

/** What is done with the numbers, each with its source. */
const METHODS: readonly (readonly [string, string])[] = [
  [
    'same crowds',
    'Designs meet the same people replicate by replicate wherever no factor changes the crowd itself, so what the people did falls out of a difference (common random numbers).',
  ],
  [
    'own interval',
    'Jackknife over replicates with Student’s t: each replicate is left out in turn, and how far the estimate moves says how uncertain it is.',
  ],
  [
    'difference',
    'Taken replicate by replicate over the replicates common to all ranked designs; of designs that met different crowds with the errors of both and Welch’s degrees of freedom (B. L. Welch, “The generalization of Student’s problem when several different population variances are involved”, Biometrika 34, 1947, 28–35). Intervals are Bonferroni’s for all pairs of designs at once.',
  ],
  [
    'may be the best',
    'A design stays while none is better than it by more than chance allows (pairwise screening with Bonferroni’s bound). The set holds the truly best design with 95\u00a0% confidence. After B. L. Nelson, J. Swann, D. Goldsman, W. Song, “Simple procedures for selecting the best simulated system when the number of alternatives is large”, Operations Research 49, 2001, 950–963 (from memory; there for independent samples).',
  ],
  [
    'p',
    'How often chance alone would give a difference as large, adjusted by Holm’s step-down method for all pairs (S. Holm, “A simple sequentially rejective multiple test procedure”, Scandinavian Journal of Statistics 6, 1979, 65–70); with more than 200 designs by Bonferroni’s, which is stricter.',
  ],
  [
    'effect',
    'From matched pairs of designs that differ in one factor only, averaged; how two factors act on each other from fours of designs. Combinations left out need no guess. Intervals are Bonferroni’s for all steps, or all fours, at once.',
  ],
  [
    'beaten by no other',
    'By the estimates alone: no design is at least as good in all of the ranked number, cost, cable and holes, and better in one.',
  ],
];

export function methodSection(): Markup {
  return html`<section aria-labelledby="method"><h2 id="method">How the numbers were made</h2>
<dl class="words">${METHODS.map(([term, words]) => html`<div><dt>${term}</dt><dd>${words}</dd></div>`)}</dl></section>`;
}

export function studyCautionsSection(): Markup {
  return html`<section aria-labelledby="cautions"><h2 id="cautions">Cautions</h2>
<dl class="cautions">${CAUTIONS.map(({ title, text }) => html`<div><dt>${title}</dt><dd>${text}</dd></div>`)}</dl></section>`;
}

export function studyReproduceSection({ summary }: StudyView): Markup {
  return html`<section aria-labelledby="reproduce"><h2 id="reproduce">How to reproduce this</h2>
<p>Keep the study’s file with the scenario it names, and run it with jambeam ${summary.jambeam}. Same study, scenario, seed and version: the same numbers, however many processes share the work and however often it was stopped.</p>
<pre tabindex="0" aria-label="Command line">jambeam study STUDY.yaml</pre>
${!summary.finished && html`<p>This study can go on where it stopped:</p><pre tabindex="0" aria-label="Command line to go on">jambeam study STUDY.yaml --resume</pre>`}
<p>To name the cheapest design that surely keeps a limit of yours, held for all designs at once, ask for example:</p>
<pre tabindex="0" aria-label="Command line to pick a design">${"jambeam pick STUDY.study --want 'house.wrong_per_100 < 3' --least cost"}</pre>
</section>`;
}

/** Words of studies; those of a run that a study uses too stand behind them. */
const STUDY_WORDS: readonly (readonly [string, string])[] = [
  ['factor', 'one thing that was varied: a key of the scenario, several keys together, or named variants'],
  ['level', 'one of the values of a factor'],
  ['design', 'one combination of levels, a level of each factor'],
  ['cell', 'one replicate of one design'],
  ['crowd', 'who comes when and does what, in all replicates; the same for all designs that change nothing about it'],
  ['may be the best', 'not told from the best with the replicates there are; more replicates make the set smaller'],
];
const SHARED = new Set(['beam', 'ranger', 'visit', 'crossing', 'logic', 'wrong', 'replicate', '95 % interval']);

export function studyWordsSection(): Markup {
  return html`<section aria-labelledby="words"><h2 id="words">Words used</h2>
<dl class="words">${[...STUDY_WORDS, ...WORDS.filter(([word]) => SHARED.has(word))].map(([word, meaning]) => html`<div><dt>${word}</dt><dd>${meaning}</dd></div>`)}</dl></section>`;
}
