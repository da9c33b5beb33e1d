/** What timeouts alone do after the last change: how late the last tally can come, and whether they ever end. */
import type { Direction } from '../logic.js';
import { microseconds } from '../steps.js';
import { type AfterRule, type TableState, afterRule } from './table.js';
import type { Outcome, Walks } from './walks.js';

export interface Silence {
  /** Longest time from the last change to the last tally, microseconds. */
  readonly latency_us: number;
  /** A timeout that tallies for ever while nobody moves; null in a good table. */
  readonly endless: { readonly rule: AfterRule; readonly state: TableState; readonly mask: number } | null;
}

export function longestSilence(walks: Walks): Silence {
  let latency_us = 0;
  for (const [start, possible] of walks.while.entries()) {
    for (let mask = 0; mask < walks.masks; mask++) {
      if (!possible[mask]) continue;
      const end = followTimeouts(walks, start, mask);
      if (end.endless) return { latency_us, endless: end.endless };
      latency_us = Math.max(latency_us, end.latency_us);
    }
  }
  return { latency_us, endless: null };
}

/** With levels unchanged each state has one successor: the chain ends, or runs into a ring. */
function followTimeouts(walks: Walks, start: number, mask: number): Silence {
  const { states } = walks.table;
  const tallied = new Map<number, number>();
  let elapsed_us = 0;
  let latency_us = 0;
  let tallies = 0;
  for (let at = start; !tallied.has(at); ) {
    const state = states[at] as TableState;
    const rule = afterRule(state);
    const outcome: Outcome | undefined = walks.onTimeout[at]?.[mask];
    if (!rule || !outcome) return { latency_us, endless: null };
    tallied.set(at, tallies);
    elapsed_us += microseconds(rule.after_ms);
    const now = talliesOf(outcome).length;
    if (now > 0) latency_us = elapsed_us;
    tallies += now;
    if (tallies > (tallied.get(outcome.to) ?? tallies)) return { latency_us, endless: { rule, state, mask } };
    at = outcome.to;
  }
  return { latency_us, endless: null };
}

/** Tallies an outcome makes, in order. */
export function talliesOf(outcome: Outcome): readonly Direction[] {
  return outcome.rules.flatMap((rule) => (rule.kind === 'stay' ? [] : rule.tallies));
}
