/** Small helpers of the drawings: numbers short enough for markup. */
import { html, type Markup, type Piece } from '../html.js';

/** A coordinate to a tenth of a pixel. */
export const px = (x: number): string => String(Math.round(x * 10) / 10);

/** A picture with a name and a description for those who do not see it. */
export function picture(
  id: string,
  size: { readonly width: number; readonly height: number },
  title: string,
  description: string,
  content: Piece,
): Markup {
  return html`<svg class="drawing" viewBox="0 0 ${px(size.width)} ${px(size.height)}" style="max-width:${px(size.width * 1.3)}px" role="img" aria-labelledby="${id}-t ${id}-d">
<title id="${id}-t">${title}</title><desc id="${id}-d">${description}</desc>
<defs><pattern id="${id}-h" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" class="hatch"/></pattern></defs>
${content}</svg>`;
}

/** How each beam is drawn, by its place in the door's list: colour, dash and mark together. */
export const beamClass = (index: number): string => `beam beam-${index % 4}`;
