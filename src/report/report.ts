/**
 * The report: one HTML text that needs nothing else. Made from the design, the metrics and the aggregates charts are
 * drawn from, never from raw events; holds no script, no time of day, no path and no name of a machine or a person.
 */
import { effortOf } from '../effort/effort.js';
import type { Figure } from '../engine/figure.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import { contents } from './contents.js';
import { html } from './html.js';
import { page } from './page.js';
import { cautionsSection, limitsSection, reproduceSection, wordsSection } from './sections/closing.js';
import { activitySection } from './sections/activity.js';
import { confusionSection } from './sections/confusion.js';
import { doorwaySection } from './sections/doorway.js';
import { effortSection } from './sections/effort.js';
import { logicsSection } from './sections/logics.js';
import { answerSection, firstScreen } from './sections/opening.js';
import { hoursSection } from './sections/hours.js';
import { picturesSection } from './sections/pictures.js';
import { driftSection } from './sections/overtime.js';
import { logSection } from './sections/log.js';
import { planSection } from './sections/plan.js';
import { roomsSection } from './sections/rooms.js';
import { sourcesSection } from './sections/sources.js';
import { weekSection } from './sections/week.js';
import { sharesSection, whomSection } from './sections/whom.js';
import { whySection } from './sections/why.js';
import { named } from './words.js';

export interface ReportInput {
  readonly design: Design;
  readonly metrics: Metrics;
  readonly figures: Figures;
  /** The built-in figures this run rests on. */
  readonly sources: readonly Figure[];
  readonly version: string;
}

/** The report as HTML text; same input, same text on the same engine. */
export async function renderReport(input: ReportInput): Promise<string> {
  const { design, metrics, figures, sources, version } = input;
  const effort = effortOf(design);
  const sections = [
    logSection(figures),
    answerSection(design, metrics, figures),
    doorwaySection(design, metrics, figures),
    planSection(design, effort),
    confusionSection(design, metrics),
    await driftSection(design, figures),
    await roomsSection(design, metrics, figures),
    await hoursSection(design, metrics, figures),
    await whomSection(design, metrics),
    weekSection(design, metrics),
    await whySection(design, metrics),
    picturesSection(design, figures),
    logicsSection(design, metrics),
    effortSection(design, effort),
    cautionsSection(design),
    sharesSection(design, metrics),
    activitySection(design, figures),
    sourcesSection(design, figures, sources),
    limitsSection(),
    reproduceSection(design, version),
    wordsSection(),
  ].filter((section) => section !== null);
  return page(
    `${metrics.scenario}: doorway report`,
    html`<main>
${firstScreen(design, metrics, figures)}
${contents(sections)}
${sections.map((section) => html`${section}\n`)}</main>
<footer><p>${named(metrics.scenario)} · seed ${named(metrics.seed)} · jambeam ${version}</p></footer>`,
  );
}
