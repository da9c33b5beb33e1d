/** `jambeam firmware`: C99 for the controller of one door, with a test of its own and a page on how to use it. */
import { join } from 'node:path';
import { tableOf } from '../counter/table-of.js';
import type { Table } from '../counter/table/table.js';
import { quote } from '../engine/printable.js';
import { firmwareReadme } from '../report/firmware-readme.js';
import { shellWord } from '../report/shell-word.js';
import type { Design } from '../scenario/schema.js';
import { type Firmware, firmwareOf } from '../simulate/firmware/firmware.js';
import { writeNew } from './files.js';
import type { Io } from './io.js';
import { givenLogics } from './logic-options.js';
import { type FolderKind, OutFolder } from './out-folder.js';
import { namedOne } from './named-one.js';
import { UserProblem, onDisk, pathText } from './problem.js';
import { loadScenario, printCautions } from './scenario-file.js';

export interface FirmwareOptions {
  readonly door?: string;
  readonly out?: string;
  readonly logic?: string;
  readonly set?: readonly string[];
  readonly force?: boolean;
}

const README = 'README.md';

/** @throws {UserProblem} when the scenario is not right, there is no such door, or its logic is no table */
export function firmwareCommand(file: string, options: FirmwareOptions, io: Io): void {
  const { out, force = false } = options;
  if (out === undefined) throw new UserProblem('--out is missing', 'name a folder for the source: --out firmware');
  const asked = options.logic ?? '';
  // A file as in other commands; names of logics have none of these.
  const given = /[./\\]/.test(asked) ? givenLogics({ logics: [{ option: '--logic', value: asked }] }) : null;
  const { design, cautions } = loadScenario(file, options.set ?? [], given ?? undefined);
  printCautions(cautions, io);
  const door = one('door', '--door', design.doors, options.door);
  const logic = one('logic', '--logic', design.logics, given ? undefined : options.logic);
  const firmware = firmwareOf(design, door, tableFor(design, logic));
  const files = filesOf(firmware, firmwareReadme({ design, door, logic: logic.name, firmware }));
  write(files, out, { scenarioFile: file, part: door.name }, force);
  const { source, testProgram, vectors } = firmware.names;
  const folder = pathText(out);
  const stem = source.replace('.c', '_test');
  io.out(`Wrote ${Object.keys(files).join(', ')} to ${folder}. Next:

  ${io.paint.bold(`cd ${shellWord(folder)} && cc -std=c99 ${source} ${testProgram} -o ${stem} && ./${stem} ${vectors}`)}

tests it on this computer. ${pathText(join(out, README))} says how to wire it and what to call.
`);
}

function filesOf({ names, texts }: Firmware, readme: string): Record<string, string> {
  const { header, source, testProgram, vectors } = names;
  return {
    [header]: texts.header,
    [source]: texts.source,
    [testProgram]: texts.testProgram,
    [vectors]: texts.vectors,
    [README]: readme,
  };
}

function write(
  files: Readonly<Record<string, string>>,
  out: string,
  owner: { readonly scenarioFile: string; readonly part: string },
  force: boolean,
): void {
  const names = Object.keys(files);
  const kind: FolderKind = {
    marker: 'jambeam-firmware.json',
    files: names,
    sealed: names,
    what: 'source',
    by: 'scenario or door',
    edited: true,
  };
  const folder = OutFolder.open(kind, out, owner, force);
  try {
    for (const [name, text] of Object.entries(files))
      onDisk(`${pathText(out)} can't be written`, () => writeNew(join(folder.unfinished, name), text));
    folder.finish();
  } catch (error) {
    folder.discard();
    throw error;
  }
}

/** The one that is asked for by name; where none is, the only one there is. */
function one<T extends { readonly name: string }>(
  what: string,
  option: string,
  all: readonly T[],
  asked: string | undefined,
): T {
  if (asked !== undefined) return namedOne(option, what, 'in the scenario', all, asked);
  if (all.length === 1) return all[0]!;
  const list = all.map(({ name }) => quote(name)).join(', ');
  throw new UserProblem(
    `the scenario has ${all.length} ${what}s, and the source is for one: ${list}`,
    `say which with ${option}`,
  );
}

/** @throws {UserProblem} when the logic is no table */
function tableFor(design: Design, logic: Design['logics'][number]): Table {
  const table = tableOf(logic, design.tables);
  if (table !== null) return table;
  const others = design.logics.filter((other) => tableOf(other, design.tables) !== null).map(({ name }) => name);
  throw new UserProblem(
    `the logic ${quote(logic.name)} (${logic.use}) is no table of states, and only tables become source`,
    others.length > 0
      ? `tables of this scenario: ${others.map(quote).join(', ')}`
      : 'first-broken, four-level, hold-off and tables of your own can be built',
  );
}
