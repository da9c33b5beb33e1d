/** What a report is made from. */
import type { Figure } from '../engine/figure.js';
import type { Heading } from '../scenario/heading.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import type { Metrics } from '../score/metrics-schema.js';
import type { PageScripts } from './alive/page-scripts.js';

export interface ReportInput {
  readonly design: Design;
  readonly metrics: Metrics;
  readonly figures: Figures;
  /** The built-in figures this run rests on. */
  readonly sources: readonly Figure[];
  readonly version: string;
  /** What brings the page to life; without, it holds no script. The scenario that it carries is data, and stays. */
  readonly scripts?: PageScripts | undefined;
  /** In place of what the design says, for this page alone. */
  readonly heading?: Heading;
  /** SHA-256 of the text of design.json. */
  readonly design_sha256: string;
}
