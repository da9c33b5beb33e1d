/** In which ways counts were wrong, in units of wrong as rates count them. */
export const ERRORS = ['missed', 'reversed', 'extra', 'invented'] as const;
export type ErrorCounts = Readonly<Record<(typeof ERRORS)[number], number>>;

export function errorSum(all: readonly ErrorCounts[]): { [Name in (typeof ERRORS)[number]]: number } {
  const total = { missed: 0, reversed: 0, extra: 0, invented: 0 };
  for (const one of all) for (const name of ERRORS) total[name] += one[name];
  return total;
}
