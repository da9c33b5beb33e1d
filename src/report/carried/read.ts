/**
 * The scenario out of a report's page. The page comes from outside, from anybody, perhaps saved again by a browser: it is
 * never parsed as a page, only looked through for the one data block, and the work stays in proportion to its length.
 */
import { jsonOrNothing } from '../../engine/json.js';
import { printable } from '../../engine/printable.js';
import { faultWords } from '../../scenario/fault-words.js';
import { BLOCK_ID } from './block-id.js';
import { CARRIED_FORMAT, type Carried, carriedSchema } from './schema.js';

/** Why no scenario can be had of a page. */
export interface NoScenario {
  readonly fault: string;
  readonly hint?: string;
}

/** The longest opening tag that is looked at, characters. */
const LONGEST_TAG = 2000;
/** A page of ours has a handful. */
const MOST_SCRIPTS = 1000;
const AGAIN = 'ask for the file as `jambeam run` wrote it';

/** Whether a text begins as a web page does, in whatever case and behind whatever space. */
export function isWebPage(text: string): boolean {
  return /^\ufeff?\s{0,100}(?:<!--.{0,2000}?-->\s{0,100})?<(?:!doctype\s+html|html)[\s>]/is.test(text);
}

/** Never throws. @param page text of at most some megabytes */
export function carriedIn(page: string): Carried | NoScenario {
  const blocks = blocksIn(page);
  if (blocks === null) return { fault: `more than ${MOST_SCRIPTS} scripts are in it: this is no report of ours` };
  if (blocks.length === 0) return withoutBlock(page);
  if (blocks.length > 1)
    return { fault: `expected one scenario in it, found ${blocks.length}: it was put together`, hint: AGAIN };
  const [json] = blocks;
  if (json === null || json === undefined) return { fault: 'the scenario in it is cut off', hint: AGAIN };
  return carriedOf(json);
}

/** A page without the block: what it is, as far as it says so, and what to do instead. */
function withoutBlock(page: string): NoScenario {
  if (/report of a study<\/title>/i.test(page))
    return {
      fault: 'it is the report of a study, and a study is many designs: none of them is carried by it',
      hint: 'run one of its designs from its own scenario, with --set KEY=LEVEL for each factor',
    };
  if (/jambeam/i.test(page))
    return {
      fault:
        'it is a page of ours but carries no scenario: it is no report of a single run, or one of an older version',
      hint: 'name the scenario itself; where the folder of the run is at hand, `jambeam report DIR` writes its report anew',
    };
  return { fault: 'it is a web page but no report of a run' };
}

/** What stands in each data block of ours, null for one that doesn't end; null when there are too many scripts. */
function blocksIn(page: string): (string | null)[] | null {
  const blocks: (string | null)[] = [];
  let scripts = 0;
  for (const { index } of page.matchAll(/<script(?=[\s/>])/gi)) {
    if (++scripts > MOST_SCRIPTS) return null;
    const [tag] = /^<script(?:[^>"']|"[^"]*"|'[^']*')*>/i.exec(page.slice(index, index + LONGEST_TAG)) ?? [];
    if (tag === undefined || idOf(tag) !== BLOCK_ID) continue;
    // No `<` is in a block of ours, so the first one ends it.
    const begin = index + tag.length;
    const end = page.indexOf('<', begin);
    const ended = end >= 0 && /^<\/script[\s/>]/i.test(page.slice(end, end + 10));
    blocks.push(ended ? page.slice(begin, end) : null);
  }
  return blocks;
}

/** The id of an opening tag, whatever order, quotes and case its attributes have. */
function idOf(tag: string): string | undefined {
  for (const [, key, double, single, bare] of tag.matchAll(
    /[\s"'/]([^\s"'<>/=]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+)))?/g,
  ))
    if (key?.toLowerCase() === 'id') return double ?? single ?? bare;
  return undefined;
}

function carriedOf(json: string): Carried | NoScenario {
  const value = jsonOrNothing(json);
  if (value === undefined) return { fault: 'the scenario in it is cut off or broken: expected JSON', hint: AGAIN };
  const format = (value as { readonly format?: unknown } | null)?.format;
  if (format !== CARRIED_FORMAT)
    return {
      fault: `its scenario is in format ${printable(JSON.stringify(format) ?? 'nothing')}; this version of jambeam reads format ${CARRIED_FORMAT}`,
      ...(typeof format === 'number' && format > CARRIED_FORMAT && { hint: 'a newer version of jambeam made it' }),
    };
  const { data, error } = carriedSchema.safeParse(value);
  if (data) return data;
  const [issue] = error.issues;
  return { fault: `the scenario in it is broken: ${issue ? faultWords(issue) : 'it is none of ours'}`, hint: AGAIN };
}
