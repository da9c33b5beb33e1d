/** The report of a run, taken as a scenario. */
import { loadScenario } from '../../../src/cli/scenario-file.js';
import { carriedScenario } from '../../../src/report/carried/block.js';
import { VERSION } from '../../../src/simulate/version.js';
import { small } from '../material.js';
import type { Target } from '../target.js';

export const page: Target = {
  name: 'page',
  file: 'report.html',
  form: null,
  placed: false,
  share: 1,
  seeds() {
    const block = carriedScenario(small(), VERSION).text;
    const html = `<!doctype html>\n<html lang="en"><head><title>A run - jambeam</title></head><body>${block}</body></html>\n`;
    return [Buffer.from(html)];
  },
  take: ({ path }) => loadScenario(path),
};
