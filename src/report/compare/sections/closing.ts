/** The end of a comparison: cautions, what it can't tell, how its numbers were made, how to reproduce each run, words. */
import { cautionsFor } from '../../cautions.js';
import { WORDS } from '../../glossary.js';
import { html, type Markup } from '../../html.js';
import { NOT_MODELLED } from '../../limits.js';
import { copiedCommand, scenarioText } from '../../reproduce.js';
import { named, plain } from '../../words.js';
import { type CompareRun, labelWords } from '../runs.js';
import { compareLimits } from '../unwise.js';

export function compareCautionsSection(runs: readonly CompareRun[]): Markup {
  const all = runs.flatMap(({ design }) => cautionsFor(design));
  const texts = [...new Set(all.map(({ title }) => title))].map(
    (title) => [title, [...new Set(all.filter((one) => one.title === title).map(({ text }) => text))]] as const,
  );
  return html`<section aria-labelledby="cautions"><h2 id="cautions">Cautions</h2>
<dl class="cautions">${texts.map(([title, those]) => html`<div><dt>${title}</dt><dd>${those.map((text, i) => html`${i > 0 && html`<br>`}${text}`)}</dd></div>`)}</dl></section>`;
}

export function compareLimitsSection(runs: readonly CompareRun[]): Markup {
  return html`<section aria-labelledby="limits"><h2 id="limits">What this comparison can’t tell</h2>
<p>Each of these would be unwise to conclude:</p>
<ul>${compareLimits(runs).map((line) => html`<li>${line}</li>`)}</ul>
<details><summary>What was not modelled</summary><ul>${NOT_MODELLED.map((line) => html`<li>${line}</li>`)}</ul></details>
<p>The numbers are a simulation’s. Walk through the built door and count before you trust them.</p></section>`;
}

/** What is done with the numbers, each with its source. */
const METHODS: readonly (readonly [string, string])[] = [
  [
    'paired',
    'Two runs are paired where seed, version, clock and everything that decides who comes, where and when are the same: then they met the same people at the same moments (common random numbers; A. M. Law, W. D. Kelton, Simulation Modeling and Analysis, chapter on variance reduction; from memory). Differences are taken over the first replicates that both have.',
  ],
  [
    'interval of a paired difference',
    'The jackknife: each replicate is left out of both runs in turn, and how far the difference moves says how uncertain it is; with Student’s t (J. W. Tukey, “Bias and confidence in not-quite large samples”, Annals of Mathematical Statistics 29, 1958, 614; R. G. Miller, “The jackknife: a review”, Biometrika 61, 1974, 1–15).',
  ],
  [
    'interval without pairs',
    'The jackknife’s errors of both, added as squares, with Welch’s degrees of freedom (B. L. Welch, “The generalization of Student’s problem when several different population variances are involved”, Biometrika 34, 1947, 28–35). A run in which an error never happened adds no width, which is optimistic.',
  ],
  [
    'all at once',
    'Bonferroni’s inequality: in tables for all differences of a number to the first run, in the verdict for all pairs of runs, because it is chance, too, that says which run is the best.',
  ],
  [
    'how many replicates would tell',
    'An interval’s half-width goes as one over the root of the replicates; the difference is taken to stay as large as it is now, which it need not.',
  ],
];

export function compareMethodSection(): Markup {
  return html`<section aria-labelledby="method"><h2 id="method">How the numbers were made</h2>
<dl class="words">${METHODS.map(([term, words]) => html`<div><dt>${term}</dt><dd>${words}</dd></div>`)}</dl></section>`;
}

export function compareReproduceSection(runs: readonly CompareRun[]): Markup {
  return html`<section aria-labelledby="reproduce"><h2 id="reproduce">How to reproduce this</h2>
<p>Save each run’s scenario as <code>scenario.yaml</code> in a folder of its own, logic tables under their names beside it, run it with the version of jambeam it was made with, and compare the runs again with <code>jambeam report A.run B.run --out compare.html</code>.</p>
${runs.map(
  (run) => html`<h3>${labelWords(run)}</h3>
<p>jambeam ${named(run.metrics.jambeam)}${run.figures.replayed && '; counted from a log, which is not in this page'}</p>
<pre tabindex="0" aria-label="Command line of ${plain(run.label)}">${copiedCommand(run.design)}</pre>
<details class="long"><summary>The scenario of ${labelWords(run)}, defaults filled in</summary><pre tabindex="0" aria-label="Scenario of ${plain(run.label)}">${scenarioText(run.design)}</pre></details>
${Object.entries(run.design.tables).map(([file, text]) => html`<details class="long"><summary>Logic table ${named(file)} of ${labelWords(run)}</summary><pre tabindex="0" aria-label="Logic table ${plain(file)} of ${plain(run.label)}">${text}</pre></details>`)}`,
)}</section>`;
}

/** Words of comparisons; those of a run stand behind them. */
const COMPARE_WORDS: readonly (readonly [string, string])[] = [
  ['crowd', 'who comes when and does what, in all replicates; the same for runs that change nothing about it'],
  ['paired', 'compared replicate by replicate under the same crowd'],
  ['told from chance', 'the interval of the difference leaves out nothing'],
  ['pp', 'percentage points: the difference of two percentages'],
];

export function compareWordsSection(): Markup {
  return html`<section aria-labelledby="words"><h2 id="words">Words used</h2>
<dl class="words">${[...COMPARE_WORDS, ...WORDS].map(([word, meaning]) => html`<div><dt>${word}</dt><dd>${meaning}</dd></div>`)}</dl></section>`;
}
