/** A table as text for a terminal: each state, the levels that can be in it, and where its rules lead. */
import { bitsOf } from '../levels.js';
import { whenOf } from './arrows.js';
import type { Table, TableRule } from './table.js';
import { walksOf } from './walks.js';

/**
 * @example
 * // forward-3   while 01
 * //   00          → rest         tally forward
 * //   after 10 s  → lost
 */
export function tableAsText(table: Table): string {
  const walks = walksOf(table);
  const beams = table.beams.length;
  const whenWidth = widest(table.states.flatMap((state) => state.rules.map(whenOf)));
  const goWidth = widest(table.states.map((state) => state.name));
  const lines = [`${table.name}: beams ${table.beams.join(', ')} (0 clear, 1 broken), starts in ${table.start}`];
  for (const [i, state] of table.states.entries()) {
    const possible = (walks.while[i] ?? []).flatMap((can, mask) => (can ? [bitsOf(mask, beams)] : []));
    const levels = possible.length === walks.masks ? 'any levels' : possible.join(', ');
    lines.push('', `${state.name.padEnd(goWidth)}   while ${levels}`);
    for (const rule of state.rules)
      lines.push(`  ${whenOf(rule).padEnd(whenWidth)}  ${doing(rule, state.name, goWidth)}`.trimEnd());
  }
  return `${lines.join('\n')}\n`;
}

function doing(rule: TableRule, state: string, width: number): string {
  if (rule.kind === 'stay') return '· stays';
  const again = rule.go === state ? ' (its timer starts again)' : '';
  const tallies = rule.tallies.length > 0 ? `tally ${rule.tallies.join(', ')}` : '';
  return `→ ${rule.go.padEnd(width)}${again}  ${tallies}`;
}

function widest(texts: readonly string[]): number {
  return Math.max(0, ...texts.map((text) => text.length));
}
