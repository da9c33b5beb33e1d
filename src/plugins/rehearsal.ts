/**
 * A logic's steps tried twice, to find out whether it keeps its contract: what it was given is unchanged afterwards, and
 * the same state and input give the same answer. One that keeps something to itself, or writes into its state, would count
 * one way in a run and another way wherever it is taken on from a snapshot.
 */
import { isDeepStrictEqual } from 'node:util';
import type { LogicInput, LogicStep } from '../counter/logic.js';
import type { Definition } from './definition.js';

/** All of a module's first steps are rehearsed, then one of so many. */
export const REHEARSED = 1000;
export const THEN_EVERY = 256;

/** @throws {BrokenContract} what the step itself throws is passed on */
export function rehearsed(definition: Definition, state: unknown, input: LogicInput): LogicStep<unknown> {
  const given = copied({ state, input });
  if (given === NO_COPY || !isDeepStrictEqual(given.state, state))
    throw new BrokenContract(`its state must be plain data: numbers, texts, lists, plain objects, maps, sets`);
  const first = definition.step(state, input);
  if (!isDeepStrictEqual({ state, input }, given))
    throw new BrokenContract('step has changed what it was given in place; it must return a new state');
  const answer = copied(first);
  if (answer === NO_COPY) throw new BrokenContract('what step returns must be plain data');
  const second = definition.step(given.state, given.input);
  if (!isDeepStrictEqual(copied(second), answer))
    throw new BrokenContract(
      'step gave two answers to the same state and input: it keeps something outside of its state, or leaves it to chance',
    );
  return first;
}

export class BrokenContract extends Error {}

const NO_COPY = Symbol('no copy');

/** A deep copy; {@link NO_COPY} for what can't be copied. */
function copied<T>(value: T): T | typeof NO_COPY {
  try {
    return structuredClone(value);
  } catch {
    return NO_COPY;
  }
}
