/**
 * The report of several runs: one HTML text that needs nothing else, made from the runs' designs, metrics and figures.
 * Holds no time of day, no path and no name of a machine.
 */
import { contents } from '../contents.js';
import { html } from '../html.js';
import { page } from '../page.js';
import { plain } from '../words.js';
import { type CompareRun, labelWords } from './runs.js';
import {
  compareCautionsSection,
  compareLimitsSection,
  compareMethodSection,
  compareReproduceSection,
  compareWordsSection,
} from './sections/closing.js';
import { differencesSection } from './sections/differences.js';
import { differsSection } from './sections/differs.js';
import { driftsSection } from './sections/drifts.js';
import { compareEffortSection } from './sections/effort.js';
import { type CompareOptions, compareBlock, compareFirst } from './sections/opening.js';
import { compareWhomSection, compareWhySection } from './sections/whom.js';
import { COMPARE_STYLE } from './style.js';

/** How the title of such a page ends: what a page of ours is known by. */
export const COMPARE_TITLE = ': comparison of runs</title>';

/**
 * The report as HTML text; same runs, same text on the same engine.
 *
 * @param runs at least two, with labels of their own; the first is what the others are compared with
 * @throws {RangeError} for fewer than two runs, or labels that are not unique
 */
export async function renderCompareReport(runs: readonly CompareRun[], options: CompareOptions): Promise<string> {
  if (runs.length < 2) throw new RangeError('a comparison needs at least two runs');
  if (new Set(runs.map(({ label }) => label)).size < runs.length) throw new RangeError('labels of runs must be unique');
  const title = options.title ?? runs.map(({ label }) => label).join(' against ');
  const sections = [
    differsSection(runs, compareBlock(runs, options)),
    await differencesSection(runs),
    compareWhomSection(runs),
    compareWhySection(runs),
    await driftsSection(runs),
    compareEffortSection(runs),
    compareCautionsSection(runs),
    compareLimitsSection(runs),
    compareMethodSection(),
    compareReproduceSection(runs),
    compareWordsSection(),
  ].filter((section) => section !== null);
  return page(
    `${plain(title)}: comparison of runs`,
    html`<main>
${compareFirst(runs, options)}
${contents(sections)}
${sections.map((section) => html`${section}\n`)}</main>`,
    {
      style: COMPARE_STYLE,
      footer: html`${runs.map((run, i) => html`${i > 0 && ' · '}${labelWords(run)}`)} · jambeam ${options.version}`,
      scripts: options.scripts,
    },
  );
}
