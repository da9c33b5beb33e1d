/**
 * Who opens and shuts a leaf, and when: one keeper a door, asked in order of time.
 *
 * - A leaf is open or shut at the start: shut where more than half of those who go through shut it.
 * - Whoever comes to a shut leaf waits outside the zone while it swings open, then enters. An open one costs nothing.
 * - Whoever has nobody aboard can't open: a pet or a robot vacuum passes only while it is open.
 * - It is shut, by chance, by the last who left the doorway (through or back), some seconds after. Whoever enters before
 *   finds it held open, and then the last of them decides. A leaf that is being shut is shut first, then opened again.
 */
import type { Stream } from '../../engine/stream.js';
import { SECOND_US } from '../../engine/time.js';
import type { Leaf } from '../../geometry/schema.js';
import type { Body } from '../body.js';
import { LEAF_HELD, LEAF_STIR } from '../figures/leaf.js';
import type { Passage } from '../motion/passage.js';
import type { LeafPlace } from './leaf.js';
import { leafBody, leafStir, leafSwing, unseen_s } from './leaf.js';

/** One swing of a leaf or a curtain: a visit of its own. */
export interface Swing {
  readonly body: Body;
  readonly passage: Passage;
  readonly enter_us: number;
  /** The way it moves first. */
  readonly forward: boolean;
}

const HELD_US = LEAF_HELD.value * SECOND_US;

export class LeafKeeper {
  readonly body: Body;
  private readonly opening: Passage;
  private readonly shutting: Passage;
  private readonly stirring: Passage;
  private readonly swing_us: number;
  private open: boolean;
  /** Not before this is it at rest: open to enter by, or shut. */
  private rests_us = 0;
  /** Nobody is in the doorway from here on, as far as is known. */
  private left_us = -Infinity;
  private asked = 0;

  /** @param chance a stream of its own; draw n decides after the n-th time the doorway emptied @param number of its body */
  constructor(
    private readonly leaf: Leaf,
    place: LeafPlace,
    number: number,
    private readonly chance: Stream,
  ) {
    this.body = leafBody(leaf, place, number);
    this.opening = leafSwing(leaf, place, 'open');
    this.shutting = leafSwing(leaf, place, 'shut');
    this.stirring = leafStir(leaf, place, LEAF_STIR.value.by_deg, LEAF_STIR.value.duration_s);
    this.swing_us = Math.round(leaf.swing_s * SECOND_US);
    this.open = leaf.shut_share <= 0.5;
  }

  /** Whether it stands open at a time, wholly. Of times not before anything asked for so far. */
  isOpen(time_us: number): boolean {
    return this.open && time_us >= this.rests_us;
  }

  /**
   * When a body that could enter at `enter_us` may, and the swing that lets it in if there is one. Infinity for whoever can't
   * open and finds it shut: it does not pass.
   */
  admit(body: Pick<Body, 'persons'>, enter_us: number): { readonly enter_us: number; readonly swing: Swing | null } {
    if (this.open) return { enter_us: Math.max(enter_us, this.rests_us), swing: null };
    if (body.persons === 0) return { enter_us: Infinity, swing: null };
    const start = Math.max(enter_us, this.rests_us);
    this.open = true;
    this.rests_us = start + this.swing_us;
    return { enter_us: this.rests_us, swing: this.swung(this.opening, start, true) };
  }

  /** Records that a body admitted leaves at `leave_us`. Gives when to ask {@link after}. */
  used(leave_us: number): number {
    this.left_us = Math.max(this.left_us, leave_us);
    return this.left_us + HELD_US;
  }

  /**
   * At the time {@link used} gave: the swing that shuts it, or null when it stays open or somebody has come meanwhile. The one
   * who shuts it stands beside it, outside the zone.
   */
  after(time_us: number): Swing | null {
    if (!this.open || time_us < this.left_us + HELD_US) return null;
    if (this.chance.at(this.asked++) >= this.leaf.shut_share) return null;
    const start = Math.max(time_us, this.rests_us);
    this.open = false;
    this.rests_us = start + this.swing_us;
    return this.swung(this.shutting, start + Math.round(unseen_s(this.leaf) * SECOND_US), false);
  }

  /** A draught at a time: an open leaf at rest stirs; a shut one, or one that moves, does not. */
  stir(time_us: number): Swing | null {
    if (!this.isOpen(time_us)) return null;
    this.rests_us = time_us + Math.round(LEAF_STIR.value.duration_s * SECOND_US);
    return this.swung(this.stirring, time_us, false);
  }

  private swung(passage: Passage, enter_us: number, opens: boolean): Swing {
    return { body: this.body, passage, enter_us, forward: opens === (this.leaf.opens === 'forward') };
  }
}
