/** The second entry of the library, `jambeam/report`: a report as text. Apart from the first, for it brings the charts' library along. */
import { serialiseDesign } from '../scenario/design-json.js';
import type { Heading } from '../scenario/heading.js';
import type { Design } from '../scenario/schema.js';
import type { Outcome } from '../simulate/outcome.js';
import { allFigures } from '../simulate/sources.js';
import { VERSION } from '../simulate/version.js';
import type { PageScripts } from './alive/page-scripts.js';
import { renderReport } from './report.js';
import { sha256 } from './sha256.js';

export type { Heading } from '../scenario/heading.js';
export type { PageScripts } from './alive/page-scripts.js';

/** What may be left out. */
export interface ReportOptions {
  /** Title and author of this page alone; else those of the design. */
  readonly heading?: Heading | undefined;
  /** What brings the page to life in a browser; without, it is the page that `--static` asks for. */
  readonly scripts?: PageScripts | undefined;
}

/**
 * The report of a run as one HTML text that needs nothing else; the same input gives the same text. Takes about a second.
 *
 * @param design what was simulated; one whose logics or ledgers learn as `calibrated` gives it
 * @param outcome what `simulate` gave for it
 * @example writeFileSync('report.html', await reportOf(design, simulate(design)));
 */
export async function reportOf(design: Design, outcome: Outcome, options: ReportOptions = {}): Promise<string> {
  const { heading, scripts } = options;
  return renderReport({
    design,
    ...outcome,
    sources: allFigures(),
    version: VERSION,
    scripts,
    ...(heading && { heading }),
    design_sha256: sha256(serialiseDesign(design)),
  });
}
