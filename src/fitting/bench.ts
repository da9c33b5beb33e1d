/** What a builder measured at a table: readings at true distances, as they stand in the CSV and as a fit wants them. */
import type { RangerSensor } from '../sensors/schema.js';

export type FitKind = RangerSensor['kind'];
export const FIT_KINDS = [
  'ultrasonic-ranger',
  'triangulation-ranger',
  'time-of-flight-ranger',
] as const satisfies readonly FitKind[];

/** Columns of true distances, and the metres of one unit. */
export const TRUE_COLUMNS = { true_m: 1, true_cm: 0.01, true_mm: 0.001 } as const;
export type TrueColumn = keyof typeof TRUE_COLUMNS;

/** Columns of readings, and the kinds of rangers that give them. */
export const READING_COLUMNS = {
  reading_m: ['ultrasonic-ranger', 'time-of-flight-ranger'],
  reading_mm: ['ultrasonic-ranger', 'time-of-flight-ranger'],
  echo_us: ['ultrasonic-ranger'],
  adc_counts: ['triangulation-ranger'],
  volts: ['triangulation-ranger'],
} as const satisfies Readonly<Record<string, readonly FitKind[]>>;
export type ReadingColumn = keyof typeof READING_COLUMNS;

export function givenBy(column: ReadingColumn, kind: FitKind): boolean {
  return (READING_COLUMNS[column] as readonly FitKind[]).includes(kind);
}

export interface BenchRow {
  readonly distance_m: number;
  /** In the unit of its column; null without echo. */
  readonly reading: number | null;
  /** Where the reading stands in the file, from 1. */
  readonly line: number;
  readonly column: number;
}

export interface Bench {
  readonly file: string;
  readonly truth: TrueColumn;
  readonly reads: ReadingColumn;
  /** Line of the header, and where the two columns begin in it. */
  readonly header: { readonly line: number; readonly truth: number; readonly reads: number };
  /** Most digits after the point that any reading is written with. */
  readonly decimals: number;
  readonly rows: readonly BenchRow[];
}

export interface BenchOptions {
  readonly kind: FitKind;
  /** Converter behind `adc_counts`. */
  readonly adc_bits: number;
  readonly adc_reference_v: number;
  /** Air at the bench, °C; undefined when nobody looked. */
  readonly temperature_c?: number | undefined;
}

/** All readings with an echo at one distance, in the unit the curve is fitted in: metres, or volts. */
export interface Group {
  readonly distance_m: number;
  readonly values: readonly number[];
  /** Rows at this distance without echo. */
  readonly silent: number;
}

/** Speed at which echo times are taken for distances before the true one is fitted, m/s. */
export const NOMINAL_SPEED_MPS = 343.2;

/** A ranger at a bench is off by no larger factor, whatever its bias and air: then its readings don't follow the distance. */
export const FAR_OFF = 1.6;

/** What one unit of a reading is in the unit of the fit, and the step from one possible reading to the next. */
export function unitOf(bench: Bench, options: BenchOptions): { readonly unit: number; readonly step: number } {
  if (bench.reads === 'adc_counts') {
    const volts = options.adc_reference_v / 2 ** options.adc_bits;
    return { unit: volts, step: volts };
  }
  const unit = { reading_m: 1, reading_mm: 0.001, volts: 1, echo_us: NOMINAL_SPEED_MPS / 2e6 }[bench.reads];
  return { unit, step: unit * 10 ** -Math.min(bench.decimals, 9) };
}

/** Rows by distance, nearest first. A count stands for the middle of its step. */
export function groupsOf(bench: Bench, options: BenchOptions): Group[] {
  const { unit } = unitOf(bench, options);
  const middle = bench.reads === 'adc_counts' ? 0.5 : 0;
  const groups = new Map<number, { values: number[]; silent: number }>();
  for (const { distance_m, reading } of bench.rows) {
    const group = groups.get(distance_m) ?? { values: [], silent: 0 };
    groups.set(distance_m, group);
    if (reading === null) group.silent += 1;
    else group.values.push((reading + middle) * unit);
  }
  return [...groups.entries()]
    .map(([distance_m, group]) => ({ distance_m, ...group }))
    .sort((a, b) => a.distance_m - b.distance_m);
}
