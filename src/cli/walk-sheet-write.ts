/** The sheet of a walk test as CSV: one row a walk, with room for what was seen. */
import type { WalkRow } from '../score/walk-test/rows.js';
import { cell } from './csv-file.js';

/** Filled when the sheet is made. */
export const PLAN_COLUMNS = [
  'walk',
  'door',
  'logic',
  'who',
  'kind',
  'direction',
  'stop_cm',
  'stay_s',
  'goes_back',
  'expected_forward',
  'expected_backward',
] as const;
/** Filled by hand. */
export const HAND_COLUMNS = ['start', 'end', 'counted_forward', 'counted_backward', 'note'] as const;

/** @param door and logic: their names, on every row, so that no sheet is read as another's */
export function sheetCsv(rows: readonly WalkRow[], door: string, logic: string): string {
  const [doorCell, logicCell] = [cell(door), cell(logic)].map(String);
  const lines = rows.map((row) =>
    [
      row.number,
      doorCell,
      logicCell,
      cell(row.who),
      row.kind,
      row.direction,
      row.stop_m === null ? '' : Math.round(100 * row.stop_m),
      row.stay_s ?? '',
      row.back ? 'yes' : 'no',
      row.expected.forward,
      row.expected.backward,
      ...HAND_COLUMNS.map(() => ''),
    ]
      .map(String)
      .join(','),
  );
  return `${[[...PLAN_COLUMNS, ...HAND_COLUMNS].join(','), ...lines].join('\n')}\n`;
}
