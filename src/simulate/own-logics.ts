/** Logics that a program brings along as objects: no file is loaded, nothing is watched, for the code is the caller's own. */
import type { LogicDefinition } from '../counter/define-logic.js';
import type { OutsideLogics } from '../counter/make-logic.js';
import type { Design } from '../scenario/schema.js';

/** A design with logics of your own, and what gives them to whoever drives it. */
export interface WithOwnLogics {
  readonly design: Design;
  /** Third argument of `simulate` and of `tracePassage`. */
  readonly outside: OutsideLogics;
}

/**
 * Puts logics of your own before those of a design, so that all judge the same people; the first gives the headline.
 *
 * @param design as parseScenario gives it
 * @param own each logic by its name, in the order they are to have; up to 40 letters, digits, spaces, `-` and `_`
 * @throws {RangeError} when a name is taken by a logic of the design, or a door has another number of beams
 * @example const { design, outside } = withOwnLogics(parsed, { mine }); simulate(design, {}, outside);
 */
export function withOwnLogics(design: Design, own: Readonly<Record<string, LogicDefinition<unknown>>>): WithOwnLogics {
  for (const [name, { beams }] of Object.entries(own)) {
    if (design.logics.some((logic) => logic.name === name)) throw new RangeError(`two logics are called ${name}`);
    for (const door of design.doors)
      if (door.beams.length !== beams)
        throw new RangeError(`${name} expects ${beams} beams, door ${door.name} has ${door.beams.length}`);
  }
  const choices = Object.keys(own).map((name) => ({ use: 'module' as const, name, file: name }));
  return {
    design: { ...design, logics: [...choices, ...design.logics] },
    outside: ({ name }) => {
      const definition = own[name];
      if (definition === undefined) throw new RangeError(`no logic called ${name} was given`);
      const { latency_us = 0, defeated_by = 'Nobody has said yet.' } = definition;
      return {
        name,
        beams: definition.beams,
        latency_us,
        readings: definition.readings,
        defeated_by,
        initial: () => definition.initial(),
        step: (state, input) => definition.step(state, input),
        label: (state) => definition.label?.(state) ?? JSON.stringify(state) ?? '',
      };
    },
  };
}
