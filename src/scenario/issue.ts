/** What is wrong with a user's input: data first; words are made in explain.ts, the only place for them. */

import type { PlanProblem } from './plan-problem.js';
import type { SensorProblem } from './sensor-problem.js';

/** A place in a text the user wrote. Lines and columns count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

/** Problems of a text as such: YAML, keys, types and ranges. */
export type ShapeProblem =
  /** `detail` is the YAML library's sentence, `yaml` its code. */
  | { readonly code: 'syntax'; readonly detail: string; readonly yaml?: string | undefined }
  | { readonly code: 'not_text'; readonly why: 'binary' | 'control character' | 'not UTF-8' }
  | { readonly code: 'too_large'; readonly what: 'characters' | 'nesting' | 'aliases'; readonly max: number }
  | { readonly code: 'empty_file' }
  /** Stands for the rest of a list of issues too long to be of use. */
  | { readonly code: 'and_more'; readonly count: number }
  | { readonly code: 'forbidden_key'; readonly key: string }
  | { readonly code: 'duplicate_key'; readonly key: string; readonly first_line: number }
  | {
      readonly code: 'unknown_key';
      readonly key: string;
      readonly nearest?: string | undefined;
      /** Keys that could still be added here. */
      readonly known: readonly string[];
      /** Where a key of exactly this name does exist, as `listKeys` writes it. */
      readonly belongs?: readonly string[] | undefined;
    }
  | {
      readonly code: 'missing_key';
      readonly key: string;
      readonly description?: string | undefined;
      readonly unit?: string | undefined;
      readonly choices?: readonly string[] | undefined;
    }
  /** `found` is a literal as `literal` of printable.ts gives it: `"text"`, `1.5`, `true`, `null`, `list`, `map`. */
  | {
      readonly code: 'wrong_type';
      readonly expected: string;
      readonly found: string;
      readonly unit?: string | undefined;
    }
  | {
      readonly code: 'out_of_range';
      readonly min?: number | undefined;
      readonly max?: number | undefined;
      readonly unit?: string | undefined;
      readonly found: number;
    }
  | {
      readonly code: 'length';
      readonly of: 'characters' | 'items';
      readonly min?: number | undefined;
      readonly max?: number | undefined;
      readonly found: number;
    }
  | { readonly code: 'bad_name'; readonly found: string }
  | { readonly code: 'bad_clock'; readonly found: string }
  | {
      readonly code: 'not_one_of';
      readonly choices: readonly string[];
      readonly found: string;
      readonly nearest?: string | undefined;
    }
  /** A number in another unit than the key's: `written` is the user's text, `suggestion` the number in the key's unit. */
  | {
      readonly code: 'unit_suspected';
      readonly found: number;
      readonly unit: string;
      readonly suggestion: string;
      readonly written?: string | undefined;
      /** The unit it looks like: `cm`, `mm`, `s`, `%`. */
      readonly looks_like?: string | undefined;
      readonly min?: number | undefined;
      readonly max?: number | undefined;
    };

