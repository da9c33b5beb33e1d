/** Loads a module of the user's own, TypeScript or JavaScript, as it stands: there is no build step. */
import { createJiti } from 'jiti';
import type { ModuleCode } from './code.js';
import { CodeProblem, shownText } from './code-problem.js';
import { type Definition, definitionIn } from './definition.js';
import { CALLS, type Heart } from './heart.js';
import { moduleProblem } from './module-error.js';

const OURSELVES = new URL('../index.js', import.meta.url).href;

/**
 * @param index of the code in its job
 * @throws {CodeProblem} when it can't be loaded or exports no logic
 */
export async function loadModule(code: ModuleCode, index: number, heart: Heart): Promise<Definition> {
  // Where something is thrown must be told in lines of the user's file, not of what the loader made of it.
  process.setSourceMapsEnabled(true);
  const jiti = createJiti(import.meta.url, {
    fsCache: false,
    moduleCache: false,
    sourceMaps: true,
    interopDefault: false,
    // The package needn't be installed beside the file.
    virtualModules: { jambeam: (await import(OURSELVES)) as unknown },
  });
  let exported: unknown;
  heart.enter(CALLS.indexOf('loading'), index, -1, Number.NaN);
  try {
    exported = await jiti.import(code.path);
  } catch (error) {
    throw moduleProblem(error, code, 'while it was loaded');
  } finally {
    heart.leave();
  }
  const definition = definitionIn(exported as Record<string, unknown>);
  if ('fault' in definition) throw new CodeProblem(`${shownText(code.shown)}: ${definition.fault}`, definition.hint);
  return definition;
}
