/** The frame of the page: a policy that lets nothing in, the style, the content. */
import { html, trusted, type Markup } from './html.js';
import { STYLE } from './style.js';
import { plain } from './words.js';

const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** @param style and colours of a page that is not the report's: one to print */
export function page(
  title: string,
  content: Markup,
  style = STYLE,
  colours: 'light dark' | 'only light' = 'light dark',
): string {
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="${colours}">
<meta name="referrer" content="no-referrer">
<title>${plain(title)}</title>
<style>${trusted(style)}</style>
</head>
<body>
${content}
</body>
</html>
`.text;
}
