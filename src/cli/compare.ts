/** `jambeam report A.run B.run --out compare.html`: one page that compares finished runs. */
import { basename, extname, resolve } from 'node:path';
import { COMPARE_TITLE, renderCompareReport } from '../report/compare/report.js';
import type { CompareRun } from '../report/compare/runs.js';
import { compareSummaryText } from '../report/compare/summary-text.js';
import type { Heading } from '../scenario/heading.js';
import { VERSION } from '../simulate/version.js';
import { headOf, replaceFile } from './files.js';
import type { Io } from './io.js';
import { kindForFile } from './new-places.js';
import { pageScripts } from './page-scripts.js';
import { UserProblem, pathText } from './problem.js';
import { readRun } from './read-run.js';
import { isStudyFolder } from './study/is-study-folder.js';

export interface CompareCommandOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly heading?: Heading;
  readonly static?: boolean | undefined;
}

/** More are no table any more. */
const MOST_RUNS = 12;
const LONGEST_LABEL = 60;
/** The title stands before the style. */
const HEAD_BYTES = 8192;

export async function compareCommand(
  folders: readonly string[],
  { out, force = false, heading, static: isStatic }: CompareCommandOptions,
  io: Io,
): Promise<void> {
  if (folders.length > MOST_RUNS)
    throw new UserProblem(
      `expected at most ${MOST_RUNS} runs, found ${folders.length}`,
      'compare some of them at a time',
    );
  const file = placeOf(out, force);
  const study = folders.find(isStudyFolder);
  if (study !== undefined)
    throw new UserProblem(
      `${pathText(study)} is the folder of a study: only runs are compared with each other`,
      `a study compares its own designs: \`jambeam report ${pathText(study)}\``,
    );
  const labels = labelsOf(folders);
  const runs = folders.map((folder, i): CompareRun => ({ label: labels[i]!, ...readRun(folder) }));
  for (const [i, { metrics }] of runs.entries())
    if (metrics.jambeam !== VERSION)
      io.err(
        `note: ${pathText(folders[i]!)} was made by jambeam ${pathText(metrics.jambeam)}; words and prices are those of ${VERSION}\n`,
      );
  for (const [i, { figures }] of runs.entries())
    if (figures.replicates === undefined)
      io.err(
        `note: ${pathText(folders[i]!)} did not keep what each replicate found: no differences with intervals; run it again\n`,
      );
  replaceFile(file, await renderCompareReport(runs, { version: VERSION, ...heading, ...pageScripts(isStatic) }));
  io.out(`${compareSummaryText(runs)}Wrote ${io.paint.bold(pathText(file))}\n`);
}

/** Where the page goes, if it may. */
function placeOf(out: string | undefined, force: boolean): string {
  if (out === undefined || out === '')
    throw new UserProblem(
      'several runs are compared in a page of their own: --out is missing',
      'for example --out compare.html',
    );
  const name = pathText(out);
  if (!/^\.html?$/i.test(extname(out)))
    throw new UserProblem(`--out: expected a name that ends in .html, found ${name}`);
  if (kindForFile('--out', out) === 'file' && !force && !headOf(out, HEAD_BYTES).includes(COMPARE_TITLE))
    throw new UserProblem(
      `--out: ${name} is there already and is no comparison of jambeam: nothing was written`,
      'name another, or write over it with --force',
    );
  return out;
}

/** Names of the folders, without where they are and without `.run`; of those alike (a), (b), … */
export function labelsOf(folders: readonly string[]): string[] {
  const bare = folders.map(
    (folder) =>
      basename(resolve(folder))
        .replace(/(.)\.run$/, '$1')
        .slice(0, LONGEST_LABEL) || 'run',
  );
  const labels: string[] = [];
  bare.forEach((name, i) => {
    const alike = bare.filter((other) => other === name).length > 1;
    let letter = alike ? bare.slice(0, i).filter((other) => other === name).length : -1;
    const label = (): string => (letter < 0 ? name : `${name} (${String.fromCharCode(97 + letter)})`);
    // Somebody may have called a folder so already.
    while (labels.includes(label()) || (letter >= 0 && bare.includes(label()))) letter++;
    labels.push(label());
  });
  return labels;
}
