/** The shortest way through a small network (Dijkstra, Numer. Math. 1:269–271, 1959). */

/** A way between two places, both ways the same. */
export interface Link {
  readonly a: number;
  readonly b: number;
  /** At least 0. */
  readonly length_m: number;
}

export interface Ways {
  /** From the start to each place; Infinity where there is no way. */
  readonly length_m: readonly number[];
  /** The link over which each place is reached; undefined at the start and where there is no way. */
  readonly last: readonly (number | undefined)[];
}

/**
 * From one place to all others. Of ways of one length the one found first is kept, so that the same network always gives
 * the same ways. Takes time as the square of the places: meant for some hundreds.
 *
 * @param places how many there are, numbered from 0
 */
export function shortestWays(places: number, links: readonly Link[], start: number): Ways {
  const length_m = Array.from({ length: places }, () => Infinity);
  const last: (number | undefined)[] = Array.from({ length: places });
  const done = Array.from({ length: places }, () => false);
  const at: number[][] = Array.from({ length: places }, () => []);
  for (const [i, { a, b }] of links.entries()) {
    at[a]?.push(i);
    at[b]?.push(i);
  }
  length_m[start] = 0;
  for (;;) {
    let here = -1;
    for (let i = 0; i < places; i++)
      if (!done[i] && length_m[i]! < Infinity && (here < 0 || length_m[i]! < length_m[here]!)) here = i;
    if (here < 0) return { length_m, last };
    done[here] = true;
    for (const i of at[here]!) {
      const link = links[i] as Link;
      const there = link.a === here ? link.b : link.a;
      const whole_m = length_m[here]! + link.length_m;
      if (whole_m < length_m[there]!) {
        length_m[there] = whole_m;
        last[there] = i;
      }
    }
  }
}

/** The links from the start to a place, in order; null where there is no way. */
export function wayTo(ways: Ways, links: readonly Link[], place: number): number[] | null {
  if (ways.length_m[place] === Infinity) return null;
  const way: number[] = [];
  for (let here = place; ways.last[here] !== undefined; ) {
    const i = ways.last[here] as number;
    const { a, b } = links[i] as Link;
    way.push(i);
    here = a === here ? b : a;
  }
  return way.reverse();
}
