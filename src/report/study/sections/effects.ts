/** What each step of a factor does whatever the others are, and which factors act on each other. */
import type { Interaction, MainEffect } from '../../../study/summary-schema.js';
import { drawCharts, isChart } from '../../charts/chart.js';
import { html, scrollable, type Markup } from '../../html.js';
import { count, plural } from '../../words.js';
import { effectsChart, largestFirst } from '../charts/effects.js';
import { differenceParts, factorWords, isSure, levelWords, metricAxis } from '../study-words.js';
import type { StudyView } from '../view.js';

const MOST_STEPS = 40;
const MOST_INTERACTIONS = 10;

export async function effectsSection(view: StudyView): Promise<Markup | null> {
  const { main, replicates } = view.summary.effects;
  if (main.length === 0) return null;
  const good = view.summary.rank_by.best === 'least' ? 'less is better' : 'more is better';
  return html`<section aria-labelledby="effects"><h2 id="effects">Effects</h2>
<p>How the ranked number (${metricAxis(view)}) changes from level to level, averaged over all pairs of designs that differ in nothing else; ${good}. Steps of a factor of numbers go from neighbour to neighbour, of others from the first level to each. From the ${plural(replicates, 'replicate')} that all ranked designs have.</p>
<div class="charts">${await drawCharts([effectsChart('effects-chart', view)].filter(isChart), 3)}</div>
${stepTable(view)}
${interactionTable(view)}
</section>`;
}

function changeCell(view: StudyView, change: MainEffect['change']): Markup {
  const { value, range } = differenceParts(view, change);
  return html`<td class="num"><b>${change.value > 0 && '+'}${value ?? 'not known'}</b> <small>${range ?? 'no interval'}</small></td><td>${change.low === null ? 'not known' : isSure(change) ? 'yes' : 'no'}</td>`;
}

function stepTable(view: StudyView): Markup {
  const all = view.summary.effects.main;
  // In the order of the factors where all fit, the largest otherwise.
  const shown = all.length <= MOST_STEPS ? all : largestFirst(all).slice(0, MOST_STEPS);
  return html`${scrollable(
    'Steps of factors',
    html`<table><caption>Step by step</caption><thead><tr><th scope="col">factor</th><th scope="col">from</th><th scope="col">to</th><th scope="col">change</th><th scope="col">told from chance</th><th scope="col">pairs</th></tr></thead>
<tbody>${shown.map(({ factor, level, against, designs, change }) => {
      const own = view.factors[factor];
      return html`<tr><th scope="row">${own && factorWords(own)}</th><td>${levelWords(own, against)}</td><td>${levelWords(own, level)}</td>${changeCell(view, change)}<td class="num">${count(designs)}</td></tr>`;
    })}</tbody></table>`,
  )}<p class="key">Small figures: intervals that hold with 95\u00a0% confidence for all steps at once.${all.length > shown.length && ` The ${MOST_STEPS} largest of ${count(all.length)} steps.`}</p>`;
}

function interactionTable(view: StudyView): Markup | null {
  const all = view.summary.effects.interactions;
  if (all.length === 0) return null;
  const shown = all.slice(0, MOST_INTERACTIONS);
  const step = (one: Interaction, side: 0 | 1): string => {
    const own = view.factors[one.factors[side]!];
    const [level, against] = one.levels[side]!;
    return own === undefined
      ? 'not known'
      : `${factorWords(own)} from ${levelWords(own, against)} to ${levelWords(own, level)}`;
  };
  const surely = all.some(({ change }) => isSure(change));
  return html`<h3>Factors that act on each other${!surely && ': none told from chance'}</h3>
<p>How much more the first step does when the second one has been taken as well; near nothing where two factors act each for itself. Where it is large, the averages above hide something: look at the curves.</p>
${scrollable(
  'Factors that act on each other',
  html`<table class="told"><caption class="hidden">Factors that act on each other, largest first</caption><thead><tr><th scope="col">first step</th><th scope="col">second step</th><th scope="col">how much more</th><th scope="col">told from chance</th><th scope="col">fours</th></tr></thead>
<tbody>${shown.map((one) => html`<tr><th scope="row">${step(one, 0)}</th><td class="say">${step(one, 1)}</td>${changeCell(view, one.change)}<td class="num">${count(one.designs)}</td></tr>`)}</tbody></table>`,
)}<p class="key">Small figures: intervals that hold with 95\u00a0% confidence for all of them at once. The ${shown.length === all.length ? '' : `${shown.length} `}largest first.</p>`;
}
