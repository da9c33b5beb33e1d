/** A run without what `simulate` looks at again afterwards (rare kinds, causes, pictures, other crowds): of a short run that takes most of the time. */
import type { Design } from '../../src/scenario/schema.js';
import { calibrated } from '../../src/simulate/calibration.js';
import type { Outcome, Sinks } from '../../src/simulate/outcome.js';
import { runReplicate } from '../../src/simulate/replicate.js';
import { assemble } from '../../src/simulate/simulate.js';

/** Counts and rates are those of `simulate`, which plain-run.test.ts checks; causes and rare kinds are left out. */
export function plainRun(given: Design, sinks: Sinks = {}): Outcome {
  const design = calibrated(given);
  const results = Array.from({ length: design.replicates }, (_, i) => runReplicate(design, i + 1, sinks));
  return assemble(design, results, { closer: false });
}
