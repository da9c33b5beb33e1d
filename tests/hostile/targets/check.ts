/** A scenario taken through all of `check`: facts of each door, the ladder of heights, and the words for them. */
import { findingsOf } from '../../../src/cli/check-findings.js';
import { checkText } from '../../../src/cli/check.js';
import { loadScenario } from '../../../src/cli/scenario-file.js';
import { SMALL } from '../material.js';
import type { Target } from '../target.js';

const plain = { bold: String, cyan: String, green: String, yellow: String, red: String, dim: String } as never;

/** The first door alone is looked at in a fifth of the time. */
const BARRIERS = SMALL.slice(0, SMALL.indexOf('  - name: stairs')).replace(', { name: attic }', '');

export const check: Target = {
  name: 'check',
  file: 'scenario.yaml',
  form: 'yaml',
  placed: true,
  share: 0.03,
  seeds: () => [BARRIERS, BARRIERS, SMALL].map((text) => Buffer.from(text)),
  take({ path }) {
    const { design, cautions } = loadScenario(path);
    return checkText(design, cautions, findingsOf(design), { file: path, paint: plain });
  },
};
