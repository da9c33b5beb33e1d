/** What `jambeam check` works out of a design. */
import type { OutsideLogics } from '../counter/make-logic.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { taught } from '../simulate/doorway-learning.js';
import type { DoorFacts } from '../simulate/fact-types.js';
import { deriveFacts } from '../simulate/facts.js';
import { type LadderRow, heightLadder } from '../simulate/ladder.js';
import { logicsAt } from '../simulate/logics-at.js';
import { hasRangers } from '../simulate/plan.js';

/** What was worked out of a design: facts and a ladder for each door, in their order. */
export interface Findings {
  readonly facts: readonly DoorFacts[];
  readonly ladders: readonly (readonly LadderRow[])[];
  /** What defeats each logic, in its words; empty where it says nothing. */
  readonly defeated_by: readonly string[];
}

/** @param outside gives the logics that are code of the user's own */
export function findingsOf(given: Design, outside?: OutsideLogics): Findings {
  const design = taught(given, outside);
  return {
    facts: deriveFacts(design),
    ladders: design.doors.map((door) =>
      heightLadder(ofOneController(design, door), door, { crossings: crossingsFor(design), outside }),
    ),
    defeated_by: logicsAt(design, design.doors[0]!, outside).map(({ defeated_by }) => defeated_by),
  };
}

/** A check takes seconds, not a minute: a house of many doors gets fewer crossings each, and one with rangers. */
function crossingsFor(design: Design): number {
  return Math.max(50, Math.min(hasRangers(design) ? 80 : 200, Math.round(1000 / design.doors.length)));
}

/**
 * The door and those its controller reads besides. Rangers of two controllers that hear each other are never quiet, so
 * that a ladder would have to take every reading of hours.
 */
function ofOneController(design: Design, { controller }: DesignDoor): Design {
  return {
    ...design,
    doors: design.doors.filter((door) => door.controller === controller),
    controllers: design.controllers.filter(({ name }) => name === controller),
  };
}
