/** What hangs in a doorway or beside it, and when the air moves it. */
import type { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { Curtain, Leaf } from '../../geometry/schema.js';
import { curtainBody, gust } from './curtain.js';
import { Gusts } from './gusts.js';
import type { LeafPlace } from './leaf.js';
import type { Swing } from './leaf-keeper.js';
import { LeafKeeper } from './leaf-keeper.js';

/** Bodies of things that hang are numbered far above all who walk: a leaf moves nobody's number, and so nobody's draws. */
const FIRST_NUMBER = 2_000_000_000;

/** A door's leaf and curtain, and the frame they hang in. */
export interface Hangs {
  readonly place: LeafPlace;
  readonly leaf?: Leaf | undefined;
  readonly curtain?: Curtain | undefined;
}

/** Wind: a draught stirs a leaf, a gust carries a curtain. */
export type Wind = 'draught' | 'gust';

export class Hanging {
  readonly leaf: LeafKeeper | null;
  private readonly curtain: Omit<Swing, 'enter_us'> | null;
  private readonly times: Readonly<Record<Wind, Gusts>>;
  private blown_until_us = 0;

  /** @param index of the door @param stream of its own */
  constructor({ place, leaf, curtain }: Hangs, index: number, stream: Stream) {
    const number = FIRST_NUMBER + 2 * index;
    this.leaf = leaf ? new LeafKeeper(leaf, place, number, stream.child('leaf')) : null;
    this.curtain = curtain
      ? { body: curtainBody(place, number + 1), passage: gust(curtain, place), forward: curtain.swing_m >= 0 }
      : null;
    this.times = {
      draught: new Gusts(leaf?.draught_per_hour ?? 0, stream.child('draught')),
      gust: new Gusts(curtain?.per_hour ?? 0, stream.child('gust')),
    };
  }

  /** Time of the next draught or gust, microseconds; Infinity where none ever comes. */
  next(what: Wind): number {
    return this.times[what].next();
  }

  /** What a draught or a gust moves; null when nothing: a gust that comes while one blows is lost in it. */
  blown(what: Wind, time_us: number): Swing | null {
    if (what === 'draught') return this.leaf?.stir(time_us) ?? null;
    if (!this.curtain || time_us <= this.blown_until_us) return null;
    const { body, passage, forward } = this.curtain;
    this.blown_until_us = time_us + Math.round(passage.leave_s * SECOND_US);
    return { body, passage, forward, enter_us: time_us };
  }
}
