/**
 * Switching that lets a beam break and hardly ever clear: hysteresis that reaches behind what a ranger reads of the door
 * with nobody in it.
 */
import { vectorOf } from '../../geometry/beam-line.js';
import { type Mounting, rangerLine } from '../../geometry/mounting.js';
import { micrometres } from '../../sensors/ranger.js';
import type { Finding } from '../issue.js';
import { beamsOfPair } from '../resolve.js';
import { type Outline, type OutlineDoor, finding } from './outline.js';

interface Hung {
  /** DOOR.BEAM */
  readonly name: string;
  readonly sensor: string;
  readonly axis_m: number;
}

/** At most one for each sensor: its keys are the same, however many rangers there are of it. */
export function cautionSwitching(outline: Outline): Finding[] {
  const found = new Map<string, Finding>();
  for (const { name, sensor, axis_m } of (outline.doors ?? []).flatMap((door) => (door ? hungIn(door) : []))) {
    if (found.has(sensor) || !outline.sensors || !Object.hasOwn(outline.sensors, sensor)) continue;
    const settings = outline.sensors[sensor];
    if (settings?.kind === undefined || !('switching' in settings)) continue;
    const { switching, range_m } = settings;
    const hysteresis_m = switching?.hysteresis_m;
    // Where nothing comes back from the frame, silence says whether a beam clears.
    if (!switching || hysteresis_m === undefined || range_m === undefined || axis_m > range_m) continue;
    const learnt = !('nearer_than_m' in switching);
    const { margin_m, nearer_than_m } = switching;
    const bias_m = ('bias_m' in settings && settings.bias_m) || 0;
    const room_m = learnt ? margin_m : nearer_than_m === undefined ? undefined : axis_m + bias_m - nearer_than_m;
    // A switching point behind the frame is another mistake: broken from the first reading on.
    if (room_m === undefined || micrometres(room_m) <= 0 || micrometres(hysteresis_m) <= micrometres(room_m)) continue;
    const path = ['sensors', sensor, 'switching', 'hysteresis_m'];
    found.set(sensor, finding(path, { code: 'clears_behind', beam: name, hysteresis_m, room_m, learnt }));
  }
  return [...found.values()];
}

/** Beams with the length of a ranger's axis, those that can be read. */
function hungIn({ name: door, width_m, height_m: lintel_m, ...rest }: OutlineDoor): Hung[] {
  if (door === undefined || width_m === undefined || lintel_m === undefined) return [];
  return writtenBeams(rest, width_m).flatMap((beam) => {
    const { name, sensor, mount, at_m } = beam;
    if (name === undefined || sensor === undefined || mount === undefined || at_m === undefined) return [];
    const height_m = beam.height_m ?? (mount === 'lintel' ? lintel_m : undefined);
    if (height_m === undefined || height_m > lintel_m) return [];
    const line = rangerLine({ ...beam, mount, at_m, height_m }, { width_m, height_m: lintel_m });
    return [{ name: `${door}.${name}`, sensor, axis_m: vectorOf(line).length_m }];
  });
}

type WrittenBeam = { readonly [K in keyof Mounting]?: Mounting[K] | undefined } & {
  readonly name?: string | undefined;
  readonly sensor?: string | undefined;
};

function writtenBeams({ pair, beams }: Pick<OutlineDoor, 'pair' | 'beams'>, width_m: number): readonly WrittenBeam[] {
  if (!pair) return (beams ?? []).flatMap((beam) => beam ?? []);
  const { sensor, mount, spacing_m } = pair;
  if (sensor === undefined || mount === undefined || spacing_m === undefined) return [];
  return beamsOfPair({ ...pair, sensor, mount, spacing_m }, width_m);
}
