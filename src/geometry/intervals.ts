/** Sets of disjoint intervals on a line, as flat sorted lists: [start0, end0, start1, end1, …]. */

/** Adds [start, end] to a sorted disjoint list in place, joining what touches. */
export function addInterval(list: number[], start: number, end: number): void {
  const n = list.length;
  if (n === 0 || start > list[n - 1]!) {
    list.push(start, end);
    return;
  }
  let i = 0;
  while (i < n && list[i + 1]! < start) i += 2;
  let j = i;
  let s = start;
  let e = end;
  while (j < n && list[j]! <= e) {
    if (list[j]! < s) s = list[j]!;
    if (list[j + 1]! > e) e = list[j + 1]!;
    j += 2;
  }
  if (j === i + 2) {
    list[i] = s;
    list[i + 1] = e;
  } else list.splice(i, j - i, s, e);
}

/** Where both lists hold. */
export function intersect(a: readonly number[], b: readonly number[]): number[] {
  const out: number[] = [];
  let i = 0;
  let j = 0;
  while (i < a.length && j < b.length) {
    const start = Math.max(a[i]!, b[j]!);
    const end = Math.min(a[i + 1]!, b[j + 1]!);
    if (start < end) out.push(start, end);
    if (a[i + 1]! < b[j + 1]!) i += 2;
    else j += 2;
  }
  return out;
}
