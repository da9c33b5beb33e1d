/** The published shape of metrics.json, for whoever reads it with other tools. */
import { z } from 'zod';
import { metricsSchema } from './metrics-schema.js';

/** JSON Schema (draft 2020-12) of metrics.json, format 1. */
export function metricsJsonSchema(): Record<string, unknown> {
  return { title: 'metrics.json of jambeam, format 1', ...z.toJSONSchema(metricsSchema) };
}
