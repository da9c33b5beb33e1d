/**
 * Who may enter a doorway when: people don't walk through each other.
 *
 * Whoever comes later gives way to somebody coming against them, follows at a distance, and waits while somebody
 * stands in the opening. Where two fit side by side nobody waits. Waiting happens outside the zone, unseen by any beam.
 */
import { uniform } from '../engine/distributions.js';
import { CLOSE_BEHIND_LAG, GIVE_WAY } from './figures/manner.js';

const SECOND = 1_000_000;

interface Use {
  readonly forward: boolean;
  readonly stops: boolean;
  readonly enter_us: number;
  readonly leave_us: number;
}

export class Doorway {
  private readonly uses: Use[] = [];

  /**
   * The earliest moment a body may enter, not before `wanted_us`.
   *
   * @param duration_us how long its visit takes @param u a draw on (0, 1) for the distance it keeps
   */
  admit(wanted_us: number, forward: boolean, duration_us: number, u: number): number {
    this.forget(wanted_us);
    const headway = Math.round(uniform(u, CLOSE_BEHIND_LAG.value.low, CLOSE_BEHIND_LAG.value.high) * SECOND);
    const pause = Math.round(uniform(u, GIVE_WAY.value.low, GIVE_WAY.value.high) * SECOND);
    let enter = wanted_us;
    for (const use of this.uses) {
      if (use.forward !== forward || use.stops) enter = Math.max(enter, use.leave_us + pause);
      // Nobody overtakes: a quicker follower enters so late that it leaves behind the one in front.
      else enter = Math.max(enter, use.enter_us + headway, use.leave_us + headway - duration_us);
    }
    return enter;
  }

  /** Records a visit, of one who stops in the opening or doesn't. */
  use(forward: boolean, stops: boolean, enter_us: number, leave_us: number): void {
    this.uses.push({ forward, stops, enter_us, leave_us });
  }

  private forget(before_us: number): void {
    // Longer ago than the longest distance kept, a visit binds nobody.
    const horizon = before_us - 2 * SECOND;
    for (let i = this.uses.length - 1; i >= 0; i--)
      if ((this.uses[i] as Use).leave_us < horizon) this.uses.splice(i, 1);
  }
}
