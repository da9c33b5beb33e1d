/** What a table's rules amount to: contradictions, gaps, states nobody reaches or leaves, timeouts without end. */
import { WAKE_LIMIT_US } from '../host-check.js';
import { bitsOf } from '../levels.js';
import { quote } from '../../engine/printable.js';
import { longestSilence } from './silence.js';
import {
  type AfterRule,
  type LevelRule,
  type Table,
  type TableState,
  type TextPlace,
  listMasks,
  masksOf,
} from './table.js';
import { type Walks, walksOf } from './walks.js';
import type { ReadTable } from './read.js';
import { join } from './yaml-text.js';

type Report = (place: TextPlace, path: string, message: string, hint?: string) => void;

export function checkTable({ table, incomplete, connected }: ReadTable, report: Report): void {
  for (const state of table.states) {
    checkRepeats(state, table, report);
    checkTimeouts(state, report);
  }
  const walks = walksOf(table);
  const whole = connected && incomplete.size === 0;
  for (const [i, state] of table.states.entries()) {
    const path = join('states', state.name);
    // A state that a timeout enters and its look at the beams leaves is passed through, never stood in.
    const reached = walks.while[i]?.includes(true) || walks.asked[i]?.includes(true);
    if (reached && !incomplete.has(state.name)) checkGaps(walks, i, report);
    if (whole && !reached)
      report(state.place, path, `the state ${quote(state.name)} is never reached from ${quote(table.start)}`);
  }
  if (!whole) return;
  checkDeadEnds(walks, report);
  checkSilence(walks, report);
}

function checkRepeats(state: TableState, table: Table, report: Report): void {
  const beams = table.beams.length;
  const owners = new Map<number | 'other', LevelRule>();
  for (const [i, rule] of state.rules.entries()) {
    if (rule.kind === 'after') continue;
    const wanted: readonly (number | 'other')[] = rule.patterns === 'other' ? ['other'] : masksOf(rule.patterns, beams);
    const earlier = wanted.map((mask) => owners.get(mask)).find((owner) => owner !== undefined);
    for (const mask of wanted) if (!owners.has(mask)) owners.set(mask, rule);
    if (earlier === undefined) continue;
    const shared = wanted.filter((mask): mask is number => mask !== 'other' && owners.get(mask) === earlier);
    const what = shared.length > 0 ? listMasks(shared, beams) : 'other';
    const line = `line ${earlier.place.line}`;
    report(
      rule.place,
      join(join('states', state.name), i + 1),
      sameDoing(earlier, rule)
        ? `${what} has a rule already, on ${line}`
        : `${what} has two rules that contradict each other: on ${line} it is to ${doing(earlier)}, here to ${doing(rule)}`,
      'keep one of the two',
    );
  }
}

function sameDoing(a: LevelRule, b: LevelRule): boolean {
  return doing(a) === doing(b);
}

function doing(rule: LevelRule): string {
  if (rule.kind === 'stay') return 'stay';
  const tallies = rule.tallies.length > 0 ? ` and tally ${rule.tallies.join(', ')}` : '';
  return `go to ${quote(rule.go)}${tallies}`;
}

function checkTimeouts(state: TableState, report: Report): void {
  const [first, ...more] = state.rules.filter((rule): rule is AfterRule => rule.kind === 'after');
  for (const rule of more)
    report(
      rule.place,
      join(join('states', state.name), state.rules.indexOf(rule) + 1),
      `a state has one after_ms; this one has another on line ${first?.place.line}`,
    );
}

function checkGaps(walks: Walks, i: number, report: Report): void {
  const { table } = walks;
  const state = table.states[i] as TableState;
  const missing: number[] = [];
  for (let mask = 0; mask < walks.masks; mask++) {
    if (walks.asked[i]?.[mask] && walks.onLevels[i]?.[mask]?.rules.length === 0) missing.push(mask);
  }
  if (missing.length === 0) return;
  const first = bitsOf(missing[0] ?? 0, table.beams.length);
  report(
    state.place,
    join('states', state.name),
    `the state ${quote(state.name)} has no rule for ${listMasks(missing, table.beams.length)}, which can happen in it`,
    missing.length === 1
      ? `add \`{ on: "${first}", go: STATE }\` or \`{ stay: "${first}" }\``
      : 'add a rule for each, or one `{ on: other, go: STATE }` or `{ stay: other }`',
  );
}

/** A state is a dead end if from some levels that can be in it nothing leads back to the start. */
function checkDeadEnds(walks: Walks, report: Report): void {
  const { table, masks } = walks;
  const back = table.states.map((_, i) => Array.from({ length: masks }, () => i === walks.start));
  const leadsBack = (state: number, mask: number): boolean => back[state]?.[mask] ?? false;
  for (let changed = true; changed; ) {
    changed = false;
    for (const [state, flags] of back.entries()) {
      const good: number[] = [];
      for (const [next, outcome] of (walks.onLevels[state] ?? []).entries()) {
        if (leadsBack(outcome.to, next)) good.push(next);
      }
      for (let mask = 0; mask < masks; mask++) {
        const timeout = walks.onTimeout[state]?.[mask];
        const byChange = good.length > 1 || (good.length === 1 && good[0] !== mask);
        if (!flags[mask] && (byChange || (timeout && leadsBack(timeout.to, mask)))) changed = flags[mask] = true;
      }
    }
  }
  for (const [i, state] of table.states.entries()) {
    const stuck = walks.while[i]?.some((possible, mask) => possible && !leadsBack(i, mask));
    if (stuck)
      report(
        state.place,
        join('states', state.name),
        `the state ${quote(state.name)} is a dead end: no rules lead from it back to ${quote(table.start)}`,
        'most tables come back when both beams are clear',
      );
  }
}

function checkSilence(walks: Walks, report: Report): void {
  const silence = longestSilence(walks);
  if (silence.endless) {
    const { rule, state, mask } = silence.endless;
    report(
      rule.place,
      join('states', state.name),
      `the timeout of ${quote(state.name)} tallies again and again while the beams stay at ${bitsOf(mask, walks.table.beams.length)}`,
      'let it go to a state that waits until the beams are clear',
    );
  } else if (silence.latency_us >= WAKE_LIMIT_US) {
    report(
      { line: 1, column: 1 },
      'states',
      'timeouts one after another tally more than 36 minutes after the last change',
    );
  }
}
