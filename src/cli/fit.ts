/** `jambeam fit`: readings at true distances made into a profile of a ranger; `--logger`: what is needed to take them. */
import { extname, resolve } from 'node:path';
import { printable } from '../engine/printable.js';
import { type BenchOptions, FIT_KINDS, type FitKind } from '../fitting/bench.js';
import { dataIssues } from '../fitting/checks.js';
import { type Fit, fitBench } from '../fitting/fit.js';
import { type Profile, profileOf } from '../fitting/profile.js';
import { readBench } from '../fitting/readings.js';
import { told } from '../fitting/told.js';
import { benchChart } from '../report/charts/bench.js';
import { formatIssue } from '../scenario/explain.js';
import type { Issue } from '../scenario/issue.js';
import { triangulationSchema } from '../sensors/triangulation/schema.js';
import { readText, replaceFiles } from './files.js';
import { type LoggerOptions, writeLogger } from './fit-logger.js';
import { fitText } from './fit-words.js';
import type { Io } from './io.js';
import { issuesProblem, rowsProblem } from './issues-problem.js';
import { kindForFile } from './new-places.js';
import { UserProblem, pathText } from './problem.js';
import { typedNumber } from './typed-number.js';

/** Options as typed. */
export interface FitOptions extends LoggerOptions {
  readonly adcBits?: string;
  readonly adcReferenceV?: string;
  readonly temperatureC?: string;
  readonly logger?: string;
}

const MOST_BYTES = 8 * 1_048_576;

/** @throws {UserProblem} with all that is wrong: options first, then readings */
export async function fitCommand(file: string | undefined, options: FitOptions, io: Io): Promise<void> {
  if (options.logger !== undefined) return writeLogger(options.logger, file, options, io);
  const { bench: settings, out, chart, readings } = settled(file, options);
  const text = readText(readings, 'readings in CSV', MOST_BYTES);
  const { bench, issues } = readBench(text, readings);
  const wrong = bench === null ? issues : dataIssues(bench, settings);
  if (bench === null || wrong.length > 0) throw rowsProblem(readings, wrong);

  const fit = fitBench(bench, settings);
  const place = told(readings);
  if (fit === null) {
    const hint = 'more distances, further apart, tell them apart';
    const said = `the curve's ${settings.kind === 'triangulation-ranger' ? 'three' : 'two'} parameters can't be told from these readings`;
    throw issuesProblem(readings, [place(bench.header.line, bench.header.reads, said, hint)]);
  }
  const profile = profileOf(fit, settings, bench.reads === 'adc_counts');
  const impossible = profile.issues.map(({ key, value, expected }) => {
    const hint =
      'are the units of both columns right, and is --kind? A sensor with this value is none that can be simulated';
    const message = `${key} came out as ${String(value)}, expected ${expected}`;
    return place(bench.header.line, bench.header.reads, message, hint);
  });
  if (impossible.length > 0) throw issuesProblem(readings, impossible);
  await write(fit, profile, { out, chart }, io);
}

async function write(
  fit: Fit,
  profile: Profile,
  files: { readonly out: string; readonly chart: string },
  io: Io,
): Promise<void> {
  const { out, chart } = files;
  replaceFiles([
    [chart, await benchChart(fit)],
    [out, profile.text],
  ]);
  const [profileName, chartName] = [pathText(out), pathText(chart)];
  io.out(
    `${fitText(fit, io.paint)}\nWrote ${io.paint.bold(profileName)}\nand   ${io.paint.bold(chartName)}: readings, curve, and what is left of them\n`,
  );
}

/** Options made into numbers and paths that can be written to. */
function settled(file: string | undefined, options: FitOptions) {
  const problems: string[] = [];
  const say = (path: string, problem: Issue['problem']) => problems.push(formatIssue({ place: null, path, problem }));
  const number = (option: string, typed: string | undefined, min: number, max: number, unit: string, whole = false) => {
    if (typed === undefined) return undefined;
    const value = typedNumber(typed);
    if (!Number.isFinite(value) || (whole && !Number.isInteger(value)))
      say(option, {
        code: 'wrong_type',
        expected: whole ? 'whole number' : 'number',
        found: `"${printable(typed)}"`,
        unit,
      });
    else if (value < min || value > max) say(option, { code: 'out_of_range', min, max, unit, found: value });
    return value;
  };
  const { kind, out } = options;
  if (file === undefined || file === '')
    problems.push(
      'expected a file of readings, found none\n  hint: `jambeam fit --logger DIR` writes what is needed to take them',
    );
  if (kind === undefined) problems.push(`--kind is missing\n  hint: one of ${FIT_KINDS.join(', ')}`);
  else if (!(FIT_KINDS as readonly string[]).includes(kind))
    say('--kind', { code: 'not_one_of', choices: FIT_KINDS, found: `"${printable(kind)}"` });
  if (out === undefined || out === '')
    problems.push('--out is missing\n  hint: where the profile goes, for example --out my-ranger.yaml');
  else if (!/\.ya?ml$/i.test(out))
    problems.push(`--out: expected a name that ends in .yaml, found "${printable(out)}"`);
  const usual = triangulationSchema.parse({ kind: 'triangulation-ranger' });
  const bench: BenchOptions = {
    kind: kind as FitKind,
    adc_bits: number('--adc-bits', options.adcBits, 6, 24, 'bits', true) ?? usual.adc_bits,
    adc_reference_v: number('--adc-reference-v', options.adcReferenceV, 0.5, 12, 'V') ?? usual.adc_reference_v,
    temperature_c: number('--temperature-c', options.temperatureC, -20, 50, '°C'),
  };
  if (problems.length > 0) throw new UserProblem(problems.join('\n'));
  const readings = file!;
  const chart = options.chart ?? `${out!.slice(0, -extname(out!).length)}.svg`;
  for (const [name, path] of [
    ['--out', out!],
    ['--chart', chart],
  ] as const)
    refuse(name, path, readings, options.force === true);
  if (resolve(chart) === resolve(out!)) throw new UserProblem('--out and --chart name the same file');
  return { bench, out: out!, chart, readings };
}

function refuse(option: string, path: string, readings: string, force: boolean): void {
  const name = pathText(path);
  if (resolve(path) === resolve(readings)) throw new UserProblem(`${option}: ${name} is the file of readings`);
  if (kindForFile(option, path) === 'file' && !force)
    throw new UserProblem(
      `${option}: ${name} is there already, and it may be your work: nothing was written`,
      'name another, or write over it with --force',
    );
}
