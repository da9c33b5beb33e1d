/** Where labels go: beside what they name, moved apart where they would touch. */

/** Letters of a name that are drawn; the table beside the drawing has the whole of it. */
const LONGEST = 16;
/** Widths of a letter of labels (13 px) and of notes (12 px), generous means. */
const LETTER = 7.4;
const NOTE_LETTER = 6.6;

/**
 * Places near the wanted ones, in the same order, at least `gap` apart; none beyond `high`, unless so many follow the
 * first that they need it.
 *
 * @param wanted ascending
 */
export function spread(wanted: readonly number[], gap: number, high: number): number[] {
  const places: number[] = [];
  for (const want of wanted) places.push(Math.max(want, (places.at(-1) ?? Number.NEGATIVE_INFINITY) + gap));
  let limit = Math.max(high, (wanted[0] ?? 0) + (wanted.length - 1) * gap);
  for (let i = places.length - 1; i >= 0 && (places[i] ?? 0) > limit; i--) {
    places[i] = limit;
    limit -= gap;
  }
  return places;
}

/** A name cut to what a drawing has room for. */
export function short(text: string): string {
  const letters = Array.from(text);
  return letters.length > LONGEST ? `${letters.slice(0, LONGEST - 1).join('')}…` : text;
}

/** Pixels a label and the note beneath it take. */
export const labelWidth = (name: string, note = ''): number =>
  Math.max(Array.from(name).length * LETTER, Array.from(note).length * NOTE_LETTER);
