/** The box right under the verdict: what not to conclude, each line with a link to where more is said. */
import { html, type Markup } from '../html.js';
import type { Unwise } from '../unwise.js';

export function unwiseSection(lines: readonly Unwise[]): Markup {
  return html`<section aria-labelledby="unwise" class="unwise"><h2 id="unwise">What you would be unwise to conclude</h2>
<ul>${lines.map(({ that, why, section }) => html`<li><a href="#${section}">That ${that}.</a> ${why}</li>`)}</ul></section>`;
}
