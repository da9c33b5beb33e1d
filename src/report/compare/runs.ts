/** Runs that are compared: which of them met the same crowds, what all of them have. */
import type { Design } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { Metrics } from '../../score/metrics-schema.js';
import type { ReplicateSample } from '../../score/replicate-sample.js';
import { crowdKey } from '../../simulate/plan.js';
import { named } from '../words.js';

export interface CompareRun {
  /** What the user calls it; unique among the runs. */
  readonly label: string;
  readonly design: Design;
  readonly metrics: Metrics;
  readonly figures: Figures;
}

/** '“low”'. */
export const labelWords = ({ label }: Pick<CompareRun, 'label'>): string => `\u201c${named(label)}\u201d`;

/** The ledger of the headline: the first one. */
export const headlineLedger = ({ ledgers }: Design): string => ledgers[0]?.name ?? '';

/** What each replicate found; null where the run did not keep it. */
export const samplesOf = ({ figures }: CompareRun): readonly ReplicateSample[] | null => figures.replicates ?? null;

/** Why two runs can't be compared crowd by crowd. */
export type Apart = 'old' | 'log' | 'version' | 'seed' | 'hours' | 'crowd';

/** Null: they met the same people at the same moments, and may be compared replicate by replicate. */
export function apart(a: CompareRun, b: CompareRun): Apart | null {
  if (samplesOf(a) === null || samplesOf(b) === null) return 'old';
  if (a.figures.replayed || b.figures.replayed) return 'log';
  // Another version may draw another crowd from the same seed.
  if (a.metrics.jambeam !== b.metrics.jambeam) return 'version';
  if (String(a.design.seed) !== String(b.design.seed)) return 'seed';
  if (a.metrics.hours !== b.metrics.hours) return 'hours';
  return crowdKey(a.design) === crowdKey(b.design) && sameCrossings(a, b) ? null : 'crowd';
}

/** Whether as many went through each door in each replicate, as they must where crowds are the same. */
function sameCrossings(a: CompareRun, b: CompareRun): boolean {
  const [first, second] = [samplesOf(a)!, samplesOf(b)!];
  return first
    .slice(0, second.length)
    .every((sample, r) => sample.doors.every((logics, d) => logics[0]?.[0] === second[r]!.doors[d]?.[0]?.[0]));
}

/** Why their crowds are not the same, in words. */
export const APART_WORDS: Readonly<Record<Apart, string>> = {
  old: 'a run made before replicates were kept holds too little for a difference with an interval: run it again',
  log: 'a log was counted, so the crowd is that of the log',
  version: 'they were made by different versions of jambeam, which may draw different people from the same seed',
  seed: 'they have different seeds',
  hours: 'their clocks are not equally long',
  crowd: 'who comes, where or when is not the same in both designs',
};

/** Names of the first run, in its order, that all runs have. */
export function inAll(runs: readonly CompareRun[], of: (run: CompareRun) => readonly string[]): string[] {
  const [first, ...others] = runs.map(of);
  return (first ?? []).filter((name) => others.every((names) => names.includes(name)));
}

export const doorNames = ({ design }: CompareRun): string[] => design.doors.map(({ name }) => name);
export const roomNames = ({ design }: CompareRun): string[] => design.rooms.map(({ name }) => name);
