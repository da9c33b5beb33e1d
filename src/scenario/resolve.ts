/** From what a user wrote to a design: short forms spelt out, defaults that depend on other keys filled in. */
import type { z } from 'zod';
import { householdOf } from '../agents/household/short-forms.js';
import { trafficSchema } from '../agents/schema.js';
import { type LedgerChoice, ledgerSchema } from '../counter/ledger/schema.js';
import { type BARE_LOGICS, type AnyChoice, type LogicChoice, logicSchema } from '../counter/schema.js';
import { DEG, atan2 } from '../engine/arithmetic.js';
import { withHousehold } from './household.js';
import type { Design, DesignBeam, DesignDoor, startedSchema } from './schema.js';

type Scenario = z.output<typeof startedSchema>;
type ScenarioDoor = Scenario['doors'][number];
const LONGEST_NAME = 40;

/**
 * @param scenario checked: every name is there, every door has either a pair or beams
 * @param tableNames the names table logics give themselves, by file
 */
export function resolve(scenario: Scenario, tableNames: ReadonlyMap<string, string>): Design {
  const { doors, logics, ledgers, household, ...common } = scenario;
  const firstController = scenario.controllers[0]?.name ?? 'main';
  return withHousehold({
    ...common,
    ...(household !== undefined && { household: householdOf(household) }),
    doors: doors.map((door) => resolveDoor(door, firstController, scenario.sensors)),
    logics: resolveLogics(logics, tableNames),
    ledgers: resolveLedgers(ledgers),
    tables: {},
  });
}

function resolveDoor(
  { pair, beams, traffic, ...door }: ScenarioDoor,
  firstController: string,
  sensors: Scenario['sensors'],
): DesignDoor {
  const written = pair ? beamsOfPair(pair, door.width_m) : (beams ?? []);
  return {
    ...door,
    traffic: traffic ?? trafficSchema.parse({ arrivals_per_hour: 0 }),
    controller: door.controller ?? firstController,
    beams: wholeBeams(written, door.height_m, sensors),
  };
}

/** Beams with all that follows from their door and their sensors. */
export function wholeBeams(
  written: readonly WrittenBeam[],
  lintel_m: number,
  sensors: Scenario['sensors'],
): DesignBeam[] {
  return written.map((beam) => aimed(withHeight(beam, lintel_m), sensors));
}

type WrittenBeam = Omit<DesignBeam, 'height_m'> & { readonly height_m?: number | undefined };

/** Two beams, the door plane half-way. */
export function beamsOfPair(pair: NonNullable<ScenarioDoor['pair']>, width_m: number): WrittenBeam[] {
  const { sensor, mount, height_m, tilt_deg, spacing_m } = pair;
  // Facing: each looks at the other, from jamb to jamb and as far along the walk as they are apart.
  const turn_deg = mount === 'facing' ? atan2(spacing_m, width_m) / DEG : undefined;
  const beam = (name: string, side: -1 | 1): WrittenBeam => ({
    name,
    sensor,
    mount: mount === 'interleaved' || mount === 'facing' ? (side < 0 ? 'left-jamb' : 'right-jamb') : mount,
    at_m: (side * spacing_m) / 2,
    ...(height_m !== undefined && { height_m }),
    ...(tilt_deg !== undefined && { tilt_deg }),
    ...(turn_deg !== undefined && { turn_deg: -side * turn_deg }),
  });
  return [beam('A', -1), beam('B', 1)];
}

/** Under the lintel a ranger hangs at its height unless it says otherwise. */
function withHeight(beam: WrittenBeam, lintel_m: number): DesignBeam {
  return { ...beam, height_m: beam.height_m ?? lintel_m };
}

/**
 * A beam with the keys of its kind: a light barrier has a far end, straight across and level unless it is placed; a
 * ranger has a direction. Neutral values of the other kind's keys go, so that a design may change kinds.
 */
export function aimed(beam: DesignBeam, sensors: Scenario['sensors']): DesignBeam {
  const { far_at_m, far_height_m, tilt_deg, turn_deg, ...common } = beam;
  const kind = Object.hasOwn(sensors, beam.sensor) ? sensors[beam.sensor]?.kind : beam.sensor;
  if (kind === undefined || kind === 'light-barrier') {
    return {
      ...common,
      far_at_m: far_at_m ?? beam.at_m,
      far_height_m: far_height_m ?? beam.height_m,
      ...(tilt_deg ? { tilt_deg } : {}),
      ...(turn_deg ? { turn_deg } : {}),
    };
  }
  return {
    ...common,
    ...(far_at_m !== undefined && far_at_m !== beam.at_m ? { far_at_m } : {}),
    ...(far_height_m !== undefined && far_height_m !== beam.height_m ? { far_height_m } : {}),
    tilt_deg: tilt_deg ?? 0,
    turn_deg: turn_deg ?? 0,
  };
}

/** Logics by a name each: the user's, or what they use, with a number behind it where that is taken. */
export function resolveLogics(logics: Scenario['logics'], tableNames: ReadonlyMap<string, string>): Design['logics'] {
  const choices = logics.map((logic): AnyChoice => (typeof logic === 'string' ? withDefaults(logic) : logic));
  return named(choices, (choice) => {
    if (choice.use === 'table') return tableNames.get(choice.file) ?? stem(choice.file, 'table');
    if (choice.use === 'module') return stem(choice.file, 'module');
    return choice.use === 'process' ? stem(programOf(choice.command), 'process') : choice.use;
  });
}

/** What in a command the program is known by: of `python3 my-logic.py --fast` the script. */
function programOf(command: string): string {
  const [program = '', ...args] = command.split(/\s+/);
  return args.find((arg) => !arg.startsWith('-') && /\w\.\w+['"]?$/.test(arg)) ?? program;
}

/** Ledgers by a name each, in the same way; a bare name means its defaults. */
export function resolveLedgers(ledgers: Scenario['ledgers']): Design['ledgers'] {
  const choices = ledgers.map(
    (one): LedgerChoice => (typeof one === 'string' ? ledgerSchema.parse({ use: one }) : one),
  );
  return named(choices, ({ use }) => use);
}

/** Each with its own name, or its base, with a number behind it where that is taken. */
function named<Choice extends { readonly name?: string | undefined }>(
  choices: readonly Choice[],
  baseOf: (choice: Choice) => string,
): (Choice & { name: string })[] {
  const taken = new Set(choices.flatMap(({ name }) => name ?? []));
  return choices.map((choice) => {
    if (choice.name !== undefined) return { ...choice, name: choice.name };
    const base = baseOf(choice);
    let name = base;
    for (let n = 2; taken.has(name); n++) name = `${base.slice(0, LONGEST_NAME - 4)}-${n}`;
    taken.add(name);
    return { ...choice, name };
  });
}

function withDefaults(use: (typeof BARE_LOGICS)[number]): LogicChoice {
  return logicSchema.parse({ use });
}

/** `logics/my.logic.yaml` gives `my-logic`. */
function stem(file: string, otherwise: string): string {
  const base = file.split(/[\\/]/).at(-1) ?? '';
  const words = base.replace(/\.[^.]*$/, '').replace(/[^\p{L}\p{N}_-]+/gu, '-');
  return words.replace(/^[-_]+|[-_]+$/g, '').slice(0, LONGEST_NAME) || otherwise;
}
