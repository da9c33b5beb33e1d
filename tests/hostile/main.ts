/** `npm run fuzz`: the same for as long as one likes, with other seeds; what is found is kept as a file. */
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Round, round } from './rounds.js';
import type { Target } from './target.js';
import { TARGETS } from './targets/index.js';

const USAGE = 'npm run fuzz -- [TARGET...] [--minutes M] [--seed S]';
/** Inputs of the quickest targets between two looks at the clock. */
const BATCH = 200;
const LIMIT_MS = 20_000;

interface Sum {
  inputs: number;
  taken: number;
  findings: number;
  worst_s: number;
  peak_mb: number;
}

/**
 * @param home where inputs are put, the caller's to take away: whoever is ended has left its last there
 * @returns the exit code: 1 when anything was found
 */
export async function main(home: string, args: readonly string[]): Promise<number> {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { minutes: { type: 'string', default: '10' }, seed: { type: 'string', default: '1' } },
  });
  const [minutes, seed] = [Number(values.minutes), Number(values.seed)];
  const unknown = positionals.filter((name) => !TARGETS.some((target) => target.name === name));
  if (!(minutes > 0) || !Number.isSafeInteger(seed) || unknown.length > 0) {
    process.stderr.write(
      `${USAGE}\nno target: ${unknown.join(', ') || 'none'}; there are ${TARGETS.map(({ name }) => name).join(', ')}\n`,
    );
    return 2;
  }
  const targets = positionals.length === 0 ? TARGETS : TARGETS.filter(({ name }) => positionals.includes(name));
  const sums = new Map(
    targets.map((target): [Target, Sum] => [target, { inputs: 0, taken: 0, findings: 0, worst_s: 0, peak_mb: 0 }]),
  );
  const end = performance.now() + minutes * 60_000;
  for (let turn = 0; performance.now() < end; turn++)
    for (const target of targets) {
      if (performance.now() >= end) break;
      const found = await round(target, BATCH, seed * 100_003 + turn, home, LIMIT_MS);
      add(sums.get(target)!, found);
      if (found.finding) tell(target, found.finding);
    }
  print(sums);
  return [...sums.values()].some(({ findings }) => findings > 0) ? 1 : 0;
}

function add(sum: Sum, { inputs, taken, worst_s, finding }: Round): void {
  sum.inputs += inputs;
  sum.taken += taken;
  sum.findings += finding ? 1 : 0;
  sum.worst_s = Math.max(sum.worst_s, worst_s);
  sum.peak_mb = Math.max(sum.peak_mb, process.memoryUsage().rss / 1_048_576);
}

function tell({ name, file }: Target, { bytes, recipe, error }: NonNullable<Round['finding']>): void {
  const kept = join(mkdtempSync(join(tmpdir(), `jambeam-finding-${name}-`)), file);
  writeFileSync(kept, bytes);
  const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
  process.stderr.write(`${name}: ${words.slice(0, 1500)}\n  recipe: ${JSON.stringify(recipe)}\n  input: ${kept}\n`);
}

function print(sums: ReadonlyMap<Target, Sum>): void {
  const row = (cells: readonly (string | number)[]) =>
    cells.map((cell, i) => (i === 0 ? String(cell).padEnd(16) : String(cell).padStart(12))).join('');
  const lines = [...sums].map(([{ name }, sum]) =>
    row([name, sum.inputs, sum.taken, sum.findings, sum.worst_s.toFixed(3), Math.round(sum.peak_mb)]),
  );
  const all = [...sums.values()];
  const total = row([
    'all',
    all.reduce((n, { inputs }) => n + inputs, 0),
    all.reduce((n, { taken }) => n + taken, 0),
    all.reduce((n, { findings }) => n + findings, 0),
    Math.max(...all.map(({ worst_s }) => worst_s)).toFixed(3),
    Math.round(Math.max(...all.map(({ peak_mb }) => peak_mb))),
  ]);
  process.stdout.write(
    `${[row(['target', 'inputs', 'taken', 'findings', 'worst, s', 'peak, MB']), ...lines, total].join('\n')}\n`,
  );
}
