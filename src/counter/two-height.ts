/**
 * A vote of two pairs in one frame, one low and one high: each is read as a four-level walk, and a person is counted when
 * both say so within a time. What only one pair sees is nobody, or whoever that pair is trusted with.
 *
 * Beams in the door's order: A and B of the first pair, then A and B of the second.
 */
import { type Walk, fourLevel } from './four-level.js';
import type { Direction, Logic, LogicInput, LogicStep } from './logic.js';
import { NONE, microseconds } from './steps.js';

/** A tally of one pair that waits for the other's. */
interface Vote {
  readonly pair: 0 | 1;
  readonly direction: Direction;
  /** When it is given up, microseconds. */
  readonly until_us: number;
}

export interface Votes {
  readonly walks: readonly [Walk, Walk];
  readonly votes: readonly Vote[];
  /** When a walk wants to be woken, microseconds; null for not. */
  readonly wakes_us: readonly [number | null, number | null];
}

export interface TwoHeightOptions {
  readonly name?: string;
  /** How long the pairs may be apart. */
  readonly agree_ms: number;
  /** Which pair's word alone is taken. */
  readonly alone: 'neither' | 'first' | 'second' | 'either';
  readonly timeout_ms: number;
}

const PAIRS = [0, 1] as const;

export function twoHeight(options: TwoHeightOptions): Logic<Votes> {
  const agree_us = microseconds(options.agree_ms);
  const pair = fourLevel({ timeout_ms: options.timeout_ms });
  const trusted = PAIRS.map((p) => options.alone === 'either' || options.alone === (p === 0 ? 'first' : 'second'));

  function step(state: Votes, { time_us, levels }: LogicInput): LogicStep<Votes> {
    const tallies: Direction[] = [];
    // Votes whose time is up are decided before what happens now.
    let votes = state.votes.filter((vote) => {
      if (vote.until_us > time_us) return true;
      if (trusted[vote.pair] === true) tallies.push(vote.direction);
      return false;
    });
    const steps = PAIRS.map((p) => pair.step(state.walks[p], { time_us, levels: levels.slice(2 * p, 2 * p + 2) }));
    for (const p of PAIRS)
      for (const direction of steps[p]!.tallies) {
        const other = votes.findIndex((vote) => vote.pair !== p);
        if (other < 0) votes = [...votes, { pair: p, direction, until_us: time_us + agree_us }];
        else {
          // The two agree and are one person, or contradict each other and are nobody.
          if (votes[other]!.direction === direction) tallies.push(direction);
          votes = votes.filter((_, i) => i !== other);
        }
      }
    const next: Votes = {
      walks: [steps[0]!.state, steps[1]!.state],
      votes,
      wakes_us: [steps[0]!.wake_us ?? null, steps[1]!.wake_us ?? null],
    };
    const wakes = [...next.wakes_us.filter((wake) => wake !== null), ...votes.map((vote) => vote.until_us)];
    return {
      state: next,
      tallies: tallies.length === 0 ? NONE : tallies,
      ...(wakes.length > 0 && { wake_us: Math.min(...wakes) }),
    };
  }

  const rest = pair.initial();
  const initial: Votes = Object.freeze({ walks: [rest, rest] as const, votes: [], wakes_us: [null, null] as const });
  return {
    name: options.name ?? 'two-height',
    latency_us: agree_us,
    beams: 4,
    defeated_by:
      'Whoever only one pair sees is missed unless that pair is trusted alone; two people side by side or close behind are one to both pairs.',
    initial: () => initial,
    step,
    label: ({ walks, votes }) =>
      `${walks.map((walk) => pair.label(walk)).join(' | ')}${votes.length > 0 ? ` (${votes.length} waiting)` : ''}`,
  };
}
