/** Of a report that was made from a log: what that log was like, and what it is not. */
import type { Figures } from '../../score/figures.js';
import { html, type Markup } from '../html.js';
import { repairSentences } from '../log-words.js';
import { count, decimal, plural } from '../words.js';

export function logSection({ replayed }: Figures): Markup | null {
  if (!replayed) return null;
  const { rows, edges, readings, span_h } = replayed;
  const sentences = repairSentences(replayed);
  return html`<section aria-labelledby="log"><h2 id="log">Counted from a log</h2>
<p>Nothing here was simulated: ${plural(rows, 'row')} of a log (${count(edges)} edges, ${count(readings)} readings) over ${decimal(span_h, 2)} hours were counted, and judged by a list of who truly came. What is said of mixes, people and their sizes is the scenario’s. Times are those since the log began.</p>
${sentences.length > 0 && html`<ul>${sentences.map((one) => html`<li>${one}</li>`)}</ul>`}
<p><b>A log shows when people are home.</b> Keep it, and this report, among those it is about; tell them that you count, and delete what you no longer need.</p></section>`;
}
