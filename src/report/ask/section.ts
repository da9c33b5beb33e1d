/** Where a reader asks the page: filled by its script, hidden without one. */
import { html, type Markup } from '../html.js';
import { joined, named } from '../words.js';
import type { AskData } from './ask-data.js';

export function askSection({ doors, unavailable }: AskData): Markup {
  return html`<section aria-labelledby="ask" class="asking" hidden><h2 id="ask">Ask it something else</h2>
<p>Move the beams of ${doors.length === 1 ? 'the' : 'one'} door or give it another logic: the same people walk again, simulated here in your browser. What comes out is your own what-if and no part of this report: from fewer replicates its intervals are wider, and it says nothing of rooms or effort.${unavailable.length > 0 && ` Not to be had here, for they are code: ${joined(unavailable.map(named))}.`}</p></section>`;
}
