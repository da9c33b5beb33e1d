/** Minds of guests, pets and robots; residents' are itineraries. Draws are numbered by the decision. */
import { exponential, pick, runningTotals } from '../../engine/distributions.js';
import type { Stream } from '../../engine/stream.js';
import { HOUR_US, clockHours } from '../../engine/time.js';
import type { Calendar } from './calendar.js';
import type { Mind, Stay } from './mover.js';

/** A choice of rooms with their shares. */
export interface RoomShares {
  readonly rooms: readonly number[];
  readonly totals: readonly number[];
}

export function roomShares(shares: readonly (readonly [room: number, share: number])[]): RoomShares {
  return { rooms: shares.map(([room]) => room), totals: runningTotals(shares.map(([, share]) => share)) };
}

/** A room other than the one somebody is in; null where there is none. */
function another({ rooms, totals }: RoomShares, room: number, u: number): number | null {
  const others = rooms.flatMap((one, i) =>
    one === room ? [] : [[one, (totals[i] as number) - (totals[i - 1] ?? 0)] as const],
  );
  const shares = roomShares(others);
  if (!((shares.totals.at(-1) ?? 0) > 0)) return null;
  return shares.rooms[pick(u, shares.totals)] as number;
}

/** A guest moves to and fro between some rooms until it is time to go. */
export class GuestMind implements Mind {
  private made = 0;

  constructor(
    private readonly shares: RoomShares,
    private readonly moves_per_hour: number,
    private readonly end_us: number,
    private readonly chance: Stream,
  ) {}

  next(time_us: number, room: number): Stay | null {
    if (time_us >= this.end_us) return null;
    const n = this.made++;
    const draws = this.chance.nth(n);
    // The first stay is in the room one came to.
    const goal = n === 0 ? room : (another(this.shares, room, draws.at(0)) ?? room);
    const stay_us =
      this.moves_per_hour > 0 ? Math.ceil(exponential(draws.at(1), HOUR_US / this.moves_per_hour)) : Infinity;
    return { room: goal, until_us: Math.min(this.end_us, time_us + stay_us), asleep: false };
  }

  isFree(): boolean {
    return false;
  }

  isAway(): boolean {
    return false;
  }

  fetched(): void {}
}

/** A pet sleeps at night and goes from room to room by day. */
export class PetMind implements Mind {
  private made = 0;

  constructor(
    private readonly rooms: readonly number[],
    private readonly sleeps_in: number,
    private readonly awake: { readonly from: string; readonly to: string },
    private readonly moves_per_hour: number,
    private readonly calendar: Calendar,
    private readonly chance: Stream,
  ) {}

  next(time_us: number, room: number): Stay {
    const wakes_us = this.untilAwake(time_us);
    if (wakes_us > 0) return { room: this.sleeps_in, until_us: time_us + wakes_us, asleep: true };
    const draws = this.chance.nth(this.made++);
    const others = this.rooms.filter((one) => one !== room);
    const goal = others.length > 0 ? (others[Math.floor(draws.at(0) * others.length)] as number) : room;
    const stay_us = Math.ceil(exponential(draws.at(1), HOUR_US / Math.max(1e-9, this.moves_per_hour)));
    return { room: goal, until_us: Math.min(time_us + stay_us, time_us + this.untilAsleep(time_us)), asleep: false };
  }

  isFree(time_us: number): boolean {
    return this.untilAwake(time_us) === 0;
  }

  isAway(): boolean {
    return false;
  }

  fetched(): void {}

  /** Microseconds until it wakes; 0 while it is awake. */
  private untilAwake(time_us: number): number {
    const [hour, from, to] = [this.calendar.hourOf(time_us), clockHours(this.awake.from), clockHours(this.awake.to)];
    const awake = from <= to ? hour >= from && hour < to : hour >= from || hour < to;
    return awake ? 0 : Math.max(1, Math.round(((from - hour + 24) % 24 || 24) * HOUR_US));
  }

  private untilAsleep(time_us: number): number {
    const hour = this.calendar.hourOf(time_us);
    return Math.max(1, Math.round(((clockHours(this.awake.to) - hour + 24) % 24 || 24) * HOUR_US));
  }
}

/** What is sent on errands and does nothing by itself. */
export const IDLE_MIND: Mind = {
  next: (_time_us, room) => ({ room, until_us: Infinity, asleep: false }),
  isFree: () => true,
  isAway: () => false,
  fetched: () => undefined,
};