/** Problems between keys, each of them well formed. */
export type CrossProblem =
  | { readonly code: 'duplicate_name'; readonly what: string; readonly name: string }
  | {
      readonly code: 'unknown_name';
      readonly what: string;
      readonly name: string;
      readonly known: readonly string[];
      readonly nearest?: string | undefined;
    }
  | { readonly code: 'reserved_name'; readonly what: string; readonly name: string }
  | { readonly code: 'replaces_built_in'; readonly what: string; readonly name: string }
  | { readonly code: 'same_sides'; readonly room: string }
  | { readonly code: 'pair_or_beams'; readonly found: 'both' | 'neither' }
  | { readonly code: 'above_lintel'; readonly height_m: number; readonly lintel_m: number }
  | { readonly code: 'outside_zone'; readonly at_m: number; readonly zone_m: number; readonly least_m: number }
  | { readonly code: 'askew'; readonly along_m: number; readonly most_m: number }
  | { readonly code: 'bracket_needed'; readonly reach_m: number; readonly jamb_depth_m: number }
  | { readonly code: 'beam_order'; readonly first: string; readonly second: string; readonly same: boolean }
  | {
      readonly code: 'beam_count';
      readonly logics: readonly string[];
      readonly needs: number;
      readonly found: number;
    }
  | { readonly code: 'never_tallies'; readonly logic: string; readonly ways: readonly string[] }
  | { readonly code: 'beam_names'; readonly table: readonly string[]; readonly door: readonly string[] }
  | { readonly code: 'shares_sum'; readonly sum: number }
  | { readonly code: 'clock_order'; readonly earlier: string; readonly later: string }
  | { readonly code: 'nobody_comes' }
  | { readonly code: 'few_there'; readonly room: string; readonly there: number; readonly away: number }
  | {
      readonly code: 'nobody_there';
      readonly room: string;
      readonly move: 'forward' | 'backward';
      readonly forward_share: number;
    }
  | { readonly code: 'traffic_and_household' }
  | { readonly code: 'start_and_household'; readonly found: number }
  | { readonly code: 'no_room_for'; readonly use: string; readonly rooms: readonly string[] }
  | { readonly code: 'no_way'; readonly who: string; readonly from: string; readonly to: string }
  | { readonly code: 'no_span'; readonly at: string }
  | { readonly code: 'manners_sum'; readonly sum: number }
  | { readonly code: 'nobody_lives' }
  | { readonly code: 'uses_lacking'; readonly household: string; readonly uses: readonly string[] }
  | {
      readonly code: 'too_wide_on_the_way';
      readonly what: string;
      readonly breadth_m: number;
      readonly door: string;
      readonly width_m: number;
    }
  | { readonly code: 'rod_too_low'; readonly height_m: number; readonly least_m: number }
  | { readonly code: 'rod_kind'; readonly who: string; readonly kind: string }
  /** `what` it is, with its article. */
  | { readonly code: 'through_only'; readonly who: string; readonly what: string; readonly kind: string }
  /** `from_m`: where along the walk the leaf's slab begins when it is shut. */
  | {
      readonly code: 'leaf_sweeps';
      readonly at_m: number;
      readonly from_m: number;
      readonly opens: 'forward' | 'backward';
      readonly opens_deg: number;
    }
  | { readonly code: 'too_wide'; readonly who: string; readonly breadth_m: number; readonly width_m: number }
  | { readonly code: 'pet_kind'; readonly who: string; readonly kind: string }
  | {
      readonly code: 'not_ordered';
      readonly low_key: string;
      readonly low: number;
      readonly high_key: string;
      readonly high: number;
    }
  | { readonly code: 'always_broken'; readonly per_hour: number; readonly length_ms: number }
  | { readonly code: 'no_effect'; readonly key: string; readonly because_key: string; readonly because: string }
  | { readonly code: 'no_limit' }
  | { readonly code: 'bad_metric_root'; readonly root: string }
  | { readonly code: 'profile_kind'; readonly file: string; readonly kind: string; readonly found: string }
  | { readonly code: 'unreadable_file'; readonly name: string; readonly detail: string }
  | { readonly code: 'table_error'; readonly message: string; readonly hint?: string | undefined };

/** Problems of `--set KEY=VALUE`. */
export type SetProblem =
  | { readonly code: 'not_an_assignment'; readonly found: string }
  | { readonly code: 'profile_set' }
  | {
      readonly code: 'unknown_path';
      readonly segment: string;
      /** The path up to the segment that leads nowhere; empty at the top. */
      readonly within: string;
      readonly known: readonly string[];
      readonly nearest?: string | undefined;
    };

/** What is wrong, as data: a code and its facts. `formatIssue` makes words of it. */
export type Problem =
  | ShapeProblem
  | CrossProblem
  | SensorProblem
  | PlanProblem
  | SetProblem
  | { readonly code: 'other'; readonly message: string; readonly hint?: string | undefined };

/** Something that is wrong, or to be minded, in what a user wrote. */
export interface Issue {
  /** Null for what comes from the command line; then `path` says which option. */
  readonly place: Place | null;
  /** Path of the key, `doors.front.width_m`; lists are addressed by name where items have one, else by position from 1. */
  readonly path: string;
  readonly problem: Problem;
}

/** Keys and, in lists, positions from 0. */
export type KeyPath = readonly (string | number)[];

/** A problem whose place is still a path into the value; `at` says whether its key or its value is to blame. */
export interface Finding {
  readonly path: KeyPath;
  readonly at: 'key' | 'value';
  readonly problem: Problem;
}

/** The first of many problems, and how many more there are. */
export function firstOf(issues: readonly Issue[], most: number): Issue[] {
  if (issues.length <= most) return [...issues];
  const rest: Issue = { place: null, path: '', problem: { code: 'and_more', count: issues.length - most } };
  return [...issues.slice(0, most), rest];
}
