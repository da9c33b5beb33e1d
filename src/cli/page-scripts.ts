/** The scripts of a report as `npm run build` bundled them. */
import { readFileSync } from 'node:fs';
import type { PageScripts } from '../report/alive/page-scripts.js';

const BUNDLED = new URL('../../dist/page/scripts.json', import.meta.url);

export function pageScripts(): PageScripts {
  return JSON.parse(readFileSync(BUNDLED, 'utf8')) as PageScripts;
}
