/** The named crowds: the starter scenario's doorway and traffic, long enough for a given number of passages. */
import { DEFAULT_MIX } from '../src/agents/schema.js';
import { starterTable } from '../src/counter/table/starter.js';
import { parseScenario } from '../src/scenario/parse.js';
import { controllerSchema } from '../src/sensors/controllers/schema.js';
import type { RangerSensor } from '../src/sensors/schema.js';
import { timeOfFlightSchema } from '../src/sensors/time-of-flight/schema.js';
import { triangulationSchema } from '../src/sensors/triangulation/schema.js';
import { ultrasonicSchema } from '../src/sensors/ultrasonic/schema.js';
import type { Design } from '../src/scenario/schema.js';
import { starterScenario } from '../src/scenario/starter.js';

export interface BenchCrowd {
  readonly name: string;
  /** Height of both beams, metres. */
  readonly height_m: number;
  readonly mix: typeof DEFAULT_MIX;
  /** How many of the starter's logics judge it. */
  readonly logics: number;
  /** A ranger for both beams, each read every 30 ms; without it light barriers. */
  readonly ranger?: RangerSensor;
  /**
   * Between which bounds a right answer lies, whatever the seed. Breaks: two legs at 0.2 m, a trunk and sometimes an
   * arm at hip height, one trunk at chest height (common practice, no source). Wrong: next to none at chest height,
   * most people at shin height.
   */
  readonly breaksPerCrossing: readonly [number, number];
  readonly wrongPer100: readonly [number, number];
}

const ADULTS: typeof DEFAULT_MIX = [{ who: 'adult', kind: 'through', share: 1 }];

export const CROWDS: readonly BenchCrowd[] = [
  crowd('adults through at 0.2 m', 0.2, ADULTS, 1, [1.5, 2.1], [25, 120]),
  crowd('adults through at 0.9 m', 0.9, ADULTS, 1, [0.98, 1.4], [0, 25]),
  crowd('adults through at 1.3 m', 1.3, ADULTS, 1, [0.97, 1.02], [0, 3]),
  crowd('default mix', 0.95, DEFAULT_MIX, 1, [0.9, 1.4], [1, 30]),
  crowd('default mix, four logics', 0.95, DEFAULT_MIX, 4, [0.9, 1.4], [1, 30]),
];

function crowd(
  name: string,
  height_m: number,
  mix: typeof DEFAULT_MIX,
  logics: number,
  breaksPerCrossing: readonly [number, number],
  wrongPer100: readonly [number, number],
): BenchCrowd {
  return { name, height_m, mix, logics, breaksPerCrossing, wrongPer100 };
}

/**
 * The same adults before a pair of rangers that take turns of 15 ms, so that each is read every 30 ms. Clothes absorb the
 * same of everybody, so that no replicate is run again with other clothes.
 */
export const RANGER_CROWDS: readonly BenchCrowd[] = [
  {
    ...crowd('adults, ultrasonic pair', 0.95, ADULTS, 1, [0.98, 1.4], [0, 25]),
    ranger: ultrasonicSchema.parse({ kind: 'ultrasonic-ranger', clothing_least_db: 6, clothing_most_db: 6 }),
  },
  {
    ...crowd('adults, triangulation pair', 0.95, ADULTS, 1, [0.9, 1.6], [0, 40]),
    ranger: triangulationSchema.parse({ kind: 'triangulation-ranger', range_m: 1.2, measure_ms: 20 }),
  },
  {
    ...crowd('adults, time-of-flight pair', 0.95, ADULTS, 1, [0.9, 1.6], [0, 40]),
    ranger: timeOfFlightSchema.parse({
      kind: 'time-of-flight-ranger',
      timing_budget_ms: 14,
      reflectance_least: 0.5,
      reflectance_most: 0.5,
    }),
  },
];

export function crowdNamed(name: string): BenchCrowd {
  const found = [...CROWDS, ...RANGER_CROWDS].find((one) => one.name === name);
  if (!found) throw new RangeError(`no crowd is named ${name}`);
  return found;
}

/** Longest clock a scenario may have, hours. */
const YEAR_H = 8760;

/** A design in which a little more than `passages` visits happen, in at least four replicates. */
export function designOf(crowd: BenchCrowd, passages: number): Design {
  const { design, issues } = parseScenario(starterScenario(), 'starter.yaml', { readFile: () => starterTable() });
  if (!design) throw new Error(`the starter has issues: ${JSON.stringify(issues)}`);
  const perHour = 2 * (design.doors[0]?.traffic.arrivals_per_hour as number);
  const hours = (1.02 * passages) / perHour;
  const replicates = Math.max(4, Math.ceil(hours / YEAR_H));
  return {
    ...design,
    replicates,
    hours: hours / replicates,
    logics: design.logics.slice(0, crowd.logics),
    ...(crowd.ranger && {
      sensors: { 'my-barrier': crowd.ranger },
      controllers: [controllerSchema.parse({ name: 'main', cycle_ms: 15 })],
    }),
    doors: design.doors.map((door) => ({
      ...door,
      beams: door.beams.map(({ name, sensor, mount, at_m }) => ({
        name,
        sensor,
        mount,
        at_m,
        height_m: crowd.height_m,
        ...(crowd.ranger ? { tilt_deg: 0, turn_deg: 0 } : { far_at_m: at_m, far_height_m: crowd.height_m }),
      })),
      traffic: { ...door.traffic, mix: [...crowd.mix] },
    })),
  };
}
