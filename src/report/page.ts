/** The frame of the page: a policy that lets nothing in, the style, the content, and the scripts where there are any. */
import { LIVE_STYLE } from './alive/live-style.js';
import { type PageScripts, scriptBlocks, scriptPolicy } from './alive/page-scripts.js';
import type { AskData } from './ask/ask-data.js';
import { html, trusted, type Markup } from './html.js';
import { STYLE } from './style.js';
import { plain } from './words.js';

const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** Where the licences are that the packages in the scripts ask for. Paper carries no scripts. */
const OTHERS_WORK = html`<p class="off-paper">The scripts of this page contain work of others; the licences stand at the end of each, and in dist/page/licences.txt of jambeam.</p>`;

export interface PageOptions {
  /** Of a page that is not the run's report. */
  readonly style?: string;
  readonly colours?: 'light dark' | 'only light';
  /** What brings it to life; without, the page holds no script at all. */
  readonly scripts?: PageScripts | undefined;
  /** The last line of the page. */
  readonly footer?: Markup;
  /** What a reader can ask the page; needs scripts. */
  readonly ask?: AskData | null;
}

export function page(
  title: string,
  content: Markup,
  { style = STYLE, colours = 'light dark', footer, scripts, ask = null }: PageOptions = {},
): string {
  const last = footer && html`<footer><p>${footer}</p>${scripts && OTHERS_WORK}</footer>`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${scripts && scriptPolicy(scripts)}${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="${colours}">
<meta name="referrer" content="no-referrer">
<title>${plain(title)}</title>
<style>${trusted(style)}${scripts !== undefined && trusted(LIVE_STYLE)}</style>
</head>
<body>
${content}
${last}
${scripts !== undefined && scriptBlocks(scripts, { charts: content.alive, ask })}
</body>
</html>
`.text;
}
