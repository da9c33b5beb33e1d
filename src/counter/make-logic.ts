/** From what a user chose to a logic that can be driven. */
import { firstBroken } from './first-broken.js';
import { fourLevel } from './four-level.js';
import { holdOff } from './hold-off.js';
import { hiddenMarkov } from './hidden-markov/hidden-markov.js';
import type { Learnt } from './hidden-markov/learn.js';
import type { AnyLogic } from './host.js';
import { lagAware } from './lag-aware.js';
import type { Logic } from './logic.js';
import type { AnyChoice, LogicChoice, OutsideChoice } from './schema.js';
import { tableText } from './table-of.js';
import { compileTable } from './table/compile.js';
import { twoHeight } from './two-height.js';

/** What a choice may refer to. */
export interface LogicSources {
  /** Texts of table logics by file name, as a design carries them. */
  readonly tables: Readonly<Record<string, string>>;
  /** What hidden Markov logics have learnt of this doorway, by the logic's name. */
  readonly learnt?: readonly (Learnt & { readonly logic: string })[] | undefined;
  /** Gives the logics that are code of the user's own; the core has none. */
  readonly outside?: ((choice: NamedOutside) => AnyLogic) | undefined;
}

type TableChoice = Extract<LogicChoice, { use: 'table' }>;
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
export function makeLogic(choice: AnyChoice, { tables, outside, learnt }: LogicSources): AnyLogic {
  switch (choice.use) {
    case 'first-broken':
      return firstBroken(named(choice));
    case 'four-level':
      return fourLevel(named(choice));
    case 'hold-off':
      return holdOff(named(choice));
    case 'lag-aware':
      return lagAware(named(choice));
    case 'two-height':
      return twoHeight(named(choice));
    case 'hidden-markov': {
      const name = choice.name ?? choice.use;
      const model = learnt?.find((one) => one.logic === name);
      if (!model) throw new Error(`makeLogic: ${JSON.stringify(name)} has learnt nothing of this doorway`);
      return hiddenMarkov(named(choice), model);
    }
    case 'table':
      return tableLogic(choice, tableText(choice.file, tables));
    case 'module':
    case 'process':
      if (!outside)
        throw new Error(`makeLogic: the code of ${JSON.stringify(choice.name ?? choice.use)} is not at hand`);
      return outside(named(choice));
  }
}

/** Tables that were compiled last for a choice. A logic keeps nothing, so one serves every door and replicate. */
const compiled = new WeakMap<TableChoice, { readonly text: string; readonly logic: Logic }>();

function tableLogic(choice: TableChoice, text: string): Logic {
  const before = compiled.get(choice);
  if (before?.text === text) return before.logic;
  const { logic, issues } = compileTable(text, choice.file, choice.name);
  if (!logic)
    throw new Error(`makeLogic: ${issues.map((i) => `${i.file}:${i.line}:${i.column}: ${i.message}`).join('\n')}`);
  compiled.set(choice, { text, logic });
  return logic;
}

/** A choice without a name is called after what it uses. */
function named<Choice extends AnyChoice>(choice: Choice): Choice & { readonly name: string } {
  return { ...choice, name: choice.name ?? choice.use };
}
