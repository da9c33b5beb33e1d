/** The page's style for drawings that are files of their own: its colours in light and dark, and the rules they use. */
import { STYLE } from '../style.js';

/** @param rules which lines of the page's style are wanted */
export function fileStyle(rules: RegExp): string {
  const wanted = STYLE.split('\n').filter((line) => rules.test(line));
  const colours =
    /:root\{color-scheme[\s\S]*?--mono:[^}]*\}\n@media \(prefers-color-scheme:dark\)\{:root\{[^}]*\}\}/.exec(STYLE);
  return `${colours?.[0] ?? ''}\nsvg{font-family:var(--sans)}.sheet{fill:var(--paper)}\n${wanted.join('\n')}`;
}
