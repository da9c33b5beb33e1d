/** A table logic as plain data: what the YAML says, checked. The format is described in docs/tables.md. */
import { bitsOf } from '../levels.js';
import type { Direction } from '../logic.js';

/** Version of the format. */
export const TABLE_FORMAT = 1;
/** Most states a table may have. */
export const MAX_STATES = 200;
/** Range of `after_ms`, both ends included: a timeout fits into 31 bits of microseconds. */
export const AFTER_MS = { min: 1, max: 2_000_000 } as const;
/** Most characters of a table's text. */
export const MAX_TEXT = 100_000;
/** Most tallies one rule may make. */
export const MAX_TALLIES = 8;

/** Where something stands in the text; lines and columns count from 1. */
export interface TextPlace {
  readonly line: number;
  readonly column: number;
}

/** `other`: every pattern of levels that no other rule of the state names. */
export type Patterns = readonly string[] | 'other';

export type TableRule =
  | {
      readonly kind: 'on';
      readonly patterns: Patterns;
      readonly go: string;
      readonly tallies: readonly Direction[];
      readonly place: TextPlace;
    }
  | { readonly kind: 'stay'; readonly patterns: Patterns; readonly place: TextPlace }
  | {
      readonly kind: 'after';
      readonly after_ms: number;
      readonly go: string;
      readonly tallies: readonly Direction[];
      readonly place: TextPlace;
    };
export type LevelRule = Exclude<TableRule, { kind: 'after' }>;
export type AfterRule = Extract<TableRule, { kind: 'after' }>;

export interface TableState {
  readonly name: string;
  readonly rules: readonly TableRule[];
  readonly place: TextPlace;
}

export interface Table {
  readonly name: string;
  /** Names of the beams, 1 to 8, in the order of the patterns' characters. */
  readonly beams: readonly string[];
  readonly start: string;
  readonly states: readonly TableState[];
  /** What defeats it, in the words of whoever wrote it. */
  readonly defeated_by: string | null;
}

/** The masks any of `patterns` covers, ascending (`0` clear, `1` broken, `x` either, one character per beam). */
export function masksOf(patterns: readonly string[], beams: number): number[] {
  const all = Array.from({ length: 1 << beams }, (_, mask) => mask);
  return all.filter((mask) => patterns.some((pattern) => covers(pattern, mask)));
}

function covers(pattern: string, mask: number): boolean {
  for (let i = 0; i < pattern.length; i++) {
    const wanted = pattern[i];
    if (wanted !== 'x' && wanted !== 'X' && Number(wanted) !== ((mask >> i) & 1)) return false;
  }
  return true;
}

/** The rule of `state` for each mask, by mask; `undefined` where there is none. The first of several wins. */
export function rulesByMask(state: TableState, beams: number): (LevelRule | undefined)[] {
  const levelRules = state.rules.filter((rule): rule is LevelRule => rule.kind !== 'after');
  const byMask: (LevelRule | undefined)[] = Array.from({ length: 1 << beams });
  for (const rule of levelRules) {
    if (rule.patterns !== 'other') for (const mask of masksOf(rule.patterns, beams)) byMask[mask] ??= rule;
  }
  const other = levelRules.find((rule) => rule.patterns === 'other');
  return byMask.map((rule) => rule ?? other);
}

export function afterRule(state: TableState): AfterRule | undefined {
  return state.rules.find((rule): rule is AfterRule => rule.kind === 'after');
}

/** Masks as patterns, at most six of them spelt out. */
export function listMasks(masks: readonly number[], beams: number): string {
  const shown = masks.slice(0, 6).map((mask) => bitsOf(mask, beams));
  return masks.length > 6 ? `${shown.join(', ')} and ${masks.length - 6} more` : shown.join(', ');
}
