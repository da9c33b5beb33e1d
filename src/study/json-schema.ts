/** The published shapes of a study's file and of study.json, for editors and for whoever reads it with other tools. */
import { describedSchema } from '../scenario/keys.js';
import { studySchema } from './plan/schema.js';
import { studySummarySchema } from './summary-schema.js';
import { z } from 'zod';

/** JSON Schema (draft 2020-12) of a study's file, for editors that complete and check YAML. */
export function studyEditorSchema(): object {
  return { ...describedSchema(studySchema), title: 'A study of jambeam, format 1' };
}

/** JSON Schema (draft 2020-12) of study.json, format 1. */
export function summaryJsonSchema(): Record<string, unknown> {
  return { title: 'study.json of jambeam, format 1', ...z.toJSONSchema(studySummarySchema) };
}
