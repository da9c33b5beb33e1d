/** The named crowds: the starter scenario's doorway and traffic, long enough for a given number of passages. */
import { DEFAULT_MIX } from '../src/agents/schema.js';
import { starterTable } from '../src/counter/table/starter.js';
import { parseScenario } from '../src/scenario/parse.js';
import type { Design } from '../src/scenario/schema.js';
import { starterScenario } from '../src/scenario/starter.js';

export interface BenchCrowd {
  readonly name: string;
  /** Height of both beams, metres. */
  readonly height_m: number;
  readonly mix: typeof DEFAULT_MIX;
  /** How many of the starter's logics judge it. */
  readonly logics: number;
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

export function crowdNamed(name: string): BenchCrowd {
  const found = CROWDS.find((one) => one.name === name);
  if (!found) throw new RangeError(`no crowd is named ${name}`);
  return found;
}

/** Longest clock a scenario may have, hours. */
const YEAR_H = 8760;

/** A design in which a little more than `passages` visits happen, in at least four replicates. */
export function designOf(crowd: BenchCrowd, passages: number): Design {
  const { design, issues } = parseScenario(starterScenario(), 'starter.yaml', { readTable: () => starterTable() });
  if (!design) throw new Error(`the starter has issues: ${JSON.stringify(issues)}`);
  const perHour = 2 * (design.doors[0]?.traffic.arrivals_per_hour as number);
  const hours = (1.02 * passages) / perHour;
  const replicates = Math.max(4, Math.ceil(hours / YEAR_H));
  return {
    ...design,
    replicates,
    hours: hours / replicates,
    logics: design.logics.slice(0, crowd.logics),
    doors: design.doors.map((door) => ({
      ...door,
      beams: door.beams.map((beam) => ({ ...beam, height_m: crowd.height_m, far_height_m: crowd.height_m })),
      traffic: { ...door.traffic, mix: [...crowd.mix] },
    })),
  };
}
