/** A wrong visit as a space–time picture: all that is needed to draw it, as plain numbers. Times in milliseconds of the picture. */
import type { Direction, Level } from '../counter/logic.js';
import type { Why } from './why-classes.js';

export const PARTS = ['trunk', 'head', 'thigh', 'shank', 'foot', 'arm', 'load', 'tail', 'rod'] as const;
export type Part = (typeof PARTS)[number];

/** Where one part lies along the walk at the height of a beam: at even instants from `from` on. */
export interface Band {
  readonly part: Part;
  /** Number of the first instant. */
  readonly from: number;
  /** Lower and upper end at each instant, millimetres from the door plane. */
  readonly low_mm: readonly number[];
  readonly high_mm: readonly number[];
}

export interface PicturedBody {
  readonly number: number;
  readonly who: string;
  readonly kind: string;
  readonly direction: Direction;
  readonly stature_m: number;
  readonly crosses: boolean;
  readonly enter_ms: number;
  readonly leave_ms: number;
  /** Per panel. */
  readonly bands: readonly (readonly Band[])[];
}

/** Beams that lie side by side at one height see the same cross-sections. */
export interface Panel {
  /** Half-way across the opening. */
  readonly height_m: number;
  /** Indices of its beams. */
  readonly beams: readonly number[];
}

export interface PicturedBeam {
  readonly name: string;
  readonly ranger: boolean;
  /** Half-way across the opening, from the door plane. */
  readonly at_mm: number;
  /** Level at the picture's start, then the instants at which it changes, as the controller saw it. */
  readonly level: Level;
  readonly changes_ms: readonly number[];
  /** A ranger's readings: when, and which of them were near enough to count as broken. */
  readonly readings_ms: readonly number[];
  readonly near: readonly Level[];
}

export interface Picture {
  readonly door: string;
  readonly logic: string;
  readonly replicate: number;
  /** Number of the visit it is about. */
  readonly number: number;
  readonly step_ms: number;
  readonly span_ms: number;
  readonly panels: readonly Panel[];
  readonly beams: readonly PicturedBeam[];
  /** The visit it is about comes first. */
  readonly bodies: readonly PicturedBody[];
  /** The logic's states: from when, and what they are called. */
  readonly states: readonly { readonly from_ms: number; readonly label: string }[];
  readonly tallies: readonly { readonly at_ms: number; readonly direction: Direction }[];
  /** Units of wrong. */
  readonly missed: number;
  readonly reversed: number;
  readonly extra: number;
  readonly invented: number;
  /** Where it was asked why. */
  readonly why?: Why;
}
