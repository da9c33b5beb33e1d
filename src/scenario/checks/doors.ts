/** Beams in their frame: below the lintel, inside the zone, as many as the logics expect. */
import { LONGEST_REACH } from '../../agents/figures/legs.js';
import type { Finding, KeyPath } from '../issue.js';
import { type Outline, type OutlineBeam, type OutlineDoor, beamsOf, finding, kindOf } from './outline.js';

/**
 * A beam must run across the opening: no more along the walk than this many widths (56°). Beyond, walkers who come in at
 * an angle could walk along it.
 */
const MOST_ASKEW = 1.5;

/** The built-in logics watch two beams; a table says what it watches, and code does when it is loaded. */
const BUILT_IN_BEAMS = 2;
const OF_YOUR_OWN = ['table', 'module', 'process'] as const;

export function checkDoors(outline: Outline): Finding[] {
  const logics = (outline.logics ?? [])
    .map((logic) => (typeof logic === 'string' ? logic : logic?.use))
    .filter((use) => use !== undefined && !OF_YOUR_OWN.some((own) => own === use)) as string[];
  return eachDoor(outline, (door, path) => {
    const both = 'pair' in door && 'beams' in door;
    const neither = !('pair' in door) && !('beams' in door);
    if (both) return [finding([...path, 'beams'], { code: 'pair_or_beams', found: 'both' }, 'key')];
    if (neither) return [finding([...path, 'pair'], { code: 'pair_or_beams', found: 'neither' }, 'key')];
    const beams = placedBeams(outline, door, path);
    if (!beams) return [];
    const wrongCount = beams.length !== BUILT_IN_BEAMS && logics.length > 0;
    return [
      ...onePerPlace(
        beams.flatMap((beam) => [...aboveLintel(beam, door), ...outsideZone(beam, door), ...askew(beam, door)]),
      ),
      ...(wrongCount
        ? [
            finding(
              [...path, 'beams'],
              { code: 'beam_count', logics: [...new Set(logics)], needs: BUILT_IN_BEAMS, found: beams.length },
              'key',
            ),
          ]
        : []),
    ];
  });
}

/** What can be built and may be meant, but costs something or makes little sense. */
export function cautionDoors(outline: Outline): Finding[] {
  return eachDoor(outline, (door, path) => {
    const beams = placedBeams(outline, door, path) ?? [];
    const depth = door.jamb_depth_m;
    const brackets = beams.flatMap((beam) =>
      beam.ends.flatMap(({ at_m, atPath }) =>
        at_m !== undefined && depth !== undefined && Math.abs(at_m) > depth / 2
          ? [finding(atPath, { code: 'bracket_needed', reach_m: Math.abs(at_m), jamb_depth_m: depth })]
          : [],
      ),
    );
    const [a, b] = beams;
    const [aAt, bAt] = [a?.ends[0]?.at_m, b?.ends[0]?.at_m];
    const disorder =
      a && b && beams.length === 2 && aAt !== undefined && bAt !== undefined && aAt >= bAt
        ? [
            finding(b.ends[0]?.atPath ?? path, {
              code: 'beam_order',
              first: a.name ?? 'A',
              second: b.name ?? 'B',
              same: aAt === bAt,
            }),
          ]
        : [];
    const turned =
      door.facing_deg !== undefined && door.facing_deg !== 0 && !('at_m' in door)
        ? [finding([...path, 'facing_deg'], { code: 'needs_key', what: 'facing_deg', key: 'at_m' }, 'key')]
        : [];
    return [
      ...onePerPlace(brackets),
      ...onePerPlace(beams.flatMap((beam) => swept(beam, door))),
      ...disorder,
      ...turned,
    ];
  });
}

function eachDoor(outline: Outline, check: (door: OutlineDoor, path: KeyPath) => Finding[]): Finding[] {
  return (outline.doors ?? []).flatMap((door, i) => (door ? check(door, ['doors', i]) : []));
}

/** Beams with the ends that have a place: of a ranger only the near one. */
function placedBeams(outline: Outline, door: OutlineDoor, path: KeyPath): readonly OutlineBeam[] | null {
  const beams = beamsOf(door, path);
  if (!beams) return null;
  return beams.map((beam) => {
    const kind = kindOf(outline, beam.sensor);
    return kind === undefined || kind === 'light-barrier' ? beam : { ...beam, ends: beam.ends.slice(0, 1) };
  });
}

function aboveLintel(beam: OutlineBeam, door: OutlineDoor): Finding[] {
  const lintel_m = door.height_m;
  return beam.ends.flatMap(({ height_m, heightPath }) =>
    height_m !== undefined && lintel_m !== undefined && height_m > lintel_m
      ? [finding(heightPath, { code: 'above_lintel', height_m, lintel_m })]
      : [],
  );
}

function outsideZone(beam: OutlineBeam, door: OutlineDoor): Finding[] {
  const zone_m = door.zone_m;
  return beam.ends.flatMap(({ at_m, atPath }) => {
    if (at_m === undefined || zone_m === undefined) return [];
    const least_m = Math.abs(at_m) + LONGEST_REACH.value;
    return zone_m > least_m ? [] : [finding(atPath, { code: 'outside_zone', at_m: Math.abs(at_m), zone_m, least_m })];
  });
}

/**
 * A leaf lies flush with the face of the frame on the side it opens to, and sweeps all beyond: each swing breaks a beam
 * there. Standing open square to the wall it would stay in it.
 */
function swept(beam: OutlineBeam, { leaf, jamb_depth_m, width_m }: OutlineDoor): Finding[] {
  const { opens, opens_deg, thickness_m } = leaf ?? {};
  if (opens === undefined || opens_deg === undefined || thickness_m === undefined) return [];
  if (jamb_depth_m === undefined || width_m === undefined) return [];
  const from_m = jamb_depth_m / 2 - thickness_m;
  const side = opens === 'forward' ? 1 : -1;
  return beam.ends.flatMap(({ at_m, atPath }) => {
    const beyond = at_m === undefined ? -Infinity : side * at_m;
    return beyond > from_m && beyond < jamb_depth_m / 2 + width_m
      ? [finding(atPath, { code: 'leaf_sweeps', at_m: side * beyond, from_m: side * from_m, opens, opens_deg })]
      : [];
  });
}

function askew(beam: OutlineBeam, door: OutlineDoor): Finding[] {
  const [near, far] = beam.ends;
  if (near?.at_m === undefined || far?.at_m === undefined || door.width_m === undefined) return [];
  const along_m = Math.abs(far.at_m - near.at_m);
  const most_m = MOST_ASKEW * door.width_m;
  return along_m <= most_m ? [] : [finding(far.atPath, { code: 'askew', along_m, most_m })];
}

/** The two beams of a pair, and the two ends of a level beam, share a key: one complaint is enough. */
function onePerPlace(findings: readonly Finding[]): Finding[] {
  return [...new Map(findings.map((f) => [`${f.problem.code} ${f.path.join('.')}`, f])).values()];
}
