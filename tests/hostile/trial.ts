/** One mutant given to its target, and what came of it judged. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { UserProblem } from '../../src/cli/problem.js';
import { QueueProblem } from '../../src/study/queue/place.js';
import type { Target } from './target.js';

export interface Trial {
  readonly outcome: 'taken' | 'refused';
  readonly seconds: number;
}

/** Only a hang takes as long as this, seconds. */
const LONGEST_S = 60;
/** What no user should ever be told. */
const NOT_FOR_USERS =
  /\n\s+at |\[object |(?:Type|Range|Syntax|Reference)Error|is not a function|Cannot read prop|is not iterable|call stack|undefined|node_modules/;
// oxlint-disable-next-line no-control-regex -- they are what is looked for
const CONTROLS = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u2028-\u202e\u2066-\u2069]|\p{Cs}/u;
/** Line and column; what can't be opened has none. */
const PLACE = /:\d+:\d+: |: there is no such file|: expected .* found a folder|: the file can't be read/;

/** @throws {Error} when the target did anything but take the file or refuse it in words */
export async function trial(target: Target, bytes: Buffer, home: string): Promise<Trial> {
  const folder = join(home, target.name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder);
  const path = join(folder, target.file);
  writeFileSync(path, bytes);
  const begun = performance.now();
  let refusal: unknown;
  let outcome: Trial['outcome'] = 'taken';
  try {
    await target.take({ folder, path, bytes });
  } catch (error) {
    outcome = 'refused';
    refusal = error;
  }
  const seconds = (performance.now() - begun) / 1000;
  if (outcome === 'refused') judge(target, refusal, folder);
  const stain = Object.keys(Object.prototype)[0] ?? ('polluted' in {} ? 'polluted' : undefined);
  if (stain !== undefined) throw new Error(`every object has ${stain} now`);
  if (seconds > LONGEST_S) throw new Error(`it took ${seconds.toFixed(1)} s`);
  return { outcome, seconds };
}

function judge(target: Target, refusal: unknown, folder: string): void {
  if (!(refusal instanceof UserProblem) && !(refusal instanceof QueueProblem)) throw refusal;
  const words = refusal.message.replaceAll(folder, '');
  const wrong = (what: string) => new Error(`${what}: ${JSON.stringify(words.slice(0, 400))}`);
  if (words.replace(/[\s:]/g, '').length < 10) throw wrong('a refusal of no words');
  if (words.length > 100_000) throw wrong('a refusal of many pages');
  if (CONTROLS.test(words)) throw wrong('a control character in a refusal');
  if (NOT_FOR_USERS.test(words)) throw wrong('words not for users');
  if (target.placed && !PLACE.test(words)) throw wrong('a refusal without a place');
}
