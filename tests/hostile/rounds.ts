/** Many mutants for one target, and the smallest one found that does harm. */
import fc from 'fast-check';
import { type Recipe, mutant, recipes } from './mutate.js';
import type { Target } from './target.js';
import { trial } from './trial.js';

export interface Round {
  readonly inputs: number;
  readonly taken: number;
  readonly worst_s: number;
  readonly finding: Finding | null;
}

export interface Finding {
  readonly bytes: Buffer;
  readonly recipe: Recipe;
  readonly error: unknown;
}

/**
 * @param inputs so many for the scenario; the target's share of them, at least five
 * @param seed the same one gives the same mutants
 * @param home a folder for files, the caller's to take away
 * @param limit_ms where looking for a smaller one ends
 */
export async function round(
  target: Target,
  inputs: number,
  seed: number,
  home: string,
  limit_ms?: number,
): Promise<Round> {
  const seeds = target.seeds();
  let [done, taken, worst_s] = [0, 0, 0];
  const property = fc.asyncProperty(recipes, async (recipe) => {
    done++;
    const { outcome, seconds } = await trial(target, mutant(seeds, recipe, target.form), home);
    if (outcome === 'taken') taken++;
    worst_s = Math.max(worst_s, seconds);
  });
  const result = await fc.check(property, {
    seed,
    numRuns: Math.max(5, Math.round(inputs * target.share)),
    ...(limit_ms && { interruptAfterTimeLimit: limit_ms }),
  });
  const recipe = result.counterexample?.[0];
  const bytes = recipe && mutant(seeds, recipe, target.form);
  const finding = recipe && bytes ? { bytes, recipe, error: result.errorInstance } : null;
  return { inputs: done, taken, worst_s, finding };
}
