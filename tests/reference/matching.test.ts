/** The assignment behind the matching, against a worked example and another library's optimum. */
import { expect, test } from 'vitest';
import { Assignment } from '../../src/score/assignment.js';

function leastTotal(costs: readonly (readonly number[])[], alone: number): number {
  const assignment = new Assignment();
  assignment.reset(costs[0]!.length);
  for (const row of costs) {
    row.forEach((cost, column) => assignment.allow(column, cost, 0));
    assignment.endRow();
  }
  assignment.solve(alone);
  return costs.reduce((sum, row, r) => {
    const column = assignment.columnOf[r]!;
    return sum + (column < 0 ? alone : row[column]!);
  }, 0);
}

/** S. K. Park, K. W. Miller, "Random number generators: good ones are hard to find", CACM 31, 1988, 1192–1201. */
function* parkMiller(seed: number): Generator<number, never> {
  for (let x = seed; ; ) yield (x = (x * 16807) % 2147483647);
}

test('three workers and three tasks: the worked example of scipy.optimize.linear_sum_assignment, least total 5', () => {
  // Documentation of scipy 1.17, linear_sum_assignment, section Examples.
  expect(
    leastTotal(
      [
        [4, 1, 3],
        [2, 0, 5],
        [3, 2, 2],
      ],
      1000,
    ),
  ).toBe(5);
});

// Totals computed with scipy 1.17.1, linear_sum_assignment, on the same numbers: Park–Miller from the seed, modulo 1000.
test.each([
  [1, 10, 10, 1549],
  [2, 20, 30, 627],
  [3, 60, 60, 1697],
  [5, 200, 200, 1655],
])('table %i of %i × %i costs has the least total that scipy finds', (seed, rows, columns, least) => {
  const next = parkMiller(seed);
  const costs = Array.from({ length: rows }, () => Array.from({ length: columns }, () => next.next().value % 1000));
  expect(leastTotal(costs, 1_000_000)).toBe(least);
});

test('more rows than columns: those left alone are the ones that cost least to leave', () => {
  // scipy 1.17.1 matches 25 of the 40 rows for 905; the other 15 stay alone.
  const next = parkMiller(4);
  const costs = Array.from({ length: 40 }, () => Array.from({ length: 25 }, () => next.next().value % 1000));
  expect(leastTotal(costs, 1_000_000)).toBe(905 + 15 * 1_000_000);
});
