/** User text made fit to print: no control character, no terminal escape, no hidden direction mark gets through. */

const LONGEST = 60;

// What doesn't print, as parts of a regular expression's class.

/** C0, DEL and C1 controls but tabulator and line feed. */
export const CONTROLS = String.raw`\u0000-\u0008\u000b-\u001f\u007f-\u009f`;
export const TAB_AND_LINE_FEED = String.raw`\t\n`;
/** Marks that turn the direction of what follows, line separators, BOM. */
export const TURNING = String.raw`\u061c\u200e\u200f\u2028-\u202e\u2066\u2067\ufeff`;
/** Begin and end of a piece whose direction concerns nothing around it. */
export const ISOLATES = String.raw`\u2068\u2069`;

/** All of these. */
export const HIDING = `${CONTROLS}${TAB_AND_LINE_FEED}${TURNING}${ISOLATES}`;

/** Besides: soft hyphen, what has no width, what is no character, lone surrogates. */
const UNSAFE = new RegExp(String.raw`[${HIDING}\u00ad\u200b-\u200d\u2060-\u206f\ufff0-\uffff]|\p{Cs}`, 'gu');

/** The text with every unsafe character as `\u{…}`; longer than `longest` characters it ends in `…`. */
export function printable(text: string, longest = LONGEST): string {
  const characters = Array.from(text.slice(0, 2 * longest + 2));
  const cut = characters.length > longest ? `${characters.slice(0, longest).join('')}…` : characters.join('');
  return cut.replace(UNSAFE, (c) => `\\u{${(c.codePointAt(0) ?? 0).toString(16)}}`);
}

/** As {@link printable}, in double quotes. */
export function quote(text: string): string {
  return `"${printable(text)}"`;
}

/** A value as a short literal: `"text"`, `1.5`, `true`, `null`, `list`, `map`. */
export function literal(value: unknown): string {
  if (typeof value === 'string') return quote(value);
  if (Array.isArray(value)) return 'list';
  if (typeof value === 'object' && value !== null) return 'map';
  return String(value);
}

/** A number as a person writes it: at most `digits` significant digits, no trailing zeros. */
export function short(value: number, digits = 6): string {
  // Rounded, neighbours of the largest whole number would read as the same.
  if (Math.abs(value) >= Number.MAX_SAFE_INTEGER && Math.abs(value) < 1e17) return String(value);
  return String(Number(value.toPrecision(digits)));
}
