/** A checked table as constant arrays for the machine in C99. States are numbers: no word of the table gets in. */
import { c32, cArray } from '../../engine/c-array.js';
import type { Direction } from '../logic.js';
import { microseconds } from '../steps.js';
import { talliesOf } from '../table/silence.js';
import { type Table, afterRule } from '../table/table.js';
import { walksOf } from '../table/walks.js';

/** As in the machine's source: the state isn't entered anew. */
const STAYS = 255;

/**
 * @param name a C identifier, not taken from the table @returns C source, `static const door_table NAME` at its end
 */
export function tableData(table: Table, name: string): string {
  const walks = walksOf(table);
  const cells = walks.onLevels.flat();
  const timeouts = table.states.map(afterRule);
  const indexOf = (state: string): number => table.states.findIndex((one) => one.name === state);
  const bytes = (what: string, numbers: readonly number[]) => cArray('uint8_t', `${name}_${what}`, numbers.map(String));
  return [
    bytes(
      'next',
      cells.map(({ stays, to }) => (stays ? STAYS : to)),
    ),
    bytes(
      'tallies',
      cells.map((outcome) => packed(talliesOf(outcome))),
    ),
    cArray(
      'uint32_t',
      `${name}_after_us`,
      timeouts.map((rule) => c32(rule ? microseconds(rule.after_ms) : 0)),
    ),
    bytes(
      'after_next',
      timeouts.map((rule) => (rule ? indexOf(rule.go) : 0)),
    ),
    bytes(
      'after_tallies',
      timeouts.map((rule) => packed(rule?.tallies ?? [])),
    ),
    `static const door_table ${name} = {\n` +
      `    ${name}_next, ${name}_tallies, ${name}_after_us, ${name}_after_next, ${name}_after_tallies,\n` +
      `    ${table.beams.length}, ${walks.start}\n};\n`,
  ].join('');
}

/** Bytes that the arrays of a table take. */
export function tableBytes(table: Table): number {
  return table.states.length * (2 * (1 << table.beams.length) + 4 + 1 + 1);
}

/** At most eight tallies a rule: a count of each direction fits into four bits. */
function packed(tallies: readonly Direction[]): number {
  const forward = tallies.filter((one) => one === 'forward').length;
  return 16 * forward + tallies.length - forward;
}
