/** An issue in words. */
export interface Explanation {
  /** One clause: what was expected and what was found. */
  readonly text: string;
  /** What to do about it. */
  readonly hint?: string;
}
