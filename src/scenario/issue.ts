/** What is wrong with a user's input: data first; words are made in explain.ts, the only place for them. */

/** A place in a text the user wrote. Lines and columns count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

export type Problem =
  | { readonly code: 'syntax'; readonly detail: string }
  | {
      readonly code: 'unknown_key';
      readonly key: string;
      readonly nearest?: string | undefined;
      readonly known: readonly string[];
    }
  | { readonly code: 'missing_key'; readonly key: string; readonly description?: string | undefined }
  | { readonly code: 'wrong_type'; readonly expected: string; readonly found: string }
  | {
      readonly code: 'out_of_range';
      readonly min?: number | undefined;
      readonly max?: number | undefined;
      readonly unit?: string | undefined;
      readonly found: number;
    }
  | {
      readonly code: 'not_one_of';
      readonly choices: readonly string[];
      readonly found: string;
      readonly nearest?: string | undefined;
    }
  | { readonly code: 'duplicate_name'; readonly what: string; readonly name: string }
  | {
      readonly code: 'unknown_name';
      readonly what: string;
      readonly name: string;
      readonly known: readonly string[];
      readonly nearest?: string | undefined;
    }
  | { readonly code: 'unit_suspected'; readonly found: number; readonly unit: string; readonly suggestion: string }
  | { readonly code: 'other'; readonly message: string; readonly hint?: string | undefined };

export interface Issue {
  /** Null for what comes from the command line; then `path` says which option. */
  readonly place: Place | null;
  /** Path of the key, `doors.front.width_m`; lists are addressed by name where items have one, else by position from 1. */
  readonly path: string;
  readonly problem: Problem;
}
