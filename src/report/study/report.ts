/**
 * The report of a study: one HTML text that needs nothing else, made from study.json alone. Holds no time of day, no
 * path and no name of a machine, nor of a person but who is said to have prepared it.
 */
import type { StudySummary } from '../../study/summary-schema.js';
import type { PageScripts } from '../alive/page-scripts.js';
import { contents } from '../contents.js';
import { headingWords } from '../heading-words.js';
import { html } from '../html.js';
import { page } from '../page.js';
import { named } from '../words.js';
import {
  methodSection,
  studyCautionsSection,
  studyLimitsSection,
  studyReproduceSection,
  studyWordsSection,
} from './sections/closing.js';
import { bodiesSection, curvesSection, weightiestPicture } from './sections/curves.js';
import { effectsSection } from './sections/effects.js';
import { frontSection } from './sections/front.js';
import { heatSection } from './sections/heat.js';
import { studyFirst, triedSection } from './sections/opening.js';
import { rankingSection } from './sections/ranking.js';
import { STUDY_STYLE } from './style.js';
import { StudyView } from './view.js';

export interface StudyReportOptions {
  /** What brings charts to life; without, the page holds no script. */
  readonly scripts?: PageScripts | undefined;
}

/** The report as HTML text; same summary, same text on the same engine. */
export async function renderStudyReport(summary: StudySummary, { scripts }: StudyReportOptions = {}): Promise<string> {
  const view = new StudyView(summary);
  const sections = [
    triedSection(view),
    await curvesSection(view),
    await bodiesSection(view),
    heatSection(view),
    await frontSection(view),
    rankingSection(view),
    await effectsSection(view),
    studyLimitsSection(view),
    methodSection(),
    studyCautionsSection(),
    studyReproduceSection(view),
    studyWordsSection(),
  ].filter((section) => section !== null);
  return page(
    `${summary.title ?? summary.name}: report of a study`,
    html`<main>
${studyFirst(view, await weightiestPicture(view))}
${contents(sections)}
${sections.map((section) => html`${section}\n`)}</main>`,
    {
      style: STUDY_STYLE,
      footer: html`${headingWords(summary)}${named(summary.name)} · ${named(summary.scenario)} · seed ${named(summary.seed)} · jambeam ${summary.jambeam}`,
      scripts,
    },
  );
}
