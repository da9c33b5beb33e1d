/** A door's own turns take as long as its controller's round, whoever else is read in it. */
import { describe, expect, test } from 'vitest';
import { placeRangers } from '../../../src/simulate/ranger-facts-house.js';
import { roundTimes } from '../../../src/simulate/ranger-facts-scan.js';
import { ownTurns } from '../../../src/simulate/firmware/turns.js';
import { DOORS, designOf, newFirmwareFor } from './doors.js';

const turnsOf = (sets: string[], door: number) =>
  ownTurns(placeRangers(designOf({ scenario: 'turns-of-six', sets })), door);

describe('six rangers of three doors on one controller, 60 ms each', () => {
  test('each door has its two turns, and the others’ as a pause', () => {
    const own = [
      { beams: 1, cycle_us: 60_000, pause_us: 0 },
      { beams: 2, cycle_us: 60_000, pause_us: 240_000 },
    ];
    for (const door of [0, 1, 2]) expect(turnsOf([], door)).toEqual(own);
  });

  test('what is done once a round is done between a door’s last turn and its first', () => {
    expect(turnsOf(['controllers.main.per_round_ms=7.5'], 1).at(-1)?.pause_us).toBe(247_500);
  });

  test('turns shared with other doors, one ranger read twice', () => {
    const turns = '[[front.A, kitchen-door.A], [study-door.A], [front.B], [kitchen-door.B, study-door.B], [front.A]]';
    expect(turnsOf([`controllers.main.turns=${turns}`], 0)).toEqual([
      { beams: 1, cycle_us: 60_000, pause_us: 60_000 },
      { beams: 2, cycle_us: 60_000, pause_us: 60_000 },
      { beams: 1, cycle_us: 60_000, pause_us: 0 },
    ]);
  });
});

test.each(['rangers among those of other doors', 'rangers read together', 'a ranger and a light barrier'])(
  '%s: own turns and pauses make up the round',
  (name) => {
    const choice = DOORS[name]!;
    const house = placeRangers(designOf(choice));
    const door = choice.door ?? 0;
    const [times] = roundTimes(house).filter(({ round }) => round.turns.flat().some((member) => member.door === door));
    const own_us = ownTurns(house, door).reduce((sum, { cycle_us, pause_us }) => sum + cycle_us + pause_us, 0);
    expect(own_us).toBe(times!.idle.round_us);
  },
);

test('with a pause after the echo there is no cycle, and the pause is stated', () => {
  const { plan } = newFirmwareFor(DOORS['rangers whose echo decides']!, 10);
  expect(plan.turns).toEqual([
    { beams: 1, cycle_us: 0, pause_us: 5000 },
    { beams: 2, cycle_us: 0, pause_us: 17_000 },
  ]);
});
