/**
 * Everything that can happen to a table: pairs of a state and the levels as they are, reached from the start with all
 * beams clear by any change of any beams, and by timeouts. What follows is decided here once, for the checks, the
 * machine and the diagrams alike.
 */
import { type AfterRule, type LevelRule, type Table, afterRule, rulesByMask } from './table.js';

/** What a change of levels or a timeout does; states by index. */
export interface Outcome {
  readonly to: number;
  /** The rules that fired, in order; none where the table stays for want of a rule. */
  readonly rules: readonly (LevelRule | AfterRule)[];
  /** True when the state isn't entered anew: its timer runs on. */
  readonly stays: boolean;
}

export interface Walks {
  readonly table: Table;
  readonly start: number;
  /** 2 to the number of beams. */
  readonly masks: number;
  /** By state: what each pattern of levels does on arrival, by mask. */
  readonly onLevels: readonly (readonly Outcome[])[];
  /** By state: what its timeout does with the levels as they are, by mask; empty where there is no timeout. */
  readonly onTimeout: readonly (readonly Outcome[])[];
  /** By state: levels that can be while it is the state, as flags by mask; none set if it can't be reached. */
  readonly while: readonly (readonly boolean[])[];
  /** By state: levels that it can be asked about, by a change or on being entered by a timeout. */
  readonly asked: readonly (readonly boolean[])[];
}

export function walksOf(table: Table): Walks {
  const masks = 1 << table.beams.length;
  const index = new Map(table.states.map((state, i) => [state.name, i]));
  const indexOf = (name: string): number => index.get(name) ?? 0;
  const rules = table.states.map((state) => rulesByMask(state, table.beams.length));
  const onLevels = rules.map((byMask, from) => byMask.map((rule) => outcomeOf(rule, from, indexOf)));
  const onTimeout = table.states.map((state) => {
    const after = afterRule(state);
    if (!after) return [];
    const entered = indexOf(after.go);
    // A timeout's new state at once looks at the beams as they are.
    return (onLevels[entered] ?? []).map((look) => ({ to: look.to, rules: [after, ...look.rules], stays: false }));
  });

  const laid = { table, start: indexOf(table.start), masks, onLevels, onTimeout };
  return { ...laid, while: explore(laid, indexOf, true).while, asked: explore(laid, indexOf, false).asked };
}

function outcomeOf(rule: LevelRule | undefined, from: number, indexOf: (name: string) => number): Outcome {
  if (rule?.kind === 'on') return { to: indexOf(rule.go), rules: [rule], stays: false };
  return { to: from, rules: rule ? [rule] : [], stays: true };
}

type Flags = Pick<Walks, 'while' | 'asked'>;

/**
 * @param overGaps whether to go on, staying, where a rule is missing: so as not to call what lies beyond unreachable;
 *   but what is asked of states beyond a gap isn't known until it is closed
 */
function explore(walks: Omit<Walks, keyof Flags>, indexOf: (name: string) => number, overGaps: boolean): Flags {
  const flags = (): boolean[][] => walks.table.states.map(() => Array.from({ length: walks.masks }, () => false));
  const seen = flags();
  const asked = flags();
  const open: [state: number, mask: number][] = [];
  const reach = (outcome: Outcome, mask: number): void => {
    const gap = outcome.rules.every((rule) => rule.kind === 'after') && outcome !== begin;
    const here = seen[outcome.to] as boolean[];
    if (here[mask] || (gap && !overGaps)) return;
    here[mask] = true;
    open.push([outcome.to, mask]);
  };
  const begin: Outcome = { to: walks.start, rules: [], stays: true };
  reach(begin, 0);
  for (let pair = open.pop(); pair; pair = open.pop()) {
    const [state, mask] = pair;
    for (let next = 0; next < walks.masks; next++) {
      if (next === mask) continue;
      (asked[state] as boolean[])[next] = true;
      reach(walks.onLevels[state]?.[next] as Outcome, next);
    }
    const timeout = walks.onTimeout[state]?.[mask];
    if (timeout) {
      const after = timeout.rules[0] as AfterRule;
      (asked[indexOf(after.go)] as boolean[])[mask] = true;
      reach(timeout, mask);
    }
  }
  return { while: seen, asked };
}
