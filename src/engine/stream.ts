/**
 * Named random streams with draws reachable by number.
 *
 * A stream is a 64-bit key. A *named* stream takes its key from seedrandom's tychei generator, seeded with the
 * stream's escaped path (`seed/replicate 3/door/kitchen/beam A`). A *numbered* child takes it from the parent's key
 * and the number by the same integer mix that makes the draws, so that body 17 or visit 90,001 costs nanoseconds.
 * Draw n is a pure function of (key, n): nothing depends on how many draws came before.
 */
import seedrandom from 'seedrandom';
import { THREEFRY, threefry2x32 } from './threefry.js';

const DRAW = 0;
const CHILD = 1;
const TWO_POW_MINUS_52 = 1 / 4503599627370496;

export class Stream {
  private constructor(
    /** The two words of the key. */
    private readonly k0: number,
    private readonly k1: number,
    /** Where it hangs: its own path, or the stream it is number `n` of. */
    private readonly from: string | Stream,
    private readonly n = 0,
  ) {}

  /** The root of all streams of a run. */
  static root(seed: string): Stream {
    return Stream.named(escapeSegment(seed));
  }

  private static named(path: string): Stream {
    const source = seedrandom.tychei(path);
    return new Stream(source.int32() | 0, source.int32() | 0, path);
  }

  /** Escaped path, as `seed/replicate/#3/door/kitchen`. Put together when asked for: numbered streams are many. */
  get path(): string {
    return typeof this.from === 'string' ? this.from : `${this.from.path}/#${this.n}`;
  }

  /** A stream with a purpose of its own, by name. Segments are escaped: `a/b` and `a`, `b` never meet. */
  child(...segments: readonly string[]): Stream {
    return Stream.named([this.path, ...segments.map(escapeSegment)].join('/'));
  }

  /** Numbered child, `n` an integer from 0 to 2³²−1: bodies, visits, anything that is counted. */
  nth(n: number): Stream {
    threefry2x32(this.k0, this.k1, n | 0, CHILD);
    return new Stream(THREEFRY.x0, THREEFRY.x1, this, n);
  }

  /** Draw `n` (an integer from 0 to 2³²−1): uniform on (0, 1), 52 bits, never 0 and never 1. */
  at(n: number): number {
    threefry2x32(this.k0, this.k1, n | 0, DRAW);
    return unitInterval(THREEFRY.x0, THREEFRY.x1);
  }
}

/**
 * The upper 26 bits of two words as a number in (0, 1): the middles of 2⁵² equal cells. With one bit more the last
 * middle would round to 1, and a normal drawn from it would be infinite.
 */
export function unitInterval(x0: number, x1: number): number {
  return ((x0 >>> 6) * 67108864 + (x1 >>> 6) + 0.5) * TWO_POW_MINUS_52;
}

/** Slash, number sign and percent are the only characters with a meaning in a path. */
function escapeSegment(segment: string): string {
  return segment.replaceAll('%', '%25').replaceAll('/', '%2F').replaceAll('#', '%23');
}
