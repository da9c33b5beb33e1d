/**
 * One step of the forward pass of a hidden Markov model: from what was believed, through the transitions, to what is
 * believed now that something is seen. Only + × ÷, so that it is the same on every engine.
 *
 * Source: L. R. Rabiner, "A tutorial on hidden Markov models and selected applications in speech recognition",
 * Proceedings of the IEEE 77, 1989, 257–286, the scaled forward variables (equation numbers not given: from memory).
 */

export interface MarkovModel {
  /** `transition[i][j]`: from state i to state j in one tick; rows sum to 1. */
  readonly transition: readonly (readonly number[])[];
  /** `emission[i][o]`: what is seen in state i; rows sum to 1. */
  readonly emission: readonly (readonly number[])[];
}

/** @param belief probability of each state before @param seen index of what is seen now @returns probabilities now */
export function forwardStep({ transition, emission }: MarkovModel, belief: readonly number[], seen: number): number[] {
  const next = belief.map(() => 0);
  for (let i = 0; i < belief.length; i++) {
    const from = belief[i]!;
    if (from === 0) continue;
    const row = transition[i]!;
    for (let j = 0; j < row.length; j++) next[j]! += from * row[j]!;
  }
  let sum = 0;
  for (let j = 0; j < next.length; j++) sum += next[j]! *= emission[j]![seen]!;
  // What the model holds impossible tells nothing.
  if (sum === 0) return [...belief];
  for (let j = 0; j < next.length; j++) next[j]! /= sum;
  return next;
}

/**
 * Probability that the step just made went from one state to another, given all that was seen.
 *
 * @param belief before the step @param now after it, as {@link forwardStep} gave it
 */
export function stepProbability(
  { transition, emission }: MarkovModel,
  belief: readonly number[],
  now: readonly number[],
  seen: number,
  from: number,
  to: number,
): number {
  // now[to] = Σᵢ belief[i] · a(i, to) · b(to, seen) / Z: this path's share of it.
  let into = 0;
  for (let i = 0; i < belief.length; i++) into += belief[i]! * transition[i]![to]!;
  if (into === 0 || emission[to]![seen]! === 0) return 0;
  return (now[to]! * belief[from]! * transition[from]![to]!) / into;
}
