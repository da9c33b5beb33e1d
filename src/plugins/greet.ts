/** The first exchange with a program. */
import type { DoorAbout } from '../counter/make-logic.js';
import type { Bridge, Parkable } from './bridge.js';
import type { ProcessCode } from './code.js';
import { badAnswer, processProblem } from './process-words.js';
import { type ProgramAbout, READY, helloText, programAbout } from './protocol.js';

/** What stands behind a program at a door. */
export interface ProcessParts {
  readonly code: ProcessCode;
  readonly door: DoorAbout;
  readonly bridge: Bridge;
  readonly limit_s: number;
}

/** Starts the program, exchanges greetings, and gives what it says of itself. @throws {CodeProblem} */
export function greet(
  { code, door, bridge, limit_s }: ProcessParts,
  user: Parkable,
): { id: number; about: ProgramAbout } {
  const id = bridge.start(code.words, user);
  const hello = helloText(door);
  const answer = bridge.exchange(id, hello, READY);
  const moment = { door: door.name, time_us: Number.NaN, sent: hello.trimEnd().split('\n'), limit_s };
  if (answer.told === 'fault') throw processProblem(code, answer.fault, moment);
  const about = programAbout(answer.lines);
  if (typeof about === 'string') throw badAnswer(code, about, moment, [...answer.lines, READY]);
  return { id, about };
}
