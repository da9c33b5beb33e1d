import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Assignment } from '../../src/score/assignment.js';

type Pair = readonly [cost: number, tie: number] | null;
const ALONE = 100;

/** Least total over all ways to give rows distinct columns or none, by trying every one of them. */
function bruteForce(table: readonly (readonly Pair[])[], row = 0, taken = 0): [number, number] {
  if (row === table.length) return [0, 0];
  const alone = bruteForce(table, row + 1, taken);
  let best: [number, number] = [alone[0] + ALONE, alone[1]];
  table[row]!.forEach((pair, column) => {
    if (pair === null || (taken >> column) & 1) return;
    const rest = bruteForce(table, row + 1, taken | (1 << column));
    const total: [number, number] = [rest[0] + pair[0], rest[1] + pair[1]];
    if (total[0] < best[0] || (total[0] === best[0] && total[1] < best[1])) best = total;
  });
  return best;
}

function solve(assignment: Assignment, table: readonly (readonly Pair[])[]): [number, number] {
  const columns = table[0]?.length ?? 0;
  assignment.reset(columns);
  for (const row of table) {
    row.forEach((pair, column) => pair && assignment.allow(column, pair[0], pair[1]));
    assignment.endRow();
  }
  assignment.solve(ALONE);
  const total: [number, number] = [0, 0];
  const used = new Set<number>();
  table.forEach((row, r) => {
    const column = assignment.columnOf[r]!;
    if (column < 0) {
      total[0] += ALONE;
      return;
    }
    expect(used.has(column)).toBe(false);
    used.add(column);
    total[0] += row[column]![0];
    total[1] += row[column]![1];
  });
  return total;
}

test('the total is the least over all assignments, in both levels, for one workspace used again and again', () => {
  const assignment = new Assignment();
  // Few distinct costs make many ties, where the second level decides.
  const pair = fc.option(
    fc.tuple(
      fc.integer({ min: 0, max: 250 }).map((c) => c - (c % 25)),
      fc.integer({ min: 0, max: 3 }),
    ),
    {
      freq: 3,
    },
  );
  const table = fc
    .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 6 }))
    .chain(([rows, columns]) =>
      fc.array(fc.array(pair, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows }),
    );
  fc.assert(
    fc.property(table, (t) => {
      expect(solve(assignment, t)).toEqual(bruteForce(t));
    }),
    { seed: 1, numRuns: 3000 },
  );
});
