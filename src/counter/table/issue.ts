/** What is wrong with a table: data with a place, for whoever prints it. */
export interface TableIssue {
  readonly file: string;
  /** Lines and columns count from 1. */
  readonly line: number;
  readonly column: number;
  /** `states.rest.2.go`: states by name, rules by position from 1. Empty for the file as a whole. */
  readonly path: string;
  readonly message: string;
  readonly hint?: string | undefined;
}

/** Text of the user's inside a message: quoted, short, without control characters. */
export function quote(text: string): string {
  const short = text.length > 60 ? `${text.slice(0, 60)}…` : text;
  return JSON.stringify(short).replace(
    /[\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/gu,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}
