/** Whose turn it is: the rangers of a controller in the order in which it reads them, again and again. */
import type { Controller } from './schema.js';

/** A ranger by the indices of its door and of its beam in that door. */
export interface Member {
  readonly door: number;
  readonly beam: number;
}

/** Read together. */
export type Turn = readonly Member[];

export interface Round {
  readonly controller: Controller;
  /** Index among the controllers. */
  readonly index: number;
  /** None when the controller has no ranger. */
  readonly turns: readonly Turn[];
}

/** As much of a door as a round needs. */
export interface DoorOfRound {
  readonly name: string;
  /** Name of its controller. */
  readonly controller: string;
  readonly beams: readonly { readonly name: string; readonly ranger: boolean }[];
}

/**
 * The rounds of all controllers: turns as written; rangers not named there follow one after another, in order of doors
 * and beams. A ranger that is named more than once is read more than once a round.
 *
 * @throws RangeError when a turn names what is no ranger of the controller's doors; a scenario is checked for that before
 */
export function roundsOf(controllers: readonly Controller[], doors: readonly DoorOfRound[]): Round[] {
  return controllers.map((controller, index) => {
    const left = rangersOf(controller, doors);
    const own = new Map(left);
    const turns: Turn[] = (controller.turns ?? []).map((turn) =>
      turn.map((name) => {
        const member = own.get(name);
        if (member === undefined) throw new RangeError(`${controller.name} has no ranger ${name}`);
        left.delete(name);
        return member;
      }),
    );
    for (const member of left.values()) turns.push([member]);
    return { controller, index, turns };
  });
}

/** Rangers of a controller's doors by the name a turn calls them, in order of doors and beams. */
function rangersOf(controller: Controller, doors: readonly DoorOfRound[]): Map<string, Member> {
  const rangers = new Map<string, Member>();
  for (const [door, { name, controller: whose, beams }] of doors.entries()) {
    if (whose !== controller.name) continue;
    for (const [beam, { name: beamName, ranger }] of beams.entries()) {
      if (ranger) rangers.set(`${name}.${beamName}`, { door, beam });
    }
  }
  return rangers;
}
