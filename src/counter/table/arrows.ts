/** A table as states and arrows, for diagrams: what is drawn as an arrow and what is written into a state's box. */
import type { Direction } from '../logic.js';
import { type Patterns, type Table, type TableRule } from './table.js';

/** One line at an arrow. */
export interface ArrowLabel {
  /** `10`, `00, 10`, `other`, `after 10 s`. */
  readonly when: string;
  readonly tallies: readonly Direction[];
}

/** All rules that lead from one state to another. */
export interface Arrow {
  readonly from: number;
  readonly to: number;
  readonly labels: readonly ArrowLabel[];
}

export function arrowsOf(table: Table): Arrow[] {
  const index = new Map(table.states.map((state, i) => [state.name, i]));
  const arrows = new Map<string, { from: number; to: number; labels: ArrowLabel[] }>();
  for (const [from, state] of table.states.entries()) {
    for (const rule of state.rules) {
      if (rule.kind === 'stay') continue;
      const to = index.get(rule.go) ?? 0;
      const key = `${from} ${to}`;
      const arrow = arrows.get(key) ?? { from, to, labels: [] };
      arrow.labels.push({ when: whenOf(rule), tallies: rule.tallies });
      arrows.set(key, arrow);
    }
  }
  return [...arrows.values()];
}

/** What sets a rule off, in words. */
export function whenOf(rule: TableRule): string {
  return rule.kind === 'after' ? `after ${duration(rule.after_ms)}` : patternsAsText(rule.patterns);
}

function patternsAsText(patterns: Patterns): string {
  return patterns === 'other' ? 'other' : patterns.join(', ');
}

function duration(ms: number): string {
  return ms >= 1000 ? `${ms / 1000} s` : `${ms} ms`;
}

/**
 * The state half of the others or more lead to (usually "lost", "wait"): arrows to it would bury the rest of the picture,
 * so they are written into the boxes instead. Null if there is none.
 */
export function refugeOf(table: Table, arrows: readonly Arrow[]): number | null {
  const start = table.states.findIndex((state) => state.name === table.start);
  const into = (state: number): number => arrows.filter(({ from, to }) => to === state && from !== state).length;
  let refuge = -1;
  for (const state of table.states.keys()) {
    if (state !== start && (refuge < 0 || into(state) > into(refuge))) refuge = state;
  }
  const others = table.states.length - 1;
  return refuge >= 0 && into(refuge) >= 3 && 2 * into(refuge) >= others ? refuge : null;
}
