/** The list of sections with links, made from the sections' own headings. */
import { html, trusted, type Markup } from './html.js';

const HEADING = /^<section([^>]*)><h2 id="([a-z]+)">([^<]*)<\/h2>/;

/** Sections without a heading of this form are not listed. */
export function contents(sections: readonly Markup[]): Markup {
  const headings = sections.flatMap(({ text }) => {
    const [, attributes, id, words] = HEADING.exec(text) ?? [];
    // The words are a heading of ours that was escaped when it was made.
    return id === undefined
      ? []
      : [html`<li${attributes?.endsWith(' hidden') && ' hidden'}><a href="#${id}">${trusted(words ?? '')}</a></li>`];
  });
  return html`<nav aria-label="Contents"><ol>${headings}</ol></nav>`;
}
