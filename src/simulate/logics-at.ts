/** The logics of a design as they count at one door. */
import type { AnyLogic } from '../counter/host.js';
import type { DoorAbout, OutsideLogics } from '../counter/make-logic.js';
import { makeLogic } from '../counter/make-logic.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { sensorNamed } from '../scenario/sensor-named.js';

/** @param outside gives those that are code of the user's own */
export function logicsAt(design: Design, door: DesignDoor, outside?: OutsideLogics): AnyLogic[] {
  const learnt = design.learnt?.filter((one) => one.door === door.name);
  const about = outside && aboutOf(design, door);
  return design.logics.map((choice) =>
    makeLogic(choice, { tables: design.tables, learnt, outside: about && ((code) => outside(code, about)) }),
  );
}

function aboutOf(design: Design, door: DesignDoor): DoorAbout {
  return {
    index: design.doors.findIndex(({ name }) => name === door.name),
    name: door.name,
    beams: door.beams.map(({ name, sensor }) => ({ name, kind: sensorNamed(design, sensor).kind })),
  };
}
