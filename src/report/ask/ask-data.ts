/**
 * What the page needs to let a reader ask it something else: which doors can be changed how, which logics can be had,
 * and what the run itself found in each replicate, to set beside.
 */
import { BARE_LOGICS } from '../../counter/schema.js';
import { pairOf } from '../../scenario/set-pair.js';
import type { Design, DesignDoor, StartedLogic } from '../../scenario/schema.js';
import type { Figures } from '../../score/figures.js';
import type { DoorSample } from '../../score/replicate-sample.js';
import type { Estimate, Metrics } from '../../score/metrics-schema.js';
import { plain } from '../words.js';

export interface AskDoor {
  readonly name: string;
  /** As in a path of `--set`: `doors.front`. */
  readonly path: string;
  /** Present height of its beams; null where they hang at several, or from the lintel. */
  readonly height_m: number | null;
  readonly spacing_m: number | null;
  /** What the report says of it, by the logic of the headline. */
  readonly wrong_per_100: Estimate;
  /** Height of the opening. */
  readonly opening_m: number;
  /** Depth of the jamb. */
  readonly depth_m: number;
}

export interface AskLogic {
  readonly name: string;
  /** As a scenario says it. */
  readonly choice: StartedLogic;
  /** What the command line needs to be told to have it; null for one of the scenario's own. */
  readonly option: string | null;
}

export interface AskData {
  readonly doors: readonly AskDoor[];
  readonly logics: readonly AskLogic[];
  /** Names of logics that are code: the page has none. */
  readonly unavailable: readonly string[];
  /** What the report says of all doors together, by the logic of the headline. */
  readonly wrong_per_100: Estimate;
  readonly replicates: number;
  readonly hours: number;
  /** The headline's logic: what answers are set beside. */
  readonly headline: string;
  /** `[replicate][door]`: what the run found by that logic; null where it was not kept. */
  readonly reported: readonly (readonly DoorSample[])[] | null;
}

export function askData(design: Design, metrics: Metrics, { replicates }: Pick<Figures, 'replicates'>): AskData {
  const own = design.logics.filter(({ use }) => use !== 'module' && use !== 'process');
  const used = new Set<string>(own.map(({ use }) => use));
  return {
    doors: design.doors.map((door, d) => askDoor(door, d, metrics)),
    logics: [
      ...own.map((choice) => ({ name: plain(choice.name), choice, option: null })),
      ...BARE_LOGICS.filter((use) => !used.has(use)).map((use) => ({ name: use, choice: use, option: use })),
    ],
    unavailable: design.logics.filter((one) => !own.includes(one)).map(({ name }) => plain(name)),
    wrong_per_100: metrics.house.wrong_per_100,
    replicates: design.replicates,
    hours: design.hours,
    headline: plain(design.logics[0]!.name),
    reported: replicates?.map(({ doors }) => doors.map(([headline]) => headline!)) ?? null,
  };
}

function askDoor(door: DesignDoor, d: number, { doors, house }: Metrics): AskDoor {
  const pair = pairOf(door);
  const level = door.beams.every(
    ({ mount, height_m, far_height_m }) =>
      mount !== 'lintel' && height_m === door.beams[0]!.height_m && (far_height_m ?? height_m) === height_m,
  );
  return {
    name: plain(door.name),
    // A name with a dot would be more than one step of a path.
    path: /^[\p{L}\p{N}_-]+$/u.test(door.name) && !/^\d+$/.test(door.name) ? `doors.${door.name}` : `doors.${d + 1}`,
    height_m: level ? door.beams[0]!.height_m : null,
    spacing_m: pair?.spacing_m ?? null,
    wrong_per_100: doors.find((one) => one.door === door.name && one.logic === house.logic)!.wrong_per_100,
    opening_m: door.height_m,
    depth_m: door.jamb_depth_m,
  };
}
