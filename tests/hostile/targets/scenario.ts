/** A scenario, read as every command reads it; a valid one goes on into what it takes to install it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadScenario } from '../../../src/cli/scenario-file.js';
import { effortOf } from '../../../src/effort/effort.js';
import { serialiseDesign } from '../../../src/scenario/design-json.js';
import { SMALL, read, scenarioTexts } from '../material.js';
import type { Target } from '../target.js';

export const scenario: Target = {
  name: 'scenario',
  file: 'scenario.yaml',
  form: 'yaml',
  placed: true,
  share: 1,
  seeds: () => [Buffer.from(SMALL), Buffer.from(SMALL), ...scenarioTexts()],
  take({ folder, path }) {
    writeFileSync(join(folder, 'my-logic.yaml'), read('scenarios/my-logic.yaml'));
    const { design } = loadScenario(path);
    effortOf(design);
    serialiseDesign(design);
  },
};
