/** Columns whose name says one unit and whose numbers say another, by a factor that shows. */
import type { Issue } from '../scenario/issue.js';
import { type Bench, type BenchOptions, FAR_OFF, NOMINAL_SPEED_MPS, TRUE_COLUMNS, groupsOf, unitOf } from './bench.js';
import { median } from './strays.js';
import { told } from './told.js';

/** No ranger of these kinds reaches further. */
const FURTHEST_M = 20;
/** Nobody measures a whole bench nearer than this. */
const NEAREST_M = 0.03;

/** A reading's unit is judged by the true distance, so that one has to be right first. */
export function unitIssues(bench: Bench, options: BenchOptions): Issue[] {
  const truth = truthIssues(bench, options);
  if (bench.reads === 'adc_counts' || bench.reads === 'volts') return [...truth, ...voltIssues(bench, options)];
  return truth.length > 0 ? truth : ratioIssues(bench, options);
}

function truthIssues(bench: Bench, options: BenchOptions): Issue[] {
  const { file, header, truth, rows } = bench;
  const most = rows.reduce((m, row) => Math.max(m, row.distance_m), 0);
  if (most <= FURTHEST_M && most >= NEAREST_M) return [];
  const written = Number((most / TRUE_COLUMNS[truth]).toPrecision(6));
  // The unit in which a bench of a metre or two comes out, or one that agrees with what was read.
  const far = groupsOf(bench, options).at(-1)!;
  const read = options.kind === 'triangulation-ranger' || far.values.length === 0 ? 1 : median(far.values);
  const off = (metres: number): number => Math.abs(Math.log((written * metres) / read));
  const [likely, metres] = Object.entries(TRUE_COLUMNS).sort(([, a], [, b]) => off(a) - off(b))[0]!;
  const fits = written * metres >= NEAREST_M && written * metres <= FURTHEST_M;
  const hint = fits ? `these look like ${UNITS[likely]}: is the column ${likely}?` : undefined;
  return [
    told(file)(
      header.line,
      header.truth,
      `${truth}: distances up to ${written} ${UNITS[truth]}, expected ${NEAREST_M} to ${FURTHEST_M} m`,
      hint,
    ),
  ];
}

const UNITS: Readonly<Record<string, string>> = { true_m: 'metres', true_cm: 'centimetres', true_mm: 'millimetres' };

function voltIssues({ file, header, reads, rows }: Bench, { adc_bits, adc_reference_v }: BenchOptions): Issue[] {
  const tell = told(file);
  const high = rows.reduce(
    (best, row) => ((row.reading ?? -Infinity) > (best.reading ?? -Infinity) ? row : best),
    rows[0]!,
  );
  const most = high.reading ?? 0;
  if (reads === 'volts') {
    if (most <= 12) return [];
    const whole = rows.every(({ reading }) => reading === null || Number.isInteger(reading));
    const looks =
      whole && most < 4096
        ? 'counts of a converter: is the column adc_counts? Or millivolts: divide by 1000'
        : 'millivolts: divide by 1000';
    return [tell(header.line, header.reads, `volts: expected at most 12 V, found ${most}`, `these look like ${looks}`)];
  }
  const broken = rows.find(({ reading }) => reading !== null && !Number.isInteger(reading));
  if (broken)
    return [
      tell(
        broken.line,
        broken.column,
        `adc_counts: expected whole numbers, found ${broken.reading}`,
        'volts have a column of their own: volts',
      ),
    ];
  const full = 2 ** adc_bits - 1;
  if (most <= full) return [];
  let bits = adc_bits;
  while (bits < 24 && 2 ** bits - 1 < most) bits++;
  const hint =
    most < 2 ** 24
      ? `these look like counts of ${bits} bits or more, or millivolts: say --adc-bits ${bits}, with --adc-reference-v ${adc_reference_v} if that is the reference`
      : undefined;
  return [tell(high.line, high.column, `adc_counts: ${adc_bits} bits count to ${full}, found ${most}`, hint)];
}

/** What a reading is, times the true distance, when it is in another unit than its column says. */
const WRONG: Readonly<Record<string, readonly (readonly [number, string])[]>> = {
  reading_m: [
    [1000, 'millimetres: is the column reading_mm?'],
    [100, 'centimetres: divide by 100, or multiply by 10 for reading_mm'],
    [10, 'decimetres: divide by 10'],
    [0.001, 'kilometres, or true distances in another unit than their column says'],
    [0.01, 'true distances written in centimetres: is the column true_cm?'],
    [0.1, 'true distances written in another unit, by a factor of 10'],
    [1e6 / (NOMINAL_SPEED_MPS / 2), 'echo times: is the column echo_us?'],
  ],
  reading_mm: [
    [0.001, 'metres: is the column reading_m?'],
    [0.1, 'centimetres: multiply by 10'],
    [0.01, 'decimetres, or true distances in another unit than their column says'],
    [10, 'tenths of millimetres, or true distances in another unit: is that column true_cm or true_mm?'],
    [100, 'hundredths of millimetres, or true distances in another unit than their column says'],
    [1000, 'micrometres: divide by 1000'],
    [1e3 / (NOMINAL_SPEED_MPS / 2), 'echo times: is the column echo_us?'],
  ],
  echo_us: [
    [1000, 'nanoseconds: divide by 1000'],
    [10, 'true distances in another unit, by a factor of 10'],
    [100, 'true distances in another unit, by a factor of 100'],
    [0.001, 'milliseconds: multiply by 1000'],
    [1e-6, 'seconds: multiply by 1000000'],
    [0.5, 'the time one way: it is wanted there and back, so double it'],
    [2, 'twice the time there and back: halve it'],
    [(NOMINAL_SPEED_MPS / 2) * 1e-3, 'millimetres: is the column reading_mm?'],
    [(NOMINAL_SPEED_MPS / 2) * 1e-4, 'centimetres: multiply by 10 for reading_mm'],
    [(NOMINAL_SPEED_MPS / 2) * 1e-6, 'metres: is the column reading_m?'],
  ],
};

function ratioIssues(bench: Bench, options: BenchOptions): Issue[] {
  const { file, header, reads } = bench;
  // The further half: a bias of centimetres weighs less there.
  const heard = groupsOf(bench, options).filter((group) => group.values.length > 0);
  const far = heard.slice(heard.length >> 1);
  const ratio = median(far.map((group) => median(group.values) / group.distance_m));
  if (far.length === 0 || (ratio > 1 / FAR_OFF && ratio < FAR_OFF)) return [];
  const off = (factor: number): number => Math.abs(Math.log(ratio / factor));
  const closest = [...WRONG[reads]!].sort(([a], [b]) => off(a) - off(b))[0]!;
  const hint =
    off(closest[0]) < Math.log(1.25)
      ? `these look like ${closest[1]}`
      : 'is the distance measured from the front of the ranger, and is --kind right?';
  const { unit } = unitOf(bench, options);
  const row = bench.rows.find((one) => one.distance_m === far.at(-1)!.distance_m)!;
  const typical = Number((median(far.at(-1)!.values) / unit).toPrecision(4));
  const times = Number(ratio.toPrecision(3));
  return [
    told(file)(
      header.line,
      header.reads,
      `${reads}: at ${row.distance_m} m the median reading is ${typical}, about ${times} times the true distance`,
      hint,
    ),
  ];
}
