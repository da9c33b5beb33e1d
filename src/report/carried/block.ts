/**
 * The scenario that a report carries, so that the page alone runs again: one data block of JSON.
 *
 *     <script type="application/json" id="jambeam-scenario">{"format":1,"jambeam":"0.1.0","scenario":"…","tables":{}}</script>
 *
 * A `script` of a type that is no JavaScript is a data block: a browser neither runs nor shows it, and no policy of
 * the page is asked (HTML Living Standard, section 4.12.1 The script element).
 */
import type { Design } from '../../scenario/schema.js';
import { type Markup, trusted } from '../html.js';
import { scenarioText } from '../reproduce.js';
import { BLOCK_ID } from './block-id.js';
import type { Carried } from './schema.js';

/** @param version of jambeam that made the run */
export function carriedScenario(design: Design, version: string): Markup {
  const carried: Carried = { format: 1, jambeam: version, scenario: scenarioText(design), tables: design.tables };
  return trusted(`<script type="application/json" id="${BLOCK_ID}">${inert(JSON.stringify(carried))}</script>`);
}

/**
 * JSON in plain ASCII without `<`, `>` and `&`: nothing in it can end the block or begin a comment, and no program that
 * saves the page in another encoding can change it. Outside its strings JSON has none of these characters.
 */
function inert(json: string): string {
  return json.replace(/[<>&]|[^\x20-\x7e]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
}
