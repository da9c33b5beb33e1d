/** Sensors, each by itself: numbers that contradict each other. */
import type { Finding, KeyPath, Problem } from '../issue.js';
import { type Outline, finding } from './outline.js';

type OutlineSensor = NonNullable<NonNullable<Outline['sensors']>[string]>;
type Of<K extends OutlineSensor['kind']> = Extract<OutlineSensor, { kind?: K | undefined }>;
type Ranger = Of<'ultrasonic-ranger' | 'triangulation-ranger' | 'time-of-flight-ranger'>;
type Complain = (problem: Problem, ...keys: KeyPath) => void;

/** Slowest sound that is reckoned with: dry air at 0 °C, 331 m/s; from memory. */
const SOUND_MPS = 331;

export function checkSensors(outline: Outline): Finding[] {
  return eachSensor(outline, (sensor, complain) => {
    switch (sensor.kind) {
      case 'light-barrier':
        return checkBarrier(sensor, complain);
      case 'ultrasonic-ranger':
        checkRanger(sensor, complain);
        return checkUltrasonic(sensor, complain);
      case 'triangulation-ranger':
        checkRanger(sensor, complain);
        return checkTriangulation(sensor, complain);
      case 'time-of-flight-ranger':
        checkRanger(sensor, complain);
        ordered(sensor, 'reflectance_least', 'reflectance_most', complain);
        return below(sensor, 'blind_m', 'range_m', complain);
      default:
    }
  });
}

export function cautionSensors(outline: Outline): Finding[] {
  return eachSensor(outline, (sensor, complain) => {
    if (sensor.kind === 'light-barrier') cautionBarrier(sensor, complain);
    if (sensor.kind === 'triangulation-ranger') {
      const { linearised_by } = sensor;
      const unused = (key: 'table' | 'fitted') => {
        if (linearised_by !== undefined && linearised_by !== key && key in sensor)
          complain({ code: 'no_effect', key, because_key: 'linearised_by', because: linearised_by }, key);
      };
      unused('table');
      unused('fitted');
    }
  });
}

function eachSensor(outline: Outline, check: (sensor: OutlineSensor, complain: Complain) => void): Finding[] {
  const findings: Finding[] = [];
  for (const [name, sensor] of Object.entries(outline.sensors ?? {}))
    if (sensor) check(sensor, (problem, ...keys) => findings.push(finding(['sensors', name, ...keys], problem)));
  return findings;
}

function checkBarrier(
  { spurious_per_hour: per_hour, spurious_ms: length_ms }: Of<'light-barrier'>,
  complain: Complain,
) {
  if (per_hour === undefined || length_ms === undefined || per_hour * length_ms < 3_600_000) return;
  complain({ code: 'always_broken', per_hour, length_ms }, 'spurious_per_hour');
}

function cautionBarrier(sensor: Of<'light-barrier'>, complain: Complain) {
  const { spurious_per_hour = 0, spurious_ms, response_ms, shiny_share = 0, layout } = sensor;
  if (shiny_share > 0 && layout === 'through-beam')
    complain({ code: 'no_effect', key: 'shiny_share', because_key: 'layout', because: layout }, 'shiny_share');
  if (spurious_per_hour > 0 && spurious_ms !== undefined && response_ms !== undefined && spurious_ms <= response_ms) {
    const because = String(response_ms);
    complain({ code: 'no_effect', key: 'spurious_ms', because_key: 'response_ms', because }, 'spurious_ms');
  }
}

function checkRanger({ switching }: Ranger, complain: Complain) {
  const median = switching?.median_of;
  if (median !== undefined && median % 2 === 0)
    complain({ code: 'even_median', found: median }, 'switching', 'median_of');
}

function checkUltrasonic(sensor: Of<'ultrasonic-ranger'>, complain: Complain) {
  below(sensor, 'blind_m', 'range_m', complain);
  ordered(sensor, 'clothing_least_db', 'clothing_most_db', complain);
  const { time_out_ms, range_m } = sensor;
  if (time_out_ms === undefined || range_m === undefined) return;
  const least_ms = (2 * range_m * 1000) / SOUND_MPS;
  if (time_out_ms < least_ms) complain({ code: 'time_out_short', time_out_ms, range_m, least_ms }, 'time_out_ms');
}

function checkTriangulation(sensor: Of<'triangulation-ranger'>, complain: Complain) {
  below(sensor, 'fold_m', 'range_m', complain);
  const { linearised_by, table } = sensor;
  if ((linearised_by === 'table' || linearised_by === 'fitted') && !(linearised_by in sensor))
    complain({ code: 'needs_key', what: `linearised_by: ${linearised_by}`, key: linearised_by }, 'linearised_by');
  if (table === undefined) return;
  const rows = table.flatMap((row, i) =>
    row?.volts === undefined || row.distance_m === undefined ? [] : [{ i, volts: row.volts, metres: row.distance_m }],
  );
  // Whatever the order they are written in: a voltage stands for one distance, and more of it for something nearer.
  const falling = rows.toSorted((a, b) => b.volts - a.volts || a.i - b.i);
  const wrong = falling.find((row, k) => {
    const before = falling[k - 1];
    return before !== undefined && (row.volts === before.volts || row.metres <= before.metres);
  });
  if (wrong) complain({ code: 'table_order' }, 'table', wrong.i);
}

/** A key that must be less than another. */
function below<K extends string>(
  sensor: { readonly [key in K]?: number | undefined },
  low_key: K,
  high_key: K,
  complain: Complain,
) {
  const [low, high] = [sensor[low_key], sensor[high_key]];
  if (low !== undefined && high !== undefined && low >= high)
    complain({ code: 'not_below', low_key, low, high_key, high }, low_key);
}

/** A key that must be no more than another. */
function ordered<K extends string>(
  sensor: { readonly [key in K]?: number | undefined },
  low_key: K,
  high_key: K,
  complain: Complain,
) {
  const [low, high] = [sensor[low_key], sensor[high_key]];
  if (low !== undefined && high !== undefined && low > high)
    complain({ code: 'not_ordered', low_key, low, high_key, high }, low_key);
}
