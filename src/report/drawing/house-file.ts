/** The plan of a house as a file of its own: all storeys side by side, with the page's colours in light and dark. */
import { html, trusted } from '../html.js';
import { fileStyle } from './file-style.js';
import type { StoreyDrawing } from './house-plan.js';
import { px } from './svg.js';

const GAP = 24;
const HEAD = 26;

export function houseFile(name: string, drawings: readonly StoreyDrawing[]): string {
  const lefts = drawings.map((_, i) => drawings.slice(0, i).reduce((sum, { size }) => sum + size.width + GAP, 0));
  const width = (lefts.at(-1) ?? 0) + (drawings.at(-1)?.size.width ?? 0);
  const height = HEAD + Math.max(...drawings.map(({ size }) => size.height));
  return `${
    html`<svg xmlns="http://www.w3.org/2000/svg" class="drawing" viewBox="0 0 ${px(width)} ${px(height)}" width="${px(width)}" height="${px(height)}" role="img" aria-labelledby="t d">
<title id="t">${name}</title><desc id="d">${drawings.map(({ title, description }) => `${title}: ${description}`).join(' ')}</desc>
<style>${trusted(fileStyle(/^\.(?:drawing|beam|house)\b|^\.beam-|^\.drawing /))}</style><rect class="sheet" width="100%" height="100%"/>
${drawings.map((d, i) => html`<g transform="translate(${px(lefts[i] ?? 0)} 0)"><text x="8" y="18">${d.title}</text><g transform="translate(0 ${HEAD})">${d.content}</g></g>`)}
</svg>`.text
  }\n`;
}
