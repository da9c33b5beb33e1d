/** What truly happened: one body's stay in the doorway zone. Plain data, from the crowd to the score. */
import { SECOND_US } from '../engine/time.js';
import type { Body, BodySort } from './body.js';
import type { Passage } from './motion/passage.js';
import type { PassageKind } from './schema.js';

/** One stay of a body in a doorway zone: the truth that counts are compared with. A row of passages.csv. */
export interface Visit {
  /** Counts visits of one replicate over all doors, from 1, in order of entering. */
  readonly number: number;
  /** Index of the door in the design. */
  readonly door: number;
  /** Number of the body in this replicate: the same body keeps it on its way back. */
  readonly body: number;
  readonly sort: BodySort;
  /** Name of the walker, as in the mix. */
  readonly who: string;
  /** Height of the body, metres. */
  readonly stature_m: number;
  /** Persons aboard: each is one crossing if the visit crosses. */
  readonly persons: number;
  readonly kind: PassageKind;
  /** Index of the party's entry in the door's mix: what a share is reweighted by. {@link NO_ENTRY} where no mix asked for it. */
  readonly entry: number;
  /** Direction of the first move: the side the body came from. */
  readonly direction: 'forward' | 'backward';
  /** Integer microseconds since the clock's start. */
  readonly enter_us: number;
  /** Last pass of the trunk axis through the door plane; null when the body leaves where it came from. */
  readonly cross_us: number | null;
  readonly leave_us: number;
}

/** No entry of any mix: of a household's visits, of a leaf's or a curtain's swing. */
export const NO_ENTRY = -1;

/** Receives visits in order of entering. */
export type VisitSink = (visit: Visit, body: Body, passage: Passage) => void;
/** A visit on the agenda; it gets its number when it begins. */
export type Unnumbered = Omit<Visit, 'number'> & { number: number };

/** The visit of a body that enters at some time for a passage. */
export function visitOf(
  door: number,
  body: Body,
  passage: Passage,
  enter_us: number,
  forward: boolean,
  kind: PassageKind,
  entry: number,
): Unnumbered {
  const { cross_s, leave_s } = passage;
  return {
    number: 0,
    door,
    body: body.number,
    sort: body.sort,
    who: body.who,
    stature_m: body.stature_m,
    persons: body.persons,
    kind,
    entry,
    direction: forward ? 'forward' : 'backward',
    enter_us,
    cross_us: cross_s === null ? null : enter_us + Math.round(cross_s * SECOND_US),
    leave_us: enter_us + Math.round(leave_s * SECOND_US),
  };
}
