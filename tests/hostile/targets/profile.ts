/** A ranger's profile beside the scenario that names it. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadScenario } from '../../../src/cli/scenario-file.js';
import { SMALL } from '../material.js';
import type { Target } from '../target.js';

const WITH_PROFILE = SMALL.replace('ear: { kind: ultrasonic-ranger }', 'ear: { profile: mine.yaml }');
const PROFILES = [
  'kind: ultrasonic-ranger\nnoise_m: 0.004\ndropout_share: 0.01\n',
  'kind: time-of-flight-ranger\nnoise_m: 0.01\n',
  'kind: triangulation-ranger\nadc_bits: 10\n',
];

export const profile: Target = {
  name: 'profile',
  file: 'mine.yaml',
  form: 'yaml',
  placed: true,
  share: 1,
  seeds: () => PROFILES.map((text) => Buffer.from(text)),
  take({ folder }) {
    writeFileSync(join(folder, 'scenario.yaml'), WITH_PROFILE);
    loadScenario(join(folder, 'scenario.yaml'));
  },
};
