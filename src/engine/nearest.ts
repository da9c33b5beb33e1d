/** "Did you mean": the known word that is close enough to what was written. */
import { distance } from 'fastest-levenshtein';

/** Ending of a key that is a unit: `_m`, `_ms`, `_per_hour`. */
const UNIT = /_(?:m|cm|mm|in|ft|s|ms|us|min|h|y|deg|mps|kmh|share|percent|per_hour)$/;

/** The closest of `known`, or undefined when none is close. A word without its unit, or with another, counts as close. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  const plain = simplify(word);
  const stem = plain.replace(UNIT, '');
  let best: string | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const other = simplify(candidate);
    const sameStem = other.replace(UNIT, '') === stem;
    const d = sameStem ? 0 : sortedLetters(plain) === sortedLetters(other) ? 1 : distance(plain, other);
    const allowed = Math.max(1, Math.floor(Math.min(plain.length, other.length) * 0.4));
    if (d <= allowed && d < least) {
      best = candidate;
      least = d;
    }
  }
  return best;
}

/** Case, spaces and dashes are what people mix up first. Only the first 60 characters count, to keep hostile input cheap. */
function simplify(word: string): string {
  return word.slice(0, 60).toLowerCase().replaceAll(/[\s-]/g, '_');
}

/** Swapped letters are one slip, though they are two edits. */
function sortedLetters(word: string): string {
  return Array.from(word).sort().join('');
}
