/** The states of a doorway as the likelihood filter knows them: empty, or one body early, midway or late in its visit. */

/** What a body does: goes through, or comes from one side and goes back there. */
export const WAYS = ['forward', 'backward', 'back from A', 'back from B'] as const;
export const STAGES = ['early', 'midway', 'late'] as const;

export const EMPTY = 0;
export const STATES = 1 + WAYS.length * STAGES.length;

/** Number of the state of a way's stage. */
export function stateOf(way: number, stage: number): number {
  return 1 + way * STAGES.length + stage;
}

export function stateName(state: number): string {
  if (state === EMPTY) return 'empty';
  const at = state - 1;
  return `${WAYS[Math.floor(at / STAGES.length)]}, ${STAGES[at % STAGES.length]}`;
}
