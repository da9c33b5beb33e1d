/** From converter counts back to distance, as a controller does it: by a curve or a table, in whole micrometres. */
import { NO_ECHO } from '../ranger.js';
import { type Curve, distanceAt } from './curve.js';
import type { TriangulationRanger } from './schema.js';

/** Volts in the middle of a count. */
export function voltsOf({ adc_bits, adc_reference_v }: TriangulationRanger, count: number): number {
  return ((count + 0.5) * adc_reference_v) / fullScale(adc_bits);
}

/** The converter: floor(volts · 2^bits / reference), held to what it can show. */
export function countOf({ adc_bits, adc_reference_v }: TriangulationRanger, volts: number): number {
  const full = fullScale(adc_bits);
  return Math.min(full - 1, Math.max(0, Math.floor((volts * full) / adc_reference_v)));
}

/** Distance a count stands for: whole micrometres; NO_ECHO beyond the range. */
export function distanceOf(sensor: TriangulationRanger, count: number): number {
  const volts = voltsOf(sensor, count);
  const metres =
    sensor.linearised_by === 'table' && sensor.table ? byTable(sensor.table, volts) : byCurve(curveOf(sensor), volts);
  return metres > sensor.range_m ? NO_ECHO : Math.max(0, Math.round(metres * 1e6));
}

function curveOf(sensor: TriangulationRanger): Curve {
  return sensor.linearised_by === 'fitted' && sensor.fitted ? sensor.fitted : sensor;
}

function byCurve(curve: Curve, volts: number): number {
  return distanceAt(curve, (volts - curve.base_v) / curve.gain_v_m);
}

/** Straight lines between rows; more volts than any row read as the nearest row, fewer as nothing. */
function byTable(rows: NonNullable<TriangulationRanger['table']>, volts: number): number {
  const falling = rows.toSorted((a, b) => b.volts - a.volts);
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
}

function fullScale(bits: number): number {
  let full = 1;
  for (let i = 0; i < bits; i++) full *= 2;
  return full;
}
