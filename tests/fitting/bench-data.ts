/**
 * Invented benches: readings made by formulas that stand here, never by the code that is fitted to them.
 *
 * A reading is silent with its share; of the others, one is a stray with its share (evenly anywhere in the range), else the truth with
 * normal noise; then it is rounded as the device would.
 */
import { normalQuantile } from '../../src/engine/distribution-functions.js';
import type { Stream } from '../../src/engine/stream.js';

export interface Truth {
  readonly distances_m: readonly number[];
  readonly rows: number;
  readonly stray_share: number;
  readonly dropout_share: number;
  readonly range_m: readonly [number, number];
  /** What would be read at a distance without noise, and its standard deviation there, in the reading's unit. */
  readonly reads: (distance_m: number) => number;
  readonly sd: (distance_m: number) => number;
  /** As the device writes it. */
  readonly write: (reading: number) => string;
}

export function benchCsv(header: string, truth: Truth, chance: Stream): string {
  const lines = [header];
  let n = 0;
  for (const d of truth.distances_m) {
    for (let i = 0; i < truth.rows; i++) {
      const [silent, stray, where, noise] = [chance.at(n++), chance.at(n++), chance.at(n++), chance.at(n++)];
      if (silent! < truth.dropout_share) lines.push(`${d},`);
      else {
        const [from, to] = truth.range_m;
        const isStray = stray! < truth.stray_share;
        const seen = isStray ? from + (to - from) * where! : d;
        const off = isStray ? 0 : truth.sd(d) * normalQuantile(noise!, 0, 1);
        lines.push(`${d},${truth.write(truth.reads(seen) + off)}`);
      }
    }
  }
  return `${lines.join('\n')}\n`;
}

/** A number between two, by draw. */
export const between = (u: number, low: number, high: number): number => low + (high - low) * u;
