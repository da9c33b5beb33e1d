/** JSON Schemas of every YAML file that a user writes, for editors that complete and check while one types. */
import { tableFileSchema } from '../counter/table/file-schema.js';
import { describedSchema, editorSchema } from '../scenario/keys.js';
import { sensorSchema } from '../sensors/schema.js';
import { studyEditorSchema } from '../study/json-schema.js';

/** By what `keys --schema` calls the file. */
export const EDITOR_SCHEMAS = {
  scenario: editorSchema,
  study: studyEditorSchema,
  table: () => ({ ...describedSchema(tableFileSchema), title: 'A table logic of jambeam, format 1' }),
  profile: () => ({ ...describedSchema(sensorSchema), title: 'A profile of a sensor for jambeam' }),
} as const satisfies Readonly<Record<string, () => object>>;

export type WrittenFile = keyof typeof EDITOR_SCHEMAS;

/** As it stands in a file. */
export function schemaText(of: WrittenFile): string {
  return `${JSON.stringify(EDITOR_SCHEMAS[of](), null, 2)}\n`;
}
