/** What a study came to, in a few lines for the terminal. */
import { combinationWords } from '../../study/plan/factor.js';
import type { StudyDesign, StudySummary } from '../../study/summary-schema.js';
import { formatEstimate } from '../words.js';

const MOST_ROWS = 5;

export function studySummaryText(summary: StudySummary, report: string): string {
  const { designs, ranking, rank_by } = summary;
  const counted = designs.reduce((sum, { replicates }) => sum + replicates, 0);
  const failed = designs.filter(({ state }) => state === 'failed');
  const perhaps = ranking.rows.filter(({ perhaps_best }) => perhaps_best).length;
  const lines = [
    `${summary.name}: ${designs.length} designs, ${counted} replicates`,
    '',
    `${rank_by.metric}, ${rank_by.unit}, ${rank_by.best} first (95 % interval each):`,
    ...ranking.rows.slice(0, MOST_ROWS).map(({ design }) => `  ${rowOf(designs[design - 1]!, summary)}`),
    ...(ranking.rows.length > MOST_ROWS ? [`  … and ${ranking.rows.length - MOST_ROWS} more`] : []),
    '',
    perhaps === 1
      ? 'One design is the best with 95 % confidence.'
      : `${perhaps} designs can't be told from the best with 95 % confidence.`,
    ...failed.slice(0, MOST_ROWS).map(({ number, error }) => `Design ${number} failed: ${error}`),
    ...(failed.length > MOST_ROWS ? [`and ${failed.length - MOST_ROWS} more failed`] : []),
    '',
    `The report: ${report} (open it in a browser)`,
    '',
  ];
  return lines.join('\n');
}

function rowOf(design: StudyDesign, { factors, rank_by }: StudySummary): string {
  const estimate = design.metrics[rank_by.metric];
  return `${estimate ? formatEstimate(estimate) : 'nothing'}  ${combinationWords(factors, design.levels)}  (design ${design.number})`;
}
