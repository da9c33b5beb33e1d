/** Whether the answers stand when the house is half or twice as active as assumed. */
import type { Design } from '../scenario/schema.js';
import type { ActivityRun } from '../score/figures.js';
import type { Metrics, TargetOutcome } from '../score/metrics-schema.js';
import { judgeTarget, parseTargetPath } from '../score/targets.js';
import { OUTCOME_WORDS, metricWords } from './sections/targets.js';
import { formatEstimate, headlineLogic, joined, plural } from './words.js';

export interface Standing {
  readonly metric: string;
  readonly asked: TargetOutcome;
  readonly half: TargetOutcome;
  readonly double: TargetOutcome;
}

/** The targets that the activity runs can answer: of all doors, or of all rooms at once with the first ledger. */
export function standingOf(design: Design, metrics: Metrics, runs: readonly ActivityRun[]): Standing[] {
  const run = (what: ActivityRun['what']) => runs.find((one) => one.what === what);
  const [half, double] = [run('half'), run('double')];
  if (half === undefined || double === undefined) return [];
  return metrics.targets
    .filter(({ metric }) => answered(design, metric))
    .map((target) => ({
      metric: target.metric,
      asked: target.outcome,
      half: judgeTarget(under(metrics, half), target).outcome,
      double: judgeTarget(under(metrics, double), target).outcome,
    }));
}

function answered(design: Design, path: string): boolean {
  const parsed = parseTargetPath(path);
  if (parsed?.of !== 'house') return false;
  const first = (name: string | undefined, own: string | undefined): boolean => name === undefined || name === own;
  return (
    ['wrong_per_100', 'exact_share', 'first_wrong_h'].includes(parsed.metric) &&
    first(parsed.logic, headlineLogic(design)) &&
    first(parsed.ledger, design.ledgers[0]?.name)
  );
}

/** The metrics as they would be with that activity, as far as it was looked at. */
function under(metrics: Metrics, { wrong_per_100, exact_share, first_wrong_h, replicates }: ActivityRun): Metrics {
  const [first, ...others] = metrics.houses;
  const changed = { ...(exact_share && { exact_share }), ...(first_wrong_h && { first_wrong_h }) };
  return {
    ...metrics,
    replicates,
    house: { ...metrics.house, wrong_per_100 },
    houses: first === undefined ? [] : [{ ...first, ...changed }, ...others],
  };
}

export function activitySentence(design: Design, metrics: Metrics, runs: readonly ActivityRun[]): string | null {
  const [half, double] = [runs.find(({ what }) => what === 'half'), runs.find(({ what }) => what === 'double')];
  if (half === undefined || double === undefined) return null;
  const assumed = runs.find(({ what }) => what === 'as assumed');
  const opening = `How much ${design.household ? 'people walk about' : 'traffic there is'} was assumed. At half and at double of that, over ${plural(half.replicates, 'replicate')} each,`;
  const standing = standingOf(design, metrics, runs);
  if (standing.length === 0)
    return `${opening} wrong per 100 crossings is ${formatEstimate(half.wrong_per_100)} and ${formatEstimate(double.wrong_per_100)}${assumed === undefined ? '' : `; as assumed it is ${formatEstimate(assumed.wrong_per_100)}`}.`;
  const say = (s: Standing): string => {
    const name = `\u201c${metricWords(s.metric)}\u201d`;
    if (s.half === s.asked && s.double === s.asked) return `${name} stays ${OUTCOME_WORDS[s.asked]}`;
    return `${name} is ${OUTCOME_WORDS[s.half]} and ${OUTCOME_WORDS[s.double]}, where this run says ${OUTCOME_WORDS[s.asked]}`;
  };
  return `${opening} ${joined(standing.map(say))}.`;
}
