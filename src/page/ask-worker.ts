/**
 * The simulator in a web worker: the report's own scenario with what the reader changed, the first replicates of the
 * same crowds. It goes through the same parser and the same pipeline as `jambeam run`, so the same numbers come out.
 */
import * as z from 'zod';
import { explain } from '../scenario/explain.js';
import type { Issue } from '../scenario/issue.js';
import { parseScenario } from '../scenario/parse.js';
import type { Design } from '../scenario/schema.js';
import { sumCases, wrongOf } from '../score/door-counts.js';
import { ratioEstimate } from '../score/estimates.js';
import { doorSampleCounts } from '../score/replicate-sample.js';
import type { Estimate } from '../score/metrics-schema.js';
import { calibrated } from '../simulate/calibration.js';
import { type ReplicateResult, runReplicate } from '../simulate/replicate.js';
import { assemble } from '../simulate/simulate.js';
import type { Answer, Question } from './ask-messages.js';

// The page's policy forbids making functions of texts, which zod would try.
z.config({ jitless: true });

let latest: Question | null = null;

onmessage = async ({ data }: MessageEvent<Question>): Promise<void> => {
  latest = data;
  try {
    for (const answer of answers(data)) {
      postMessage(answer);
      // Lets a newer question in, which makes an end of this one: a worker that goes on is quicker than a new one.
      await new Promise((resolve) => setTimeout(resolve));
      if (latest !== data) return;
    }
  } catch (error) {
    postMessage({ kind: 'refused', number: data.number, reasons: [(error as Error).message] } satisfies Answer);
  }
};

/** Where in the scenario is no matter of who moved a slider; two beams of one door have one fault. */
function inWords(issue: Issue): string {
  const { text, hint } = explain(issue);
  return hint === undefined ? text : `${text} (${hint})`;
}

/** An answer after each replicate; the first has no interval yet. */
function* answers(question: Question): Generator<Answer> {
  const { design, issues } = parseScenario(question.scenario, 'scenario', {
    sets: question.sets,
    logics: [{ option: '--logic', logic: question.logic }],
    readFile: (file) => question.tables[file] ?? { error: 'it is not in this page' },
  });
  if (design === null) {
    yield {
      kind: 'refused',
      number: question.number,
      reasons: [...new Set(issues.map(inWords))],
    };
    return;
  }
  const asked = calibrated(onlyCounting(design));
  const results: ReplicateResult[] = [];
  for (let number = 1; number <= question.replicates; number++) {
    results.push(runReplicate(asked, number, {}));
    yield answerOf(asked, results, question);
  }
}

/** Doors are asked about: the rooms' ledgers would only take time. */
const onlyCounting = (design: Design): Design => ({
  ...design,
  ledgers: [{ name: 'raw', use: 'raw' }] as unknown as Design['ledgers'],
  targets: [],
});

function answerOf(design: Design, results: readonly ReplicateResult[], { number, door, reported }: Question): Answer {
  const { metrics } = assemble({ ...design, replicates: results.length }, results, { closer: false });
  const per100 = (events: readonly number[], crossings: readonly number[], signed = false): Estimate =>
    ratioEstimate(events, crossings, { scale: 100, nothing: 'no crossings', signed });
  const compared = (doors: readonly number[]): { reported: Estimate; change: Estimate } | null => {
    if (reported === null) return null;
    const mine = results.map(({ record }) => sumCases(doors.map((d) => record.doors[d]!.logics[0]!.total)));
    const before = results.map((_, r) => doorSampleCounts(doors.map((d) => reported[r]![d]!)));
    const crossings = before.map((one) => one.crossings);
    return {
      reported: per100(
        before.map(({ wrong }) => wrong),
        crossings,
      ),
      change: per100(
        mine.map((one, r) => wrongOf(one) - before[r]!.wrong),
        crossings,
        true,
      ),
    };
  };
  const all = design.doors.map((_, d) => d);
  return {
    kind: 'found',
    number,
    replicates: results.length,
    door: { found: metrics.doors[door]!.wrong_per_100, ...compared([door]) },
    house: { found: metrics.house.wrong_per_100, ...compared(all) },
  };
}
