/** Which of the things that can be taken away is the cause: one, either of several, or a pair. */
import type { Removal, Why } from '../../score/why-classes.js';

/**
 * @param removals what there is to take away, in the order of the list
 * @param helps whether all comes right without these
 * @returns null where neither one thing nor two help
 */
export function causeOf(removals: readonly Removal[], helps: (gone: ReadonlySet<Removal>) => boolean): Why | null {
  const only = removals.filter((removal) => helps(new Set([removal])));
  if (only.length > 0) return { how: only.length === 1 ? 'only' : 'either', things: only };
  for (const [i, one] of removals.entries())
    for (const other of removals.slice(i + 1))
      if (helps(new Set([one, other]))) return { how: 'pair', things: [one, other] };
  return null;
}
