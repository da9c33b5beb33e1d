/** The most telling visits that went wrong, each as a space–time picture. */
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { Picture } from '../../score/pictures.js';
import { html, type Markup } from '../html.js';
import { bodyWords, captionOf } from '../picture/caption.js';
import { drawPicture, pictureTitle } from '../picture/draw.js';
import { oneIn, type WhoWords } from '../who-words.js';
import { capital } from '../words.js';

/** Outer width, pixels: a third of a desktop page, and a phone's. */
const WIDTH = 350;

export function picturesSection(design: Design, figures: Figures): Markup | null {
  const { pictures = [] } = figures;
  if (pictures.length === 0) return null;
  const say = oneIn(design);
  return html`<section aria-labelledby="pictures"><h2 id="pictures">What it looks like when it goes wrong</h2>
<p>Typical cases, the most frequent first. Each band is one part of a body at the height of the beams, on its way along the walk as time goes by. Where a band crosses a beam’s line, it breaks the beam. Beneath: what the controller saw of each beam, what state the logic was in, and when it counted. <span class="swatch trunk">trunk, head</span> <span class="swatch arm">arms</span> <span class="swatch leg">legs</span> <span class="swatch load">loads, tails</span>; somebody else is pale. Dots are readings of a ranger, filled where they are near enough to count.</p>
<div class="pictures">${pictures.map((picture, i) => figureOf(picture, i, say))}</div></section>`;
}

function figureOf(picture: Picture, i: number, say: WhoWords): Markup {
  const [subject] = picture.bodies;
  return html`<figure class="chart" id="picture-${i + 1}" data-door="${picture.door}"><figcaption><h3>${i + 1}. ${subject ? capital(bodyWords(subject, say)) : 'Nobody'}</h3></figcaption>
${drawPicture(picture, `told-${i + 1} case-${i + 1}`, WIDTH)}
<p id="told-${i + 1}">${captionOf(picture, say)}</p><p class="key" id="case-${i + 1}">${pictureTitle(picture)}.</p></figure>`;
}
