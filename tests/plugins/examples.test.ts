/** The examples of the docs and the starter count as the built-in logics do, tally by tally. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { Code } from '../../src/plugins/code.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { starterScenario } from '../../src/scenario/starter.js';
import type { Design } from '../../src/scenario/schema.js';
import { open, runReplicate } from './built.js';

const COMPILER = 'gcc';
const folder = mkdtempSync(join(tmpdir(), 'jambeam-examples-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Where checks are run for good nothing is skipped: there a tool that is missing is a failure. */
const here = (tool: string): boolean => process.env['CI'] !== undefined || spawnSync(tool, ['--version']).status === 0;

/** A busy door with low beams, a restart now and then: reversals, pairs, legs one by one, lost edges. */
function busyDoor(logic: Design['logics'][number]): Design {
  const { design } = parseScenario(starterScenario(), 'door.yaml', {
    logics: [{ option: '', logic: 'four-level' }],
    sets: [
      'hours=10',
      'doors.front.traffic.arrivals_per_hour=60',
      'doors.front.beams.*.height_m=0.5',
      'controllers.main.poll_ms=8',
      'controllers.main.restarts_per_week=40',
    ],
  });
  return { ...design!, logics: [logic] };
}

async function tallies(logic: Design['logics'][number], code?: Code): Promise<string[]> {
  const rows: string[] = [];
  const outside = code && (await open(code)).outside;
  const tally = (replicate: number, { time_us, direction }: { time_us: number; direction: string }): void =>
    void rows.push(`${replicate},${time_us},${direction}`);
  runReplicate(busyDoor(logic), 1, { tally }, { outside });
  return rows;
}

const module = (file: string): Code => ({ use: 'module', name: 'mine', path: resolve(file), shown: file });
const program = (...words: string[]): Code => ({ use: 'process', name: 'mine', words, shown: words.join(' ') });
const MODULE = { use: 'module', name: 'mine', file: 'mine.ts' } as const;
const PROGRAM = { use: 'process', name: 'mine', command: 'mine' } as const;

describe('four-level, as', async () => {
  const builtIn = await tallies({ use: 'four-level', name: 'four-level', timeout_ms: 10_000 });

  test('itself counts hundreds in both directions here', () => {
    expect(builtIn.length).toBeGreaterThan(400);
    expect(new Set(builtIn.map((row) => row.split(',')[2]))).toEqual(new Set(['forward', 'backward']));
  });

  test.skipIf(!here(COMPILER))('a program in C (needs gcc)', async () => {
    const built = join(folder, 'four-level');
    const flags = ['-std=c99', '-O1', '-Wall', '-Wextra', '-pedantic', '-Werror', '-Wno-parentheses'];
    const { status, stderr } = spawnSync(COMPILER, [...flags, 'docs/examples/four-level.c', '-o', built]);
    expect({ status, stderr: stderr.toString() }).toEqual({ status: 0, stderr: '' });
    expect(await tallies(PROGRAM, program(built))).toEqual(builtIn);
  });

  test.skipIf(!here('python3'))('a program in Python (needs python3)', async () => {
    expect(await tallies(PROGRAM, program('python3', 'docs/examples/four-level.py'))).toEqual(builtIn);
  });

  test('a module in TypeScript', async () => {
    expect(await tallies(MODULE, module('docs/examples/four-level.ts'))).toEqual(builtIn);
  });
});

test('the starter that `jambeam new` writes counts as first-broken', async () => {
  const builtIn = await tallies({ use: 'first-broken', name: 'first-broken', timeout_ms: 4000 });
  expect(await tallies(MODULE, module('scenarios/my-logic.ts'))).toEqual(builtIn);
});
