/**
 * A built-in figure with where it comes from. Every number the simulation assumes about the world is one of these,
 * so that a reader can list them all and doubt each.
 */

type FigureStatus =
  /** Stands so in the cited source. */
  | 'published'
  /** Stands so in a document that quotes the cited source. */
  | 'second-hand'
  /** Worked out from published data; the note says how. */
  | 'computed'
  /** The trade does so; no source. */
  | 'common practice'
  /** Remembered, not looked up. */
  | 'from memory'
  /** A judgement of this project. */
  | 'assumption';

/** Named parts of one figure, such as `mean` and `sd`. */
type FigureRow = Readonly<Record<string, number>>;
/** One number, one row of named numbers, or a table. */
export type FigureValue = number | FigureRow | readonly FigureRow[];

export interface Figure<V extends FigureValue = FigureValue> {
  /** Dotted name, unique over all rooms: `people.stature.adult.woman`. */
  readonly id: string;
  readonly value: V;
  /** Unit of the value, or of each of its parts where they differ. */
  readonly unit: string;
  /** What it does in the simulation. */
  readonly used_in: string;
  /** The source in words; what it rests on where there is none. */
  readonly citation: string;
  readonly status: FigureStatus;
  /** How it was computed, or why it was assumed. */
  readonly note?: string;
}

/** The value as one line of text: `mean 1.7532, sd 0.0763`; table rows are separated by semicolons. */
export function figureValueText(value: FigureValue): string {
  if (typeof value === 'number') return String(value);
  if (isTable(value)) return value.map(rowText).join('; ');
  return rowText(value);
}

function rowText(row: FigureRow): string {
  return Object.entries(row)
    .map(([part, number]) => `${part} ${number}`)
    .join(', ');
}

function isTable(value: FigureRow | readonly FigureRow[]): value is readonly FigureRow[] {
  return Array.isArray(value);
}
