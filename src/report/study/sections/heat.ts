/** Two factors against each other: the ranked number in a cell for each pair of levels. */
import { withLevel } from '../../../study/plan/factor.js';
import { html, scrollable, type Markup } from '../../html.js';
import { capital, estimateWords, plural } from '../../words.js';
import { someLevels } from '../along.js';
import { factorTitle, factorWords, levelWords, metricAxis, othersWords } from '../study-words.js';
import type { StudyView } from '../view.js';
import { factorsByWeight } from '../weights.js';

const MOST_COLUMNS = 12;
const MOST_ROWS = 20;

export function heatSection(view: StudyView): Markup | null {
  const { best, factors } = view;
  const [first, second] = factorsByWeight(view);
  if (best === null || first === undefined || second === undefined) return null;
  // The one with more levels goes down the page, where there is room.
  const [down, across] =
    factors[first]!.levels.length >= factors[second]!.levels.length ? [first, second] : [second, first];
  const rows = someLevels(view, down, MOST_ROWS, best.levels[down]!);
  const columns = someLevels(view, across, MOST_COLUMNS, best.levels[across]!);
  const cells = rows.map((row) =>
    columns.map((column) => {
      const design = view.at(withLevel(withLevel(best.levels, down, row), across, column));
      return { design, e: view.estimate(design) };
    }),
  );
  const values = cells.flat().flatMap(({ e }) => (e === null ? [] : [e.value]));
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const shade = (value: number): string => {
    const share = high > low ? (value - low) / (high - low) : 0;
    return `${Math.round((view.summary.rank_by.best === 'least' ? share : 1 - share) * 100)}%`;
  };
  const missing = cells.flat().length - values.length;
  const [downWords, acrossWords] = [factorTitle(factors[down]!), factorWords(factors[across]!)];
  const others = othersWords(view, [down, across]);
  const thinned = rows.length < factors[down]!.levels.length || columns.length < factors[across]!.levels.length;
  const title = `${downWords} against ${acrossWords}`;
  return html`<section aria-labelledby="heat"><h2 id="heat">${title}</h2>
<p>${capital(metricAxis(view))} for each pair of levels of these two factors, which matter most${others === '' ? '' : `; ${others}`}. The stronger the colour, the worse; the frame marks the best design.</p>
${scrollable(
  `Heat map: ${title}`,
  html`<table class="heat"><caption class="hidden">${capital(metricAxis(view))}: ${title}</caption>
<thead><tr><th scope="col">${factorWords(factors[down]!)}</th>${columns.map((column) => html`<th scope="col">${acrossWords} ${levelWords(factors[across], column)}</th>`)}</tr></thead>
<tbody>${rows.map(
    (row, i) =>
      html`<tr><th scope="row">${levelWords(factors[down], row)}</th>${cells[i]!.map(({ design, e }) =>
        e === null
          ? html`<td class="none">${design === undefined ? 'left out' : design.state === 'failed' ? 'failed' : 'no number'}</td>`
          : html`<td class="num${design === best && ' best'}" style="--shade:${shade(e.value)}">${estimateWords(e, view.as).value}</td>`,
      )}</tr>`,
  )}</tbody></table>`,
)}
<p class="key">Intervals are in the ranking.${missing > 0 && ` Hatched: ${plural(missing, 'pair')} without a number.`}${thinned && ' Some levels only, evenly spread.'}</p></section>`;
}
