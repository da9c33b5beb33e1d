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
