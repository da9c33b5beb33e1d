/** Stretches of time one after another, as breaks of a beam are: [start, end, start, end, …]. */

/** Length of the stretch that begins at index `i`. */
export function lengthAt(stretches: readonly number[], i: number): number {
  return (stretches[i + 1] as number) - (stretches[i] as number);
}

/** Lengths of the stretches, or of the gaps between them. */
export function lengthsOf(stretches: readonly number[], what: 'stretches' | 'gaps'): number[] {
  const lengths: number[] = [];
  for (let i = what === 'stretches' ? 0 : 1; i + 1 < stretches.length; i += 2) lengths.push(lengthAt(stretches, i));
  return lengths;
}

/** How long all of them are together. */
export function totalLength(stretches: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < stretches.length; i += 2) sum += lengthAt(stretches, i);
  return sum;
}

/** Whether two lists of stretches share any time. */
export function together(a: readonly number[], b: readonly number[]): boolean {
  for (let i = 0; i < a.length; i += 2)
    for (let j = 0; j < b.length; j += 2)
      if ((a[i] as number) < (b[j + 1] as number) && (b[j] as number) < (a[i + 1] as number)) return true;
  return false;
}
