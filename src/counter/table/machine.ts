/**
 * A checked table as a logic: every pair of state and levels is looked up in flat arrays of integers. States without
 * a timeout are shared objects, so steps into them allocate nothing.
 */
import { maskOf } from '../levels.js';
import type { Direction, Logic, LogicInput, LogicStep } from '../logic.js';
import { BACKWARD, FORWARD, NONE, microseconds, restingStep } from '../steps.js';
import { longestSilence, talliesOf } from './silence.js';
import { type Table, afterRule } from './table.js';
import { type Outcome, walksOf } from './walks.js';

export interface TableMoment {
  /** Index of the state in the table. */
  readonly at: number;
  /** Levels after the last change. */
  readonly mask: number;
  /** When the state was entered, microseconds; 0 where no timeout asks. */
  readonly since_us: number;
}

/** No move: the state isn't entered anew and its timer runs on. */
const STAY = -1;

export function machineOf(table: Table, name = table.name): Logic<TableMoment> {
  const walks = walksOf(table);
  const { masks } = walks;
  const after_us = table.states.map((state) => microseconds(afterRule(state)?.after_ms ?? 0));
  const onLevels = new Moves(walks.onLevels, masks);
  const onTimeout = new Moves(walks.onTimeout, masks);
  const resting = table.states.flatMap((_, at) =>
    Array.from({ length: masks }, (_mask, mask) => restingStep<TableMoment>(Object.freeze({ at, mask, since_us: 0 }))),
  );

  function step(moment: TableMoment, { time_us, levels }: LogicInput): LogicStep<TableMoment> {
    let { at, since_us } = moment;
    let tallies = NONE;
    // A timeout that is due goes before a change at the same instant.
    for (let due = after_us[at] as number; due > 0 && time_us - since_us >= due; due = after_us[at] as number) {
      const cell = at * masks + moment.mask;
      since_us += due;
      tallies = joined(tallies, onTimeout.talliesAt(cell));
      at = onTimeout.to[cell] as number;
    }
    const mask = maskOf(levels);
    if (mask !== moment.mask) {
      const cell = at * masks + mask;
      const to = onLevels.to[cell] as number;
      if (to !== STAY) {
        at = to;
        since_us = time_us;
        tallies = joined(tallies, onLevels.talliesAt(cell));
      }
    }
    const wait_us = after_us[at] as number;
    if (wait_us > 0) return { state: { at, mask, since_us }, tallies, wake_us: since_us + wait_us };
    const rest = resting[at * masks + mask] as LogicStep<TableMoment>;
    return tallies === NONE ? rest : { state: rest.state, tallies };
  }

  // A start with a timeout runs from the clock's start.
  const initial: TableMoment = Object.freeze({ at: walks.start, mask: 0, since_us: 0 });
  return {
    name,
    latency_us: longestSilence(walks).latency_us,
    beams: table.beams.length,
    defeated_by: table.defeated_by ?? 'Not stated by the table.',
    initial: () => initial,
    step,
    label: ({ at }) => table.states[at]?.name ?? '?',
  };
}

/** Where each pair of state and levels leads and what it tallies, by `state × masks + mask`. */
class Moves {
  readonly to: Int16Array;
  private readonly tallies: (readonly Direction[])[];

  constructor(outcomes: readonly (readonly Outcome[])[], masks: number) {
    this.to = new Int16Array(outcomes.length * masks).fill(STAY);
    this.tallies = Array.from(this.to, () => NONE);
    for (const [state, byMask] of outcomes.entries()) {
      for (const [mask, outcome] of byMask.entries()) {
        const cell = state * masks + mask;
        this.to[cell] = outcome.stays ? STAY : outcome.to;
        this.tallies[cell] = sharedTallies(talliesOf(outcome));
      }
    }
  }

  talliesAt(cell: number): readonly Direction[] {
    return this.tallies[cell] as readonly Direction[];
  }
}

function sharedTallies(tallies: readonly Direction[]): readonly Direction[] {
  if (tallies.length === 0) return NONE;
  if (tallies.length === 1) return tallies[0] === 'forward' ? FORWARD : BACKWARD;
  return Object.freeze([...tallies]);
}

function joined(earlier: readonly Direction[], later: readonly Direction[]): readonly Direction[] {
  if (later.length === 0) return earlier;
  return earlier.length === 0 ? later : [...earlier, ...later];
}
