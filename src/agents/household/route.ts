/** Which doors lead from one room to another: the shortest way through the house. */
import { type Spot, straight_m } from '../../geometry/house-plan.js';
import { OUTSIDE } from '../outside.js';
import { ROOM_WAY } from '../figures/household.js';

export interface RouteDoor {
  readonly from: number;
  readonly to: number;
  /** Middle of the door on the plan, metres. */
  readonly at_m?: Spot | undefined;
}

/** Nobody goes out into the rain to get from the kitchen to the hall, where there is another way. */
const OUTSIDE_WAY_M = 1000;

export class Routes {
  /** By room they start from (outside last), then by goal: doors in order, null where no way leads. */
  private readonly ways: (readonly (readonly number[] | null)[] | undefined)[] = [];

  constructor(
    private readonly rooms: number,
    private readonly doors: readonly RouteDoor[],
  ) {}

  /** Doors from one room to another, in order; empty when it is the same, null when no way leads there. */
  way(from: number, to: number): readonly number[] | null {
    const start = this.node(from);
    return (this.ways[start] ??= this.search(from))[this.node(to)] ?? null;
  }

  /** Way from one door to another through the room between them, metres. */
  between_m(one: number, other: number): number {
    const [a, b] = [this.doors[one]?.at_m, this.doors[other]?.at_m];
    if (!a || !b) return ROOM_WAY.value;
    return straight_m(a, b);
  }

  private node(room: number): number {
    return room === OUTSIDE ? this.rooms : room;
  }

  /**
   * Dijkstra over rooms; of equal ways the one by the doors named first. What a door adds depends on the door before it, so
   * that shortestWays of the geometry, whose links have a length each, doesn't serve.
   */
  private search(from: number): (readonly number[] | null)[] {
    const nodes = this.rooms + 1;
    const cost = Array.from({ length: nodes }, () => Infinity);
    const ways: (readonly number[] | null)[] = cost.map(() => null);
    const done = cost.map(() => false);
    const start = this.node(from);
    cost[start] = 0;
    ways[start] = [];
    for (;;) {
      let here = -1;
      for (let n = 0; n < nodes; n++)
        if (!done[n] && (cost[n] as number) < Infinity && (here < 0 || (cost[n] as number) < (cost[here] as number)))
          here = n;
      if (here < 0) return ways;
      done[here] = true;
      const way = ways[here] as readonly number[];
      const through = here === this.rooms && here !== start ? OUTSIDE_WAY_M : 0;
      this.doors.forEach((door, d) => {
        const [a, b] = [this.node(door.from), this.node(door.to)];
        const next = a === here ? b : b === here ? a : -1;
        if (next < 0 || done[next]) return;
        const last = way.at(-1);
        const longer =
          (cost[here] as number) + through + (last === undefined ? ROOM_WAY.value : this.between_m(last, d)) + 1;
        if (longer >= (cost[next] as number)) return;
        cost[next] = longer;
        ways[next] = [...way, d];
      });
    }
  }
}
