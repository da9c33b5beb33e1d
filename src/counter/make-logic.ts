/** From what a user chose to a logic that can be driven. */
import { firstBroken } from './first-broken.js';
import { fourLevel } from './four-level.js';
import { holdOff } from './hold-off.js';
import type { AnyLogic } from './host.js';
import type { Logic } from './logic.js';
import type { AnyChoice, LogicChoice, OutsideChoice } from './schema.js';
import { compileTable } from './table/compile.js';

/** What a choice may refer to. */
export interface LogicSources {
  /** Texts of table logics by file name, as a design carries them. */
  readonly tables: Readonly<Record<string, string>>;
  /** Gives the logics that are code of the user's own; the core has none. */
  readonly outside?: ((choice: NamedOutside) => AnyLogic) | undefined;
}

type NamedOutside = OutsideChoice & { readonly name: string };

/** The door a logic is to count at. */
export interface DoorAbout {
  /** Its index in the design. */
  readonly index: number;
  readonly name: string;
  /** In the door's order. */
  readonly beams: readonly { readonly name: string; readonly kind: string }[];
}

/** Gives a module's or a program's logic for a door, made ready by whoever started the run. */
export type OutsideLogics = (choice: NamedOutside, door: DoorAbout) => AnyLogic;

/**
 * @throws {Error} when a table is missing or has issues (check tables first, with compileTable, to tell the user all), or
 *   code of the user's own isn't there
 */
export function makeLogic(choice: LogicChoice, sources: LogicSources): Logic;
export function makeLogic(choice: AnyChoice, sources: LogicSources): AnyLogic;
export function makeLogic(choice: AnyChoice, { tables, outside }: LogicSources): AnyLogic {
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
    case 'module':
    case 'process':
      if (!outside)
        throw new Error(`makeLogic: the code of ${JSON.stringify(choice.name ?? choice.use)} is not at hand`);
      return outside(named(choice));
  }
}

/** A choice without a name is called after what it uses. */
function named<Choice extends AnyChoice>(choice: Choice): Choice & { readonly name: string } {
  return { ...choice, name: choice.name ?? choice.use };
}
