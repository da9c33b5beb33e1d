/** From volts to converter counts, and from those back to distance as a controller does it, in whole micrometres. */
import { NO_ECHO, micrometres } from '../ranger.js';
import { type Curve, distanceAt } from './curve.js';
import type { TriangulationRanger } from './schema.js';

type Rows = NonNullable<TriangulationRanger['table']>;

/** The converter: floor(volts · 2^bits / reference), held to what it can show. */
export function countOf({ adc_bits, adc_reference_v }: TriangulationRanger, volts: number): number {
  const full = fullScale(adc_bits);
  return Math.min(full - 1, Math.max(0, Math.floor((volts * full) / adc_reference_v)));
}

/**
 * How a controller makes distance of counts: that of the volts in the middle of the count. Never less for fewer counts,
 * if more volts in its table stand for less distance.
 *
 * @returns whole micrometres, at least 0; NO_ECHO beyond the range, or beyond the last row of a table
 */
export function lineariserOf(sensor: TriangulationRanger): (count: number) => number {
  const { linearised_by, table, fitted, range_m, adc_reference_v } = sensor;
  const step_v = adc_reference_v / fullScale(sensor.adc_bits);
  const metresOf =
    linearised_by === 'table' && table ? byTable(table) : byCurve((linearised_by === 'fitted' && fitted) || sensor);
  return (count) => {
    const metres = metresOf((count + 0.5) * step_v);
    return metres > range_m ? NO_ECHO : Math.max(0, micrometres(metres));
  };
}

function byCurve(curve: Curve): (volts: number) => number {
  const { base_v, gain_v_m } = curve;
  return (volts) => distanceAt(curve, (volts - base_v) / gain_v_m);
}

/** Straight lines between rows; more volts than any row read as the nearest row, fewer as nothing. */
function byTable(rows: Rows): (volts: number) => number {
  const falling = rows.toSorted((a, b) => b.volts - a.volts);
  return (volts) => {
    let before = falling[0]!;
    if (volts >= before.volts) return before.distance_m;
    for (const row of falling) {
      if (volts >= row.volts) {
        const share = (before.volts - volts) / (before.volts - row.volts);
        return before.distance_m + share * (row.distance_m - before.distance_m);
      }
      before = row;
    }
    return Infinity;
  };
}

function fullScale(bits: number): number {
  let full = 1;
  for (let i = 0; i < bits; i++) full *= 2;
  return full;
}
