/**
 * C99 for the controller of one door: its logic as a table, its rangers' switching, and their turns; with test vectors
 * and a program to play them.
 *
 * Nothing a user wrote gets into it: states, beams and doors are numbers, and files are called after the door's number.
 */
import type { Table } from '../../counter/table/table.js';
import type { Design, DesignDoor } from '../../scenario/schema.js';
import { headerText } from './header.js';
import { type FirmwarePlan, firmwarePlan } from './plan.js';
import { sourceText } from './source.js';
import { testProgramText } from './test-program.js';
import { vectorsText } from './vectors.js';

/** In the test vectors. */
const CALLS = 4000;

export interface FirmwareFiles {
  readonly header: string;
  readonly source: string;
  readonly testProgram: string;
  readonly vectors: string;
}

export interface Firmware {
  readonly plan: FirmwarePlan;
  /** What each file is called, and its text. */
  readonly names: FirmwareFiles;
  readonly texts: FirmwareFiles;
}

/** @param table the logic to build; it has as many beams as the door @param calls in the test vectors */
export function firmwareOf(design: Design, door: DesignDoor, table: Table, calls = CALLS): Firmware {
  const plan = firmwarePlan(design, door, table);
  const stem = `door${plan.number}`;
  const numbered = (text: string): string => withNumber(text, plan.number);
  return {
    plan,
    names: {
      header: `${stem}.h`,
      source: `${stem}.c`,
      testProgram: `${stem}_test.c`,
      vectors: `${stem}_test.txt`,
    },
    texts: {
      header: numbered(headerText(plan)),
      source: numbered(sourceText(plan)),
      testProgram: numbered(testProgramText(plan)),
      vectors: vectorsText(plan, calls),
    },
  };
}

/** `door_`, `DOOR_` and the files' names with the door's number: two doors' sources can stand in one program. */
export function withNumber(text: string, number: number): string {
  return text
    .replace(/\bdoor__test\b/g, `door${number}_test`)
    .replace(/\bdoor_\.(c|h)\b/g, `door${number}.$1`)
    .replace(/\bdoor_/g, `door${number}_`)
    .replace(/\bDOOR_/g, `DOOR${number}_`);
}
