/** The scenario as text that runs again, and the command that runs it. */
import { Document, Scalar, visit } from 'yaml';
import { CONTROLS, ISOLATES, TURNING } from '../engine/printable.js';
import type { Design } from '../scenario/schema.js';
import { shellWord } from './shell-word.js';

// Characters that a page shows as U+FFFD; in YAML they are written as escapes, so that nothing is lost.
const HIDDEN = new RegExp(String.raw`[${CONTROLS}${TURNING}${ISOLATES}\ufffe\uffff]`);

/** The resolved scenario as YAML. Logic tables are files of their own and not in it; what logics and ledgers have learnt is learnt again. */
export function scenarioText(design: Design): string {
  const { tables: _tables, calibration: _calibration, learnt: _learnt, ...scenario } = design;
  const document = new Document(scenario, { aliasDuplicateObjects: false });
  visit(document, {
    Scalar(_key, node) {
      if (typeof node.value === 'string' && HIDDEN.test(node.value)) node.type = Scalar.QUOTE_DOUBLE;
    },
  });
  return document
    .toString({ lineWidth: 0 })
    .replace(new RegExp(HIDDEN, 'g'), (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`);
}

/**
 * The command that runs a report's file again, `report.html` unless it was renamed. Seed and extent are in the scenario it
 * carries. Code of the user's own is in none: it has to be named.
 */
export function reproduceCommand(design: Design): string {
  return ['jambeam run report.html', ...codeOptions(design)].join(' ');
}

/** The same for a report that was made from a log, which it doesn't carry. */
export function replayCommand(design: Design): string {
  return ['jambeam replay LOG.csv --scenario report.html --truth TRUTH.csv', ...codeOptions(design)].join(' ');
}

function codeOptions({ logics }: Design): string[] {
  return logics.flatMap((logic) => {
    if (logic.use === 'module') return [`--logic ${shellWord(logic.file)}`];
    return logic.use === 'process' ? [`--logic-process ${shellWord(logic.command)}`] : [];
  });
}

/**
 * The command for a scenario that was copied by hand. Seed and extent are in the scenario, so the command needs neither;
 * a seed with control characters can't be pasted, and the scenario holds it.
 */
export function copiedCommand(design: Design): string {
  return `jambeam run scenario.yaml --seed ${shellWord(String(design.seed))} --replicates ${design.replicates} --hours ${design.hours}`;
}
