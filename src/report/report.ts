/**
 * The report: one HTML text that needs nothing else. Made from the design, the metrics and the aggregates charts are
 * drawn from, never from raw events; carries the scenario as data, so that the page alone runs again; holds no time of
 * day, no path and no name of a machine, nor of a person but who is said to have prepared it.
 */
import { effortOf } from '../effort/effort.js';
import { type Heading, headed } from '../scenario/heading.js';
import { askData } from './ask/ask-data.js';
import { askSection } from './ask/section.js';
import { carriedScenario } from './carried/block.js';
import { headingWords } from './heading-words.js';
import { contents } from './contents.js';
import { html } from './html.js';
import { page } from './page.js';
import type { ReportInput } from './report-input.js';
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

/** The report as HTML text; same input, same text on the same engine. */
export async function renderReport(input: ReportInput): Promise<string> {
  const { design, metrics, figures, sources, version, scripts } = input;
  // A log was not simulated: there is no crowd to walk again.
  const ask = scripts === undefined || figures.replayed ? null : askData(design, metrics, figures);
  const effort = effortOf(design);
  const heading = headed<Heading>(design, input.heading ?? {});
  const sections = [
    logSection(figures),
    answerSection(design, metrics, figures, heading),
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
    ask && askSection(ask),
    logicsSection(design, metrics),
    effortSection(design, effort),
    cautionsSection(design),
    sharesSection(design, metrics),
    activitySection(design, figures),
    sourcesSection(design, figures, sources),
    limitsSection(),
    reproduceSection(input),
    wordsSection(),
  ].filter((section) => section !== null);
  return page(
    `${heading.title ?? metrics.scenario}: doorway report`,
    html`<main>
${firstScreen(design, metrics, figures, heading)}
${contents(sections)}
${sections.map((section) => html`${section}\n`)}</main>
${carriedScenario(design, version)}`,
    {
      footer: html`${headingWords(heading)}${named(metrics.scenario)} · seed ${named(metrics.seed)} · jambeam ${version}`,
      scripts,
      ask,
    },
  );
}
