/** From a table's text to a logic: read, check, build. The format is described in docs/tables.md. */
import type { Logic } from '../logic.js';
import { checkTable } from './check.js';
import type { TableIssue } from './issue.js';
import { machineOf } from './machine.js';
import { readTable } from './read.js';
import type { Table } from './table.js';
import { YamlText } from './yaml-text.js';

export interface CompiledTable {
  /** Null when there are issues. */
  readonly logic: Logic | null;
  readonly table: Table | null;
  /** All that is wrong, in order of the text. */
  readonly issues: readonly TableIssue[];
}

/**
 * @param text the YAML
 * @param file what issues name as the file
 * @param name the logic's name in results (default: the table's own)
 */
export function compileTable(text: string, file: string, name?: string): CompiledTable {
  const yaml = new YamlText(text, file);
  const read = readTable(yaml);
  if (read) checkTable(read, (place, path, message, hint) => yaml.issueAt(place, path, message, hint));
  const issues = yaml.issues.toSorted((a, b) => a.line - b.line || a.column - b.column);
  if (!read || issues.length > 0) return { logic: null, table: null, issues };
  return { logic: machineOf(read.table, name), table: read.table, issues };
}
