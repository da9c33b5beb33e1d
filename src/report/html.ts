/**
 * Text into markup, safely: the `html` template escapes whatever is put into it unless it is markup already.
 * Everything a user can name passes through here on its way to the page.
 */
import { CONTROLS, TURNING } from '../engine/printable.js';
import type { LiveChart } from './charts/live.js';

/** Markup that is safe to print as it stands. Only this file and drawings of ours make it. */
export class Markup {
  /** @param alive what of it a script can bring to life; it goes with the markup to the page */
  constructor(
    readonly text: string,
    readonly alive: readonly LiveChart[] = [],
  ) {}
}

/** What may stand in a template: lists are joined, nothing prints nothing. */
export type Piece = string | number | Markup | null | undefined | false | readonly Piece[];

/** The isolates are ours (see `named` in words.ts) and stay. */
const UNPRINTABLE = new RegExp(String.raw`[${CONTROLS}${TURNING}\ufffe\uffff]`, 'g');
const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text for element content or a quoted attribute; characters that cannot be shown become U+FFFD. */
function escapeText(text: string): string {
  return text.replace(UNPRINTABLE, '\ufffd').replace(/[&<>"']/g, (c) => ENTITIES[c] ?? c);
}

function print(piece: Piece): string {
  if (piece === null || piece === undefined || piece === false) return '';
  if (piece instanceof Markup) return piece.text;
  if (typeof piece === 'string') return escapeText(piece);
  if (typeof piece === 'number') return String(piece);
  return piece.map(print).join('');
}

/** What a piece brings along to come alive. */
function aliveIn(piece: Piece): readonly LiveChart[] {
  if (piece instanceof Markup) return piece.alive;
  return typeof piece === 'object' && piece !== null ? piece.flatMap(aliveIn) : [];
}

/** @example html`<p>${'1 < 2'}</p>`.text // => '<p>1 &lt; 2</p>' */
export function html(strings: TemplateStringsArray, ...values: readonly Piece[]): Markup {
  return new Markup(
    strings.map((s, i) => s + (i < values.length ? print(values[i]) : '')).join(''),
    values.flatMap(aliveIn),
  );
}

/** Markup we made ourselves, taken as it is. Never for anything a user wrote. */
export function trusted(text: string): Markup {
  return new Markup(text);
}

/** A region that scrolls sideways by itself on a narrow screen, reachable by keyboard and named for screen readers. */
export function scrollable(label: string, content: Markup): Markup {
  return html`<div class="scroll" role="region" tabindex="0" aria-label="${label}">${content}</div>`;
}
