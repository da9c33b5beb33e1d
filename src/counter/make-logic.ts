/** From what a user chose to a logic that can be driven. */
import { firstBroken } from './first-broken.js';
import { fourLevel } from './four-level.js';
import { holdOff } from './hold-off.js';
import type { Logic } from './logic.js';
import type { LogicChoice } from './schema.js';
import { compileTable } from './table/compile.js';

/**
 * @param tables texts of table logics by file name, as a design carries them
 * @throws {Error} when a table is missing or has issues: check tables first, with compileTable, to tell the user all
 */
export function makeLogic(choice: LogicChoice, tables: Readonly<Record<string, string>>): Logic {
  switch (choice.use) {
    case 'first-broken':
      return firstBroken(named(choice));
    case 'four-level':
      return fourLevel(named(choice));
    case 'hold-off':
      return holdOff(named(choice));
    case 'table': {
      const text = Object.hasOwn(tables, choice.file) ? tables[choice.file] : undefined;
      if (text === undefined) throw new Error(`makeLogic: no text for the table ${JSON.stringify(choice.file)}`);
      const { logic, issues } = compileTable(text, choice.file, choice.name);
      if (!logic)
        throw new Error(`makeLogic: ${issues.map((i) => `${i.file}:${i.line}:${i.column}: ${i.message}`).join('\n')}`);
      return logic;
    }
  }
}

/** A choice without a name is called after what it uses. */
function named<Choice extends LogicChoice>(choice: Choice): Choice & { readonly name: string } {
  return { ...choice, name: choice.name ?? choice.use };
}
