/** Readings at a bench, fitted. */
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { readText } from '../../../src/cli/files.js';
import { rowsProblem } from '../../../src/cli/issues-problem.js';
import { dataIssues } from '../../../src/fitting/checks.js';
import { fitBench } from '../../../src/fitting/fit.js';
import { profileOf } from '../../../src/fitting/profile.js';
import { readBench } from '../../../src/fitting/readings.js';
import type { Target } from '../target.js';

/** Invented: a ranger that reads two millimetres too far, give or take three. */
const BENCH = [200, 400, 700, 1000, 1500].flatMap((mm) =>
  [-3, -1, 0, 1, 3, 2, -2].map((off) => `${mm / 1000},${mm + 2 + off}`),
);
const VOLTS = [0.2, 0.3, 0.5, 0.8, 1.2].flatMap((m) =>
  [-0.01, 0, 0.01, 0.005, -0.005, 0.002].map((off) => `${m * 100};${(0.3 / m + off).toFixed(3)}`),
);
const SETTINGS = { adc_bits: 10, adc_reference_v: 5, temperature_c: undefined };

export const readings: Target = {
  name: 'readings',
  file: 'readings.csv',
  form: null,
  placed: true,
  share: 1,
  seeds: () =>
    [`true_m,reading_mm\n${BENCH.join('\n')}\n`, `true_cm;volts\n${VOLTS.join('\n')}\n`].map((text) =>
      Buffer.from(text),
    ),
  take({ folder, path }) {
    rmSync(join(folder, 'out.yaml'), { force: true });
    const { bench, issues } = readBench(readText(path, 'readings in CSV', 8 * 1_048_576), path);
    if (bench === null) throw rowsProblem(path, issues);
    const kind = bench.reads === 'volts' ? 'triangulation-ranger' : 'ultrasonic-ranger';
    const settings = { ...SETTINGS, kind } as const;
    const wrong = dataIssues(bench, settings);
    if (wrong.length > 0) throw rowsProblem(path, wrong);
    const fit = fitBench(bench, settings);
    return fit && profileOf(fit, settings, false);
  },
};
