/** The scripts of a page, bundled and packed when jambeam is built, and how they are set into it. */
import { gzipSync } from 'node:zlib';
import { html, trusted, type Markup } from '../html.js';
import type { LivePage } from './live-page.js';

/** The scripts of a page, and their hashes for its policy. */
export interface PageScripts {
  /** Runs as it stands; unpacks the others. */
  readonly loader: string;
  /** Packed: gzip in base64. */
  readonly alive: string;
  readonly ask: string;
  /** Of the loader and of what it unpacks, as a policy names them. */
  readonly hashes: readonly string[];
}

/** Where a policy lets scripts run: those two, and the worker that the page makes itself. */
export const scriptPolicy = ({ hashes }: PageScripts): string =>
  `script-src ${hashes.map((hash) => `'${hash}'`).join(' ')}; worker-src blob:; `;

/** At the end of the page: blocks of data that no browser runs, and the loader. */
export function scriptBlocks({ loader, alive, ask }: PageScripts, live: LivePage): Markup {
  const data = gzipSync(JSON.stringify(live), { level: 9 }).toString('base64');
  const block = (
    id: string,
    packed: string,
  ): Markup => html`<script type="text/plain" id="${id}">${trusted(packed)}</script>
`;
  return html`${block('packed-data', data)}${block('packed-alive', alive)}${live.ask !== null && block('packed-ask', ask)}<script>${trusted(loader)}</script>`;
}
