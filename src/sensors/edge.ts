/** One change of one beam's state, as its sensor says it. */
export interface Edge {
  /** Integer microseconds since the clock's start. */
  readonly time_us: number;
  /** Index among the door's beams. */
  readonly beam: number;
  /** 1 broken, 0 clear. */
  readonly level: 0 | 1;
}
