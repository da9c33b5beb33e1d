/** What a walk test is of: one door of a finished run under one logic. */
import { quote } from '../engine/printable.js';
import { Stream } from '../engine/stream.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { DoorMetrics } from '../score/metrics-schema.js';
import { namedOne } from './named-one.js';
import { UserProblem, pathText } from './problem.js';
import { readRun } from './read-run.js';

/** What is tested: one door of a run under one logic. */
export interface WalkTest {
  readonly design: Design;
  readonly door: DesignDoor;
  readonly logic: Design['logics'][number];
  readonly metrics: DoorMetrics;
  /** All chance of this test: predictions and order. */
  readonly stream: Stream;
}

export const names = ({ door, logic }: WalkTest) => ({ door: door.name, logic: logic.name });

/** @throws {UserProblem} when the folder is no finished run, or has no such door or logic */
export function walkTestOf(folder: string, options: { readonly door?: string; readonly logic?: string }): WalkTest {
  const { design, metrics } = readRun(folder);
  const door = one('door', design.doors, options.door);
  const logic = one('logic', design.logics, options.logic);
  if (logic.use === 'module' || logic.use === 'process')
    throw new UserProblem(
      `the logic ${quote(logic.name)} is code of your own, and walks are predicted only by logics that design.json holds whole`,
      'choose another with --logic, or write it as a table (docs/tables.md)',
    );
  const found = metrics.doors.find((row) => row.door === door.name && row.logic === logic.name);
  if (found === undefined)
    throw new UserProblem(
      `${pathText(folder)}: the run has no result of door ${quote(door.name)} with logic ${quote(logic.name)}`,
    );
  const stream = Stream.root(String(design.seed)).child('walk test', door.name, logic.name);
  return { design, door, logic, metrics: found, stream };
}

/** The one that is asked for by name; the first where none is. */
function one<T extends { readonly name: string }>(what: string, all: readonly T[], name: string | undefined): T {
  return name === undefined ? all[0]! : namedOne(`--${what}`, what, 'in this run', all, name);
}
