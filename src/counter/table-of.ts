/** The table a chosen logic is: its own, or that of a built-in logic with the timeouts of the choice. */
import type { AnyChoice } from './schema.js';
import { builtInTable } from './table/built-in.js';
import { compileTable } from './table/compile.js';
import type { Table } from './table/table.js';

/**
 * @param tables texts of table logics by file name, as a design carries them
 * @returns null for a logic that is no table: one that learns, or code of the user's own
 * @throws {Error} when a table is missing or has issues: a design's tables have been checked
 */
export function tableOf(choice: AnyChoice, tables: Readonly<Record<string, string>>): Table | null {
  const text = choice.use === 'table' ? tableText(choice.file, tables) : builtInTable(choice);
  if (text === null) return null;
  const { table, issues } = compileTable(text, choice.use);
  if (!table) throw new Error(`tableOf: ${issues.map(({ line, message }) => `${line}: ${message}`).join('\n')}`);
  return table;
}

/** The text of a table's file. @throws {Error} when the design does not hold it */
export function tableText(file: string, tables: Readonly<Record<string, string>>): string {
  const text = Object.hasOwn(tables, file) ? tables[file] : undefined;
  if (text === undefined) throw new Error(`no text for the table ${JSON.stringify(file)}`);
  return text;
}
