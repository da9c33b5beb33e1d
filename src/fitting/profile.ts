/**
 * A profile: the keys of a ranger that were fitted, as YAML with their standard errors. It says nothing of when or where.
 *
 * Parameters of the voltage curve stand for one another: each is rounded to what the others held still would support,
 * or rounding would move the curve by more than its own error.
 */
import { type SensorIssue, scaleIssues, sensorIssues } from './profile-check.js';
import type { BenchOptions } from './bench.js';
import type { Fit } from './fit.js';
import type { Parameter } from './parameter.js';
import { decimalsOf, supported } from './rounding.js';

export interface Profile {
  readonly text: string;
  /** Fitted values that no sensor can have: then there is no use in the text. */
  readonly issues: readonly SensorIssue[];
}

/** @param converter whether the readings were counts, so that the converter belongs to the profile */
export function profileOf(fit: Fit, options: BenchOptions, converter: boolean): Profile {
  const keys = fit.parameters.filter((one) => one.key);
  const others = fit.parameters.filter((one) => !one.key);
  const values: Record<string, string> = Object.fromEntries(keys.map((one) => [one.name, roundedOf(one)]));
  const adc = converter ? { adc_bits: options.adc_bits, adc_reference_v: options.adc_reference_v } : {};
  const text = [
    `# Profile of one ${fit.kind}, fitted by \`jambeam fit\` to ${fit.rows} rows at ${fit.distances_m.length} distances`,
    `# from ${fit.distances_m[0]} to ${fit.distances_m.at(-1)} m. After each value: its standard error.`,
    ...others.map(
      (one) => `# Not a key: ${one.name} ${supported(one.value, one.standard_error)} ${one.unit}, ± ${errorText(one)}.`,
    ),
    ...(fit.kind === 'triangulation-ranger'
      ? [
          '# gain_v_m, offset_m and base_v belong together: alone each could be far off, and is written more finely for that.',
        ]
      : []),
    ...(fit.kind === 'time-of-flight-ranger'
      ? ['# noise_m holds at a timing budget of 33 ms; see docs/fitting.md for others.']
      : []),
    `kind: ${fit.kind}`,
    ...Object.entries(adc).map(([key, value]) => `${key}: ${value}`.padEnd(30) + '# as given'),
    ...keys.map((one) => `${`${one.name}: ${values[one.name]}`.padEnd(30)}# ${errorComment(one)}`),
    '',
  ].join('\n');
  const data = {
    kind: fit.kind,
    ...adc,
    ...Object.fromEntries(Object.entries(values).map(([k, v]) => [k, Number(v)])),
  };
  const scale = fit.unit === 'm' ? scaleIssues(fit.fitted.parameters[1]!) : [];
  return { text, issues: [...scale, ...sensorIssues(data)] };
}

const errorComment = (one: Parameter): string =>
  one.standard_error === null
    ? `hidden by the step of readings; below ${one.high.toPrecision(2)} ${one.unit}`
    : `± ${errorText(one)} ${one.unit}`;

const roundedOf = ({ value, alone }: Parameter): string => supported(value, alone);

/** Two digits of a standard error. */
export function errorText({ standard_error }: Parameter): string {
  if (standard_error === null || !Number.isFinite(standard_error)) return 'unknown';
  return standard_error === 0 ? '0' : standard_error.toFixed(decimalsOf(standard_error));
}
