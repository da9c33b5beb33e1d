/** From what a user wrote to a design: short forms spelt out, defaults that depend on other keys filled in. */
import type { z } from 'zod';
import { type LogicChoice, logicSchema } from '../counter/schema.js';
import type { Design, DesignBeam, DesignDoor, scenarioSchema } from './schema.js';

type Scenario = z.output<typeof scenarioSchema>;
type ScenarioDoor = Scenario['doors'][number];
const LONGEST_NAME = 40;

/**
 * @param scenario checked: every name is there, every door has either a pair or beams
 * @param tableNames the names table logics give themselves, by file
 */
export function resolve(scenario: Scenario, tableNames: ReadonlyMap<string, string>): Design {
  const { doors, logics, ...common } = scenario;
  const firstController = scenario.controllers[0]?.name ?? 'main';
  return {
    ...common,
    doors: doors.map((door) => resolveDoor(door, firstController)),
    logics: resolveLogics(logics, tableNames),
    tables: {},
  };
}

function resolveDoor({ pair, beams, ...door }: ScenarioDoor, firstController: string): DesignDoor {
  const resolved = pair ? beamsOfPair(pair) : (beams ?? []).map(withFarEnd);
  return { ...door, controller: door.controller ?? firstController, beams: resolved };
}

/** Two level beams, the door plane half-way. */
function beamsOfPair({ sensor, height_m, spacing_m }: NonNullable<ScenarioDoor['pair']>): DesignBeam[] {
  const beam = (name: string, at_m: number): DesignBeam => ({
    name,
    sensor,
    at_m,
    height_m,
    far_at_m: at_m,
    far_height_m: height_m,
    emitter_jamb: 'left',
  });
  return [beam('A', -spacing_m / 2), beam('B', spacing_m / 2)];
}

/** A beam runs straight across and level unless its far end is placed. */
function withFarEnd(beam: NonNullable<ScenarioDoor['beams']>[number]): DesignBeam {
  return { ...beam, far_at_m: beam.far_at_m ?? beam.at_m, far_height_m: beam.far_height_m ?? beam.height_m };
}

/** Logics by a name each: the user's, or what they use, with a number behind it where that is taken. */
function resolveLogics(logics: Scenario['logics'], tableNames: ReadonlyMap<string, string>): Design['logics'] {
  const choices = logics.map((logic): LogicChoice => (typeof logic === 'string' ? withDefaults(logic) : logic));
  const taken = new Set(choices.flatMap(({ name }) => name ?? []));
  return choices.map((choice) => {
    if (choice.name !== undefined) return { ...choice, name: choice.name };
    const base = choice.use === 'table' ? (tableNames.get(choice.file) ?? stem(choice.file)) : choice.use;
    let name = base;
    for (let n = 2; taken.has(name); n++) name = `${base.slice(0, LONGEST_NAME - 4)}-${n}`;
    taken.add(name);
    return { ...choice, name };
  });
}

function withDefaults(use: 'first-broken' | 'four-level' | 'hold-off'): LogicChoice {
  return logicSchema.parse({ use });
}

/** `logics/my.logic.yaml` gives `my-logic`. */
function stem(file: string): string {
  const base = file.split(/[\\/]/).at(-1) ?? '';
  const words = base.replace(/\.[^.]*$/, '').replace(/[^\p{L}\p{N}_-]+/gu, '-');
  return words.replace(/^[-_]+|[-_]+$/g, '').slice(0, LONGEST_NAME) || 'table';
}
