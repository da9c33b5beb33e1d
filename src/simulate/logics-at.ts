/** The logics of a design as they count at one door. */
import type { AnyLogic } from '../counter/host.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import { makeLogic } from '../counter/make-logic.js';
import type { Design, DesignDoor } from '../scenario/schema.js';

/** @param outside gives those that are code of the user's own */
export function logicsAt(design: Design, _door: DesignDoor, outside?: OutsideLogics): AnyLogic[] {
  return design.logics.map((choice) => makeLogic(choice, { tables: design.tables, outside }));
}
