/** The scripts of a report as `npm run build` bundled them. */
import { readFileSync } from 'node:fs';
import type { PageScripts } from '../report/alive/page-scripts.js';

const BUNDLED = new URL('../../dist/page/scripts.json', import.meta.url);

/** What a page is given, as `--static` says: with it no script at all. */
export function pageScripts(isStatic: boolean | undefined = false): { readonly scripts?: PageScripts } {
  return isStatic ? {} : { scripts: JSON.parse(readFileSync(BUNDLED, 'utf8')) as PageScripts };
}
