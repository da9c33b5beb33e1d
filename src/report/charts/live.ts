/**
 * What a chart is made of once scripts bring it to life: plain data, written by the report and read by the page
 * (src/page). Texts in it are a user's in part and go into the page as text only.
 */

/** The numbers behind a picture: shown as a table, saved as CSV, read out where a reader points. */
export interface ChartTable {
  readonly columns: readonly Column[];
  /** A row each, as many cells as columns; null where there is no number. */
  readonly rows: readonly (readonly Cell[])[];
}

export type Cell = string | number | null;

export interface Column {
  /** With its unit: 'time, h'. */
  readonly title: string;
  /** Number of the series it belongs to, where it does: hidden with it. */
  readonly series?: number;
}

/** Where the rows of the table lie in the picture, so that a reader can point at them. */
export type Places =
  /** Along one axis, in its units; `steps`: a row holds from its place to the next. */
  | { readonly along: 'x' | 'y'; readonly at: readonly number[]; readonly steps?: true }
  /** Anywhere. */
  | { readonly along: 'both'; readonly x: readonly number[]; readonly y: readonly number[] };

/** Something of a picture that can be left out: its marks follow the signal `show0`, `show1`, … of its number. */
export interface Series {
  readonly name: string;
  readonly color: string;
  readonly strokeDash?: readonly number[];
  /** Of a band; a line has none. */
  readonly opacity?: number;
}

export interface LiveChart {
  readonly id: string;
  readonly title: string;
  readonly height: number;
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  /** Compiled for vega. */
  readonly spec: object;
  readonly table: ChartTable;
  readonly places: Places;
  readonly series: readonly Series[];
  /** Hours in one unit of x, where x is time since the start: such charts follow one another. */
  readonly clock_h: number | null;
}

/** The signal of charts over time: a stretch of x, or null for the whole. */
export const SPAN = 'span';

/** The signal that shows or hides series i. */
export const showSignal = (i: number): string => `show${i}`;

/** An opacity that follows a series: for the marks of a spec. */
export const shownAs = (i: number, opacity: number): { readonly expr: string } => ({
  expr: `${showSignal(i)} ? ${opacity} : 0`,
});
