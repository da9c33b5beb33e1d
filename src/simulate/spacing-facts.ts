/** From one beam to the next along the walk: how long it takes, what is shallower, and whether readings tell the order. */
import type { Body } from '../agents/body.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { isRanger } from '../sensors/mounted.js';
import type { MountedBeam } from '../sensors/mounted.js';
import type { Crossing } from './crossing-sample.js';
import { depthOf } from './crossing-sample.js';
import type { SpacingFacts } from './fact-types.js';
import { controllerOf } from './plan.js';
import type { RangerDoor } from './ranger-facts.js';
import { orderFacts, pairScanFacts } from './ranger-facts-crossings.js';
import { together } from './stretches.js';
import type { Weighted } from './weighted.js';
import { quantilesOf, shareOf } from './weighted.js';

/** Beams that follow each other along the walk; of several at one place the first stands for all. */
export function spacingFacts(
  design: Design,
  door: DesignDoor,
  beams: readonly MountedBeam[],
  crossings: readonly Weighted<Crossing>[],
  everybody: readonly Weighted<Pick<Body, 'speed_mps'>>[],
  rangers: RangerDoor,
): SpacingFacts[] {
  const inOrder = beams
    .map((beam, index) => ({ beam, index, at_m: placeAlong(beam) }))
    .toSorted((a, b) => a.at_m - b.at_m || a.index - b.index);
  const places = inOrder.filter(({ at_m }, i) => i === 0 || at_m > (inOrder[i - 1] as { at_m: number }).at_m);
  const speeds = everybody.map(({ item, weight }) => ({ item: item.speed_mps, weight }));
  const [slowest_mps = 0, fastest_mps = 0] = quantilesOf(speeds, [0.025, 0.975]) ?? [];
  const { poll_ms } = controllerOf(design, door);
  return places.slice(1).map((second, i): SpacingFacts => {
    const first = places[i] as typeof second;
    // Free of the last bit's dust: 0.05 − −0.05 is what the user typed as 0.1.
    const spacing_m = Math.round((second.at_m - first.at_m) * 1e9) / 1e9;
    const seen = crossings.filter(({ item }) =>
      [first, second].every(({ index }) => (item.breaks[index] as readonly number[]).length > 0),
    );
    const depths = seen.map(({ item, weight }) => ({ item: depthOf(item, first.index) ?? 0, weight }));
    const quantiles = quantilesOf(depths, [0.025, 0.5, 0.975]);
    const faster = (than_mps: number) => shareOf(speeds, (speed) => speed > than_mps);
    const intervals = [first, second].flatMap(({ index }) => rangers.read[index]?.interval ?? []);
    const scan = intervals.length > 0 ? pairScanFacts(intervals, spacing_m, faster) : null;
    const both = isRanger(first.beam) && isRanger(second.beam);
    const order = scan && both ? orderFacts(crossings, [first.index, second.index], scan.interval.idle_ms) : null;
    const shared = rangers.sharedSight(first.index, second.index, (first.at_m + second.at_m) / 2);
    return {
      first: first.beam.name,
      second: second.beam.name,
      spacing_m,
      fastest_mps,
      slowest_mps,
      fastest_ms: (1000 * spacing_m) / fastest_mps,
      slowest_ms: (1000 * spacing_m) / slowest_mps,
      speeds_n: speeds.length,
      depth_m: quantiles && {
        low: quantiles[0] as number,
        middle: quantiles[1] as number,
        high: quantiles[2] as number,
      },
      shallower: shareOf(depths, (depth) => depth < spacing_m),
      never_together: shareOf(
        seen,
        ({ breaks }) => !together(breaks[first.index] as number[], breaks[second.index] as number[]),
      ),
      poll:
        poll_ms === undefined || both
          ? null
          : {
              poll_ms,
              sure_to_mps: (1000 * spacing_m) / poll_ms,
              unsure: shareOf(speeds, (speed) => speed * poll_ms > 1000 * spacing_m),
            },
      scan,
      rangers: order && shared && { ...shared, ...order },
    };
  });
}

/** Along the walk: of a barrier half-way across, of a ranger where it sits, for cones that cross still have an order. */
function placeAlong(beam: MountedBeam): number {
  const { from, to } = beam.line;
  return isRanger(beam) ? from.y : (from.y + to.y) / 2;
}
