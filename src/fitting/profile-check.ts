/** Whether fitted values are values a sensor can have: the scenario's own schema judges. */
import { sensorSchema } from '../sensors/schema.js';

export interface SensorIssue {
  readonly key: string;
  readonly value: unknown;
  /** What the schema expects, in words of its library. */
  readonly why: string;
}

export function sensorIssues(data: Readonly<Record<string, unknown>>): SensorIssue[] {
  const parsed = sensorSchema.safeParse(data);
  if (parsed.success) return [];
  return parsed.error.issues.map((issue) => {
    const key = String(issue.path[0] ?? 'kind');
    return { key, value: data[key], why: issue.message };
  });
}
