/** design.json: a design as text and back, the same bytes for the same design. */
import { crossCheck } from './checks/all.js';
import type { Outline } from './checks/outline.js';
import type { Issue } from './issue.js';
import { showPath } from './key-path.js';
import { type Design, designSchema } from './schema.js';
import { checkShape } from './shape.js';
import { readYaml } from './yaml-source.js';

/** A design carries the texts of its tables. */
const MAX_CHARACTERS = 16 * 1_048_576;

/** Canonical JSON: keys in the order of the schema, names in maps sorted, two spaces, a line break at the end. */
export function serialiseDesign(design: Design): string {
  // Parsing puts keys into the schema's order, whatever order the design was built in.
  const { walkers, sensors, tables, ...rest } = designSchema.parse(design);
  const ordered = {
    ...rest,
    walkers: sortedByKey(walkers),
    sensors: sortedByKey(sensors),
    tables: sortedByKey(tables),
  };
  return `${JSON.stringify(ordered, null, 2)}\n`;
}

/** The design in a text of {@link serialiseDesign}, checked as if a stranger had written it. Never throws. */
export function designFromJson(text: string, file = 'design.json'): { design: Design | null; issues: Issue[] } {
  // JSON is YAML, and the YAML reader knows the place of every value.
  const { source, issues } = readYaml(text, file, { maxCharacters: MAX_CHARACTERS, anyText: true });
  if (!source || issues.length > 0) return { design: null, issues };
  const shape = checkShape(designSchema, source.value);
  const findings = shape.data === null ? shape.findings : crossCheck(shape.data as Outline);
  if (shape.data !== null && findings.length === 0) return { design: shape.data, issues: [] };
  return {
    design: null,
    issues: findings.map(({ path, at, problem }) => ({
      place: source.place(path, at),
      path: showPath(source.value, path),
      problem,
    })),
  };
}

function sortedByKey<V>(map: Readonly<Record<string, V>>): Record<string, V> {
  return Object.fromEntries(Object.entries(map).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}
