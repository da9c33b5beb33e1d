/** What the tests of code of a user's own take from the build: threads are started from compiled files only. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll } from 'vitest';
import type { HostStep } from '../../src/counter/host.js';
import type { OutsideChoice } from '../../src/counter/schema.js';
import type { Code } from '../../src/plugins/code.js';
import type { OpenCode } from '../../src/plugins/open-code.js';

const dist = async (file: string): Promise<unknown> => import(pathToFileURL(resolve('dist', file)).href);

export const { openCode } = (await dist('plugins/open-code.js')) as typeof import('../../src/plugins/open-code.js');
export const { codeJob } = (await dist('plugins/code.js')) as typeof import('../../src/plugins/code.js');
export const { processesIn } = (await dist('plugins/heart.js')) as typeof import('../../src/plugins/heart.js');
export const { hostOf } = (await dist('counter/host.js')) as typeof import('../../src/counter/host.js');
export const { runReplicate } = (await dist(
  'simulate/replicate.js',
)) as typeof import('../../src/simulate/replicate.js');

/** A door with two light barriers. */
export const DOOR = {
  index: 0,
  name: 'front',
  beams: [
    { name: 'A', kind: 'light-barrier' },
    { name: 'B', kind: 'light-barrier' },
  ],
};

const folder = mkdtempSync(join(tmpdir(), 'jambeam-plugins-'));
const opened: OpenCode[] = [];
afterAll(() => {
  for (const code of opened) code.close();
  rmSync(folder, { recursive: true, force: true });
});

export function write(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

let count = 0;
export function moduleCode(text: string, name = `m${count++}.ts`): Code {
  return { use: 'module', name: 'mine', path: write(name, text), shown: name };
}

/** A program in a line of JavaScript for each thing that can come; `answers` false leaves flushes to it. */
export function programCode({
  hello = '',
  line = '',
  flush = '',
  answers = true,
}: {
  hello?: string;
  line?: string;
  flush?: string;
  answers?: boolean;
} = {}): Code {
  const text = `
    const say = (...lines) => process.stdout.write(lines.join('\\n') + '\\n');
    let n = 0;
    for await (const line of require('node:readline').createInterface({ input: process.stdin })) {
      const [time, levels, ...readings] = line.split(' ');
      if (line === 'ready') { ${hello === '' ? "say('jambeam-logic 1', 'ready')" : hello} }
      else if (time === 'flush') { ${flush}; ${answers ? 'say(line)' : ''} }
      else if (/^\\d/.test(line)) { n++; ${line} }
    }`;
  const path = write(`p${count++}.cjs`, `(async () => {${text}})();`);
  return { use: 'process', name: 'mine', words: [process.execPath, path], shown: 'my-program' };
}

export async function open(code: Code, limit_s = 10): Promise<OpenCode> {
  const ready = await openCode(codeJob([code], limit_s));
  opened.push(ready);
  return ready;
}

export const CHOICE = { use: 'module', file: 'mine.ts', name: 'mine' } satisfies OutsideChoice & { name: string };

/** Somebody walks through, forward; then the door is empty. */
export const WALK: readonly (readonly [time_us: number, mask: number])[] = [
  [1_000_000, 1],
  [1_100_000, 3],
  [1_200_000, 2],
  [1_300_000, 0],
];

export interface Heard {
  readonly tallies: string[];
  readonly steps: HostStep[];
}

/** Drives the code through `inputs` and up to `until_us`. */
export async function driven(
  code: Code,
  { inputs = WALK, until_us = 20_000_000, limit_s = 10, door = DOOR } = {},
): Promise<Heard> {
  const heard: Heard = { tallies: [], steps: [] };
  const host = hostOf((await open(code, limit_s)).outside(CHOICE, door), hooksOf(heard));
  for (const [time_us, mask] of inputs) host.inputMask(time_us, mask);
  host.finish(until_us);
  host.close();
  return heard;
}

export function hooksOf({ tallies, steps }: Heard) {
  return {
    onTally: (time_us: number, direction: string) => void tallies.push(`${direction} ${time_us}`),
    trace: (step: HostStep) => void steps.push(step),
  };
}
