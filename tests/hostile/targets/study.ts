/** A study's file, worked out into a plan. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadStudy } from '../../../src/cli/study/study-file.js';
import { SMALL, studyTexts } from '../material.js';
import type { Target } from '../target.js';

const OWN = `format: 1
name: heights
scenario: small.yaml
set: { ledgers: [floor], logics: [four-level] }
factors:
  - { name: height_m, key: doors.front.pair.height_m, values: [0.3, 0.9] }
  - { key: doors.front.pair.spacing_m, from: 0.05, to: 0.15, step: 0.05 }
where: ['height_m < 1']
replicates: 2
`;

export const study: Target = {
  name: 'study',
  file: 'study.yaml',
  form: 'yaml',
  placed: true,
  share: 1,
  seeds: () =>
    [OWN, ...studyTexts().map((text) => text.toString('utf8').replace(/^scenario:.*$/m, 'scenario: small.yaml'))].map(
      (text) => Buffer.from(text),
    ),
  take({ folder, path }) {
    writeFileSync(join(folder, 'small.yaml'), SMALL);
    loadStudy(path, {});
  },
};
