/**
 * What a count is off by, visit by visit: what a ledger suffers. Somebody counted in and out again within one visit is two
 * wrong tallies, and moves nobody.
 */
export interface NetErrors {
  /** Persons who went through and were not counted on balance. */
  missed: number;
  /** Persons counted the other way round. */
  reversed: number;
  /** Persons counted who did not go through, or more than did. */
  invented: number;
}

export const noNetErrors = (): NetErrors => ({ missed: 0, reversed: 0, invented: 0 });

/** Adds a visit: true and counted persons forward minus backward. */
export function addNetError(into: NetErrors, truth: number, counted: number): void {
  if (truth === counted) return;
  const persons = Math.abs(truth);
  const along = truth < 0 ? -counted : counted;
  if (persons === 0) into.invented += Math.abs(counted);
  else if (along > persons) into.invented += along - persons;
  else if (along >= 0) into.missed += persons - along;
  else {
    const reversed = Math.min(persons, -along);
    into.reversed += reversed;
    into.missed += persons - reversed;
    into.invented += -along - reversed;
  }
}
