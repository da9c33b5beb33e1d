/** Differences to the reference, number by number: drawn for the house and its rooms, and a table for each place. */
import { estimateCell } from '../../cells.js';
import { drawCharts, isChart } from '../../charts/chart.js';
import { html, scrollable, type Markup } from '../../html.js';
import { joined, plural } from '../../words.js';
import { differencesChart } from '../charts/differences.js';
import { type RunDifference, difference, judged } from '../differences.js';
import {
  ALL_ROOMS,
  type CompareMeasure,
  HOUSE,
  type MeasureGroup,
  allHaveRooms,
  errorMeasures,
  measureGroups,
  placeWords,
  roomMeasures,
  unitWords,
} from '../measures.js';
import { type CompareRun, doorNames, inAll, labelWords, roomNames } from '../runs.js';
import { pairingWords, signedWords } from '../words.js';

export async function differencesSection(runs: readonly CompareRun[]): Promise<Markup> {
  const [reference, ...others] = runs;
  const groups = measureGroups(runs);
  const rooms = inAll(runs, roomNames);
  const roomShares = [...(allHaveRooms(runs) ? [ALL_ROOMS] : []), ...rooms.map((name) => roomMeasures(name)[0]!)];
  const dark = rooms.map((name) => roomMeasures(name)[1]!);
  const charts = [
    differencesChart('differences-doors', errorMeasures(HOUSE), runs, 'All doors'),
    differencesChart('differences-right', roomShares, runs, 'Exactly right', true),
    differencesChart('differences-dark', dark, runs, 'Empty while occupied', true),
  ].filter(isChart);
  const several = others.length > 1;
  return html`<section aria-labelledby="differences"><h2 id="differences">Differences to ${labelWords(reference!)}</h2>
<p>Each number of ${joined(others.map(labelWords))} minus that of ${labelWords(reference!)}. Where runs met the same people at the same moments the difference is taken replicate by replicate (<i>paired</i>), so that what the people did falls out of it; where they did not, it carries the chance of both crowds, and the table says so beside it.${missing(runs)}</p>
<div class="charts">${await drawCharts(charts, 3)}</div>
${groups.map((group, i) => (i === 0 || group.place.of === 'rooms' ? table(runs, group) : null))}
${folded('Room by room', 'room', runs, groups)}
${folded('Door by door', 'door', runs, groups)}
<p class="key">Small figures: 95\u00a0% intervals, each for itself.${several && ` “All at once”: with Bonferroni’s inequality for the ${plural(others.length, 'difference')} of a number to ${labelWords(reference!)}, which hold together with 95\u00a0% confidence.`} Paired: jackknife over the replicates that both runs have. Not paired: errors of both by the jackknife, with Welch’s degrees of freedom. “yes”: the interval for itself leaves out nothing.</p>
</section>`;
}

function missing(runs: readonly CompareRun[]): string {
  const of = (names: (run: CompareRun) => readonly string[]): boolean => {
    const common = inAll(runs, names).length;
    return runs.some((run) => names(run).length > common);
  };
  const what = [...(of(doorNames) ? ['doors'] : []), ...(of(roomNames) ? ['rooms'] : [])];
  return what.length === 0
    ? ''
    : ` Not all runs have the same ${joined(what)}: one by one only those are compared that all have, by their names.`;
}

function folded(
  title: string,
  of: 'room' | 'door',
  runs: readonly CompareRun[],
  groups: readonly MeasureGroup[],
): Markup | null {
  const those = groups.filter(({ place }) => place.of === of);
  if (those.length === 0) return null;
  const tables = those.map((group) => table(runs, group));
  return html`<h3>${title}</h3>${those.length > 3 ? html`${tables.slice(0, 2)}<details><summary>${plural(those.length - 2, `more ${of}`)}</summary>${tables.slice(2)}</details>` : tables}`;
}

function table(runs: readonly CompareRun[], { place, measures }: MeasureGroup): Markup {
  const [reference, ...others] = runs;
  const caption = placeWords(place);
  const zero = measures.filter((measure) => runs.every((run) => measure.estimate(run)?.value === 0));
  const some = measures.filter((measure) => !zero.includes(measure));
  const head = others.map(
    (run) =>
      html`<th scope="col">${labelWords(run)}</th><th scope="col">difference<small>${pairingWords(difference(measures[0]!, run, reference!, 1))}</small></th><th scope="col">told from chance</th>`,
  );
  const never =
    zero.length > 0 &&
    html`<p class="key">${caption}: none in any of the runs: ${joined(zero.map(({ words }) => words))}.</p>`;
  if (some.length === 0) return html`${never}`;
  return html`${scrollable(
    `Differences: ${caption}`,
    html`<table class="compare"><caption>${caption}</caption><thead><tr><th scope="col">what</th><th scope="col">${labelWords(reference!)}</th>${head}</tr></thead>
<tbody>${some.map((measure) => row(measure, reference!, others))}</tbody></table>`,
  )}${never}`;
}

function row(measure: CompareMeasure, reference: CompareRun, others: readonly CompareRun[]): Markup {
  return html`<tr><th scope="row">${measure.words}<small>${unitWords(measure)}</small></th>${ownCell(measure, reference)}${others.map(
    (run) => {
      const found = difference(measure, run, reference, others.length);
      return html`${ownCell(measure, run)}${differenceCell(measure, found, others.length)}`;
    },
  )}</tr>`;
}

function ownCell(measure: CompareMeasure, run: CompareRun): Markup {
  const estimate = measure.estimate(run);
  return estimate === null ? html`<td class="none">not there</td>` : estimateCell(estimate, measure.as);
}

const TOLD = { better: 'yes, better', worse: 'yes, worse', other: 'yes', alike: 'the same', unsure: 'no' } as const;

function differenceCell(measure: CompareMeasure, found: RunDifference, family: number): Markup {
  const { own, atOnce } = found;
  const { value, range, note } = signedWords(own, measure.as);
  if (value === null)
    return html`<td class="num none"><span>not known</span> <small>${note}</small></td><td class="none">not known</td>`;
  const told = judged(measure, own);
  const points = measure.as === 'share' && '\u00a0pp';
  if (told === 'alike')
    return html`<td class="num"><b>0${points}</b> <small>the same in every replicate</small></td><td>${TOLD[told]}</td>`;
  const all = family > 1 && range !== null ? signedWords(atOnce, measure.as).range : null;
  return html`<td class="num ${told}"><b>${value}${points}</b> <small>${range ?? `no interval: ${note ?? 'none known'}`}</small>${all !== null && html`<small>all at once: ${all}</small>`}${found.apart !== null && html`<small>not paired</small>`}</td><td>${range === null ? 'not known' : TOLD[told]}</td>`;
}
