/**
 * The way of one logic's tallies from its controller to the ledgers of the rooms: some are lost, some arrive twice.
 *
 * What happens here is no fault of the logic: the door's confusion and drift stay as the logic said, rooms go wrong.
 */
import type { Stream } from '../engine/stream.js';
import type { Controller } from '../sensors/controllers/schema.js';

/**
 * How often the next tally arrives: 0, 1 or 2 times.
 *
 * @param stream of its own for each door and logic: draws 2n and 2n + 1 are of the n-th tally, lost and twice
 */
export function tallyWay(
  controller: Pick<Controller, 'tallies_lost_share' | 'tallies_twice_share'>,
  stream: () => Stream,
): () => 0 | 1 | 2 {
  const { tallies_lost_share: lost, tallies_twice_share: twice } = controller;
  if (lost === 0 && twice === 0) return () => 1;
  const chance = stream();
  let n = 0;
  return () => {
    const tally = n++;
    if (chance.at(2 * tally) < lost) return 0;
    return chance.at(2 * tally + 1) < twice ? 2 : 1;
  };
}
