/** The report of a study: one HTML text made from study.json alone. */
import type { StudySummary } from '../../study/summary-schema.js';
import { html } from '../html.js';
import { page } from '../page.js';

export async function renderStudyReport(summary: StudySummary): Promise<string> {
  return page(`${summary.name}: study`, html`<main><h1>${summary.name}</h1></main>`);
}
