/** A space–time picture as a file of its own, its caption beneath. */
import type { Design } from '../../scenario/schema.js';
import type { Picture } from '../../score/pictures.js';
import { fileStyle } from '../drawing/file-style.js';
import { px } from '../drawing/svg.js';
import { html, trusted } from '../html.js';
import { foldedLines } from '../plain-text.js';
import { oneIn } from '../who-words.js';
import { captionOf } from './caption.js';
import { pictureContent, pictureTitle } from './draw.js';

const WIDTH = 760;
/** Letters a line of the caption. */
const LINE = 104;
const HEAD = 30;
const EDGE = 12;

export function pictureFile(design: Pick<Design, 'household'>, picture: Picture): string {
  const { content, height } = pictureContent(picture, WIDTH);
  const title = pictureTitle(picture);
  const caption = captionOf(picture, oneIn(design));
  const lines = foldedLines(caption, LINE);
  const total = HEAD + height + 20 * lines.length + EDGE;
  return `${
    html`<svg xmlns="http://www.w3.org/2000/svg" class="drawing picture" viewBox="0 0 ${px(WIDTH + EDGE)} ${px(total)}" width="${px(WIDTH + EDGE)}" height="${px(total)}" role="img" aria-labelledby="t d">
<title id="t">${title}</title><desc id="d">${caption}</desc>
<style>${trusted(fileStyle(/^\.(?:drawing|beam|picture|read)\b|^\.beam-|^\.read-/))}</style><rect class="sheet" width="100%" height="100%"/>
<text x="${EDGE}" y="20" font-weight="600">${title}</text><g transform="translate(0 ${HEAD})">${content}</g>
${lines.map((line, i) => html`<text x="${EDGE}" y="${px(HEAD + height + 12 + 20 * i)}">${line}</text>`)}
</svg>`.text
  }\n`;
}
