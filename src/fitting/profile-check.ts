/** Whether fitted values are values a sensor can have: the scenario's own schema judges. */
import { sensorSchema } from '../sensors/schema.js';
import { FAR_OFF } from './bench.js';

export interface SensorIssue {
  readonly key: string;
  readonly value: unknown;
  /** What is expected instead: `at most 0.5`. */
  readonly expected: string;
}

export function sensorIssues(data: Readonly<Record<string, unknown>>): SensorIssue[] {
  const parsed = sensorSchema.safeParse(data);
  if (parsed.success) return [];
  return parsed.error.issues.map((issue) => {
    const key = String(issue.path[0] ?? 'kind');
    const expected =
      issue.code === 'too_big'
        ? `at most ${issue.maximum}`
        : issue.code === 'too_small'
          ? `at least ${issue.minimum}`
          : issue.message;
    return { key, value: data[key], expected };
  });
}

/** @param scale metres read per true metre */
export function scaleIssues(scale: number): SensorIssue[] {
  if (scale < FAR_OFF && scale > 1 / FAR_OFF) return [];
  return [{ key: 'scale', value: Number(scale.toPrecision(3)), expected: `${1 / FAR_OFF} to ${FAR_OFF}` }];
}
