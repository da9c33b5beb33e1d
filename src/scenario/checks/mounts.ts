/** How beams are put up: light barriers from jamb to jamb, rangers in a jamb or under the lintel with a direction. */
import { DEG, atan2 } from '../../engine/arithmetic.js';
import { peel } from '../../engine/peel.js';
import { beamLineSchema } from '../../geometry/schema.js';
import type { Finding, KeyPath } from '../issue.js';
import { rangeOf } from '../schema-walk.js';
import { type Outline, type OutlineDoor, finding, kindOf } from './outline.js';

const BARRIERS_LACK = ['tilt_deg', 'turn_deg', 'across_m'] as const;
const RANGERS_LACK = ['far_at_m', 'far_height_m'] as const;
const MOST_TURN_DEG = rangeOf(peel(beamLineSchema.turn_deg).core).max ?? 90;

type Beam = NonNullable<NonNullable<OutlineDoor['beams']>[number]>;
/** A beam, or the pair that stands for two. */
type Written = Partial<Omit<Beam, 'mount'>> & {
  readonly mount?: NonNullable<OutlineDoor['pair']>['mount'] | Beam['mount'];
};

export function checkMounts(outline: Outline): Finding[] {
  return (outline.doors ?? []).flatMap((door, i) => {
    if (!door || ('pair' in door && 'beams' in door)) return [];
    const path = ['doors', i];
    const beams = (door.beams ?? []).flatMap((beam, b) =>
      beam ? checkBeam(outline, door, beam, [...path, 'beams', b]) : [],
    );
    const { pair } = door;
    if (!pair) return beams;
    const at = [...path, 'pair'];
    return [...beams, ...checkBeam(outline, door, pair, at), ...facing(outline, door, pair, at)];
  });
}

function checkBeam(outline: Outline, door: OutlineDoor, beam: Written, path: KeyPath): Finding[] {
  const { mount } = beam;
  const kind = kindOf(outline, beam.sensor);
  const findings: Finding[] = [];
  if (!('height_m' in beam) && mount !== undefined && mount !== 'lintel') {
    const { description, unit } = peel(beamLineSchema.height_m).meta;
    findings.push(finding([...path, 'height_m'], { code: 'missing_key', key: 'height_m', description, unit }, 'key'));
  }
  if (kind === undefined) return findings;
  const isBarrier = kind === 'light-barrier';
  if (isBarrier && (mount === 'lintel' || mount === 'facing'))
    findings.push(finding([...path, 'mount'], { code: 'barrier_mount', mount }));
  for (const key of isBarrier ? BARRIERS_LACK : RANGERS_LACK)
    if (key in beam) findings.push(finding([...path, key], { code: 'not_for', key, kind }, 'key'));
  const { across_m } = beam;
  if (isBarrier || across_m === undefined) return findings;
  if (mount !== undefined && mount !== 'lintel')
    findings.push(finding([...path, 'across_m'], { code: 'across_mount', mount }, 'key'));
  else if (door.width_m !== undefined && across_m > door.width_m)
    findings.push(finding([...path, 'across_m'], { code: 'outside_opening', across_m, width_m: door.width_m }));
  return findings;
}

function facing(
  outline: Outline,
  { width_m }: OutlineDoor,
  { mount, sensor, spacing_m }: NonNullable<OutlineDoor['pair']>,
  path: KeyPath,
): Finding[] {
  if (mount !== 'facing' || kindOf(outline, sensor) === 'light-barrier') return [];
  if (spacing_m === undefined || width_m === undefined) return [];
  const turn_deg = atan2(spacing_m, width_m) / DEG;
  if (turn_deg <= MOST_TURN_DEG) return [];
  const problem = { code: 'faces_too_far', spacing_m, turn_deg, most_deg: MOST_TURN_DEG } as const;
  return [finding([...path, 'spacing_m'], problem)];
}
