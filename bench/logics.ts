/** What a logic costs: one built-in, eight, a module and a program, on the same people from the design to the metrics. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { OutsideLogics } from '../src/counter/make-logic.js';
import { type Code, codeJob } from '../src/plugins/code.js';
import { openCode } from '../src/plugins/open-code.js';
import type { Design } from '../src/scenario/schema.js';
import { runReplicate } from '../src/simulate/replicate.js';
import { check } from './check.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';

const COMPILER = 'cc';
const PASSAGES = 20_000;
type NamedLogic = Design['logics'][number];

const FOUR_LEVEL: NamedLogic = { use: 'four-level', name: 'four-level', timeout_ms: 10_000 };
const MODULE: NamedLogic = { use: 'module', name: 'mine', file: 'four-level.ts' };
const PROGRAM: NamedLogic = { use: 'process', name: 'mine', command: './four-level' };

export const LOGIC_CASES: Readonly<Record<string, readonly NamedLogic[]>> = {
  'one built-in': [FOUR_LEVEL],
  'eight built-in': Array.from({ length: 8 }, (_, i) => ({ ...FOUR_LEVEL, name: `four-level-${i}` })),
  'a module': [MODULE],
  'a program in C': [PROGRAM],
};

/** Measures one of {@link LOGIC_CASES}. The examples are taken from the folder the bench is started in. */
export async function logics(what: string, repeats: number): Promise<Measured[]> {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  const chosen = LOGIC_CASES[what]!;
  const code = await openCode(codeJob(chosen.flatMap((logic) => codeOf(logic, folder))));
  try {
    const design = { ...designOf(crowdNamed('default mix'), PASSAGES), logics: [...chosen] };
    const own = tallies(design, code.outside);
    const builtIn = tallies({ ...design, logics: [FOUR_LEVEL] });
    check(own.passages > PASSAGES / 2, `only ${own.passages} passages`);
    check(
      own.tallies === builtIn.tallies * chosen.length,
      `${own.tallies} tallies, the built-in gives ${builtIn.tallies}`,
    );
    return [{ label: what, units: own.passages, ...timed(repeats, () => tallies(design, code.outside)) }];
  } finally {
    code.close();
    rmSync(folder, { recursive: true });
  }
}

/** One replicate of the design, as long as it is: without the closer looks at rare kinds that come after a run. */
function tallies(design: Design, outside?: OutsideLogics): { passages: number; tallies: number } {
  const seen = { passages: 0, tallies: 0 };
  const sinks = { passage: () => void seen.passages++, tally: () => void seen.tallies++ };
  for (let number = 1; number <= design.replicates; number++) runReplicate(design, number, sinks, { outside });
  return seen;
}

/** The four-level walk of the docs. */
function codeOf({ use, name }: NamedLogic, folder: string): Code[] {
  const source = (ending: string): string => join('docs/examples', `four-level.${ending}`);
  if (use === 'module') return [{ use, name, path: join(process.cwd(), source('ts')), shown: 'four-level.ts' }];
  if (use !== 'process') return [];
  const built = join(folder, 'four-level');
  const { status, stderr } = spawnSync(COMPILER, ['-O2', source('c'), '-o', built], { encoding: 'utf8' });
  check(status === 0, `the C compiler: ${stderr}`);
  return [{ use, name, words: [built], shown: './four-level' }];
}
