/** Whether the numbers in a summary that name something name something that is there: each for itself they only have a type. */
import type { StudySummary } from './summary-schema.js';

/** Of a study.json that a stranger may have written. */
export function summaryFits({ factors, designs, doors, logics, ranking, effects, front }: StudySummary): boolean {
  const isDesign = (number: number): boolean => designs[number - 1] !== undefined;
  const isLevel = (factor: number, level: number | undefined): boolean =>
    level !== undefined && factors[factor]?.levels[level] !== undefined;
  return (
    doors.length > 0 &&
    logics.length > 0 &&
    designs.length > 0 &&
    designs.every(
      ({ number, levels }, d) =>
        number === d + 1 && levels.length === factors.length && levels.every((level, f) => isLevel(f, level)),
    ) &&
    ranking.rows.every(({ design }) => isDesign(design)) &&
    front.designs.every((design) => isDesign(design)) &&
    effects.main.every(({ factor, level, against }) => isLevel(factor, level) && isLevel(factor, against)) &&
    effects.interactions.every(({ factors: both, levels }) =>
      both.every((factor, i) => levels[i]!.every((level) => isLevel(factor, level))),
    )
  );
}
