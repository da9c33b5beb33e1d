/** What the checks between keys look at: a scenario or a design, as far as it can be read. */
import type { z } from 'zod';
import { BUILT_IN_WALKERS } from '../../agents/schema.js';
import { nearest } from '../../engine/nearest.js';
import type { Finding, KeyPath, Problem } from '../issue.js';
import { SENSOR_KINDS, type SensorKind } from '../../sensors/schema.js';
import type { Partly } from '../salvage.js';
import type { startedSchema } from '../schema.js';

export type Outline = Partly<z.output<typeof startedSchema>>;
export type OutlineDoor = NonNullable<NonNullable<Outline['doors']>[number]>;
export type OutlineWalker = NonNullable<NonNullable<Outline['walkers']>[string]>;
export type OutlineTraffic = NonNullable<OutlineDoor['traffic']>;
/** A household at length: a name in its place is a short form. */
export type OutlineHousehold = Exclude<NonNullable<Outline['household']>, string>;

export const OUTSIDE = 'outside';

/** One beam, with the keys that its numbers were written under. */
export interface OutlineBeam {
  readonly name: string | undefined;
  readonly sensor: string | undefined;
  readonly sensorPath: KeyPath;
  /** Ends of the beam: place along the walk and height, undefined where unreadable or as at the first end. */
  readonly ends: readonly {
    readonly at_m: number | undefined;
    readonly atPath: KeyPath;
    readonly height_m: number | undefined;
    readonly heightPath: KeyPath;
  }[];
}

/** The kind of a sensor by its name, the user's own first; undefined where it is unknown or can't be read. */
export function kindOf(outline: Outline, sensor: string | undefined): SensorKind | undefined {
  if (sensor === undefined || outline.sensors === undefined) return undefined;
  if (Object.hasOwn(outline.sensors, sensor)) return outline.sensors[sensor]?.kind;
  return SENSOR_KINDS.find((kind) => kind === sensor);
}

/** A walker by its name, the user's own first; undefined where it is unknown or can't be read. */
export function walkerNamed(outline: Outline, who: string | undefined): OutlineWalker | undefined {
  return who === undefined ? undefined : (outline.walkers?.[who] ?? BUILT_IN_WALKERS[who]);
}

/** A door's beams from its list or its pair; null when it has neither, or both, or they can't be read. */
export function beamsOf(door: OutlineDoor, path: KeyPath): readonly OutlineBeam[] | null {
  if (door.beams && !('pair' in door)) {
    if (door.beams.includes(undefined)) return null;
    return door.beams.map((beam, i) => {
      const at = [...path, 'beams', i];
      const near = {
        at_m: beam?.at_m,
        atPath: [...at, 'at_m'],
        height_m: beam?.height_m,
        heightPath: [...at, 'height_m'],
      };
      // An end that shares a number with the other shares its faults; one complaint is enough.
      const far = {
        at_m: beam?.far_at_m === beam?.at_m ? undefined : beam?.far_at_m,
        atPath: [...at, 'far_at_m'],
        height_m: beam?.far_height_m === beam?.height_m ? undefined : beam?.far_height_m,
        heightPath: [...at, 'far_height_m'],
      };
      return { name: beam?.name, sensor: beam?.sensor, sensorPath: [...at, 'sensor'], ends: [near, far] };
    });
  }
  const pair = door.pair;
  if (!pair || 'beams' in door) return null;
  const at = [...path, 'pair'];
  return ['A', 'B'].map((name) => {
    const half = pair.spacing_m === undefined ? undefined : pair.spacing_m / 2;
    const end = {
      at_m: half === undefined ? undefined : name === 'A' ? -half : half,
      atPath: [...at, 'spacing_m'],
      height_m: pair.height_m,
      heightPath: [...at, 'height_m'],
    };
    return { name, sensor: pair.sensor, sensorPath: [...at, 'sensor'], ends: [end] };
  });
}

export function finding(path: KeyPath, problem: Problem, at: Finding['at'] = 'value'): Finding {
  return { path, at, problem };
}

/** A complaint when `name` is not `known`; none when either can't be read, for that is complained of already. */
export function unknownName(
  what: string,
  name: string | undefined,
  known: readonly (string | undefined)[],
  path: KeyPath,
): Finding[] {
  if (name === undefined || known.includes(undefined) || known.includes(name)) return [];
  const names = known as readonly string[];
  return [finding(path, { code: 'unknown_name', what, name, known: names, nearest: nearest(name, names) })];
}

/** Every name after the first of its kind. */
export function duplicateNames(
  what: string,
  items: readonly ({ readonly name?: string | undefined } | string | undefined)[],
  path: KeyPath,
): Finding[] {
  const seen = new Set<string>();
  return items.flatMap((item, i) => {
    const name = typeof item === 'object' ? item.name : undefined;
    if (name === undefined) return [];
    if (seen.has(name)) return [finding([...path, i, 'name'], { code: 'duplicate_name', what, name })];
    seen.add(name);
    return [];
  });
}
