/** Who walks and how: shares that add up, parties that can set out, rods that only go through, pets that don't go in pairs. */
import { LOAD_KINDS } from '../../agents/loads/kinds.js';
import { PET_KINDS, THROUGH_ONLY } from '../../agents/schema.js';
import type { Finding, KeyPath } from '../issue.js';
import {
  OUTSIDE,
  type Outline,
  type OutlineDoor,
  type OutlineTraffic,
  type OutlineWalker,
  finding,
  walkerNamed,
} from './outline.js';
import { checkShares } from './shares.js';

export function checkTraffic(outline: Outline): Finding[] {
  // A household's doors have no traffic of their own.
  if ('household' in outline) return [];
  return (outline.doors ?? []).flatMap((door, i) => {
    if (!door?.traffic) return [];
    const path = ['doors', i, 'traffic'];
    return [
      ...checkArrivals(door.traffic, path),
      ...checkShares(door.traffic.mix, [...path, 'mix']),
      ...checkKinds(outline, door.traffic, path),
      ...checkBreadths(outline, door, path),
      ...checkStart(outline, door, ['doors', i]),
    ];
  });
}

export function cautionTraffic(outline: Outline): Finding[] {
  if ('household' in outline) return [];
  return (outline.doors ?? []).flatMap((door, i) => {
    const rate = door?.traffic?.arrivals_per_hour;
    const nobody = typeof rate === 'number' ? rate === 0 : rate?.every((span) => span?.per_hour === 0);
    if (nobody) return [finding(['doors', i, 'traffic', 'arrivals_per_hour'], { code: 'nobody_comes' })];
    return door ? cautionFewThere(outline, door, ['doors', i]) : [];
  });
}

/**
 * More people out at once than a room has. By Little's law (J. D. C. Little, Oper. Res. 9:383–387, 1961) a rate of
 * departures times the mean time away is the mean number away; at the busiest hour of the clock.
 */
function cautionFewThere(outline: Outline, door: OutlineDoor, path: KeyPath): Finding[] {
  const { traffic } = door;
  const { arrivals_per_hour: rate, forward_share, stay_mean_min } = traffic ?? {};
  if (!traffic || traffic.one_way || rate === undefined) return [];
  if (forward_share === undefined || stay_mean_min === undefined) return [];
  const busiest = typeof rate === 'number' ? rate : Math.max(0, ...rate.map((span) => span?.per_hour ?? 0));
  const out = busiest * personsAParty(outline, traffic) * (stay_mean_min / 60);
  const sides = [
    { key: 'from', room: door.from, away: out * forward_share },
    { key: 'to', room: door.to, away: out * (1 - forward_share) },
  ];
  return sides.flatMap(({ key, room, away }) => {
    const there = outline.rooms?.find((r) => r?.name === room)?.people_at_start;
    return room !== undefined && room !== OUTSIDE && there !== undefined && there > 0 && away > there
      ? [finding([...path, key], { code: 'few_there', room, there, away })]
      : [];
  });
}

/** Mean persons of a party that sets out; whoever comes against them is another's. */
function personsAParty(outline: Outline, traffic: OutlineTraffic): number {
  return (traffic.mix ?? []).reduce((sum, entry) => {
    const { who, kind, share = 0 } = entry ?? {};
    const walker = walkerNamed(outline, who);
    const persons = walker === undefined ? 1 : personsIn(walker);
    const crosses = kind === 'turn-back' || kind === 'reach' ? 0 : 1;
    return sum + share * persons * crosses * (kind === 'abreast' || kind === 'close-behind' ? 2 : 1);
  }, 0);
}

/** Persons a walker stands for, as far as it can be read. */
function personsIn(walker: OutlineWalker): number {
  if (walker.kind === 'robot-vacuum' || isPet(walker)) return 0;
  if ('persons' in walker) return walker.persons ?? 1;
  const infant = 'with_infant' in walker && walker.with_infant === true;
  const load = 'load' in walker ? walker.load : undefined;
  return (infant ? 2 : 1) + (load === undefined ? 0 : LOAD_KINDS[load].persons);
}

/** Clock times of a rate table ascend: each row lasts until the next. */
function checkArrivals(traffic: OutlineTraffic, path: KeyPath): Finding[] {
  const spans = traffic.arrivals_per_hour;
  if (spans === undefined || typeof spans === 'number') return [];
  return spans.flatMap((span, i) => {
    const earlier = spans[i - 1]?.from;
    const later = span?.from;
    // HH:MM sorts as text.
    return earlier !== undefined && later !== undefined && later <= earlier
      ? [finding([...path, 'arrivals_per_hour', i, 'from'], { code: 'clock_order', earlier, later })]
      : [];
  });
}

function checkKinds(outline: Outline, traffic: OutlineTraffic, path: KeyPath): Finding[] {
  return (traffic.mix ?? []).flatMap((entry, i) => {
    const { who, kind } = entry ?? {};
    if (who === undefined || kind === undefined || kind === 'through') return [];
    const walker = walkerNamed(outline, who);
    const at = [...path, 'mix', i, 'kind'];
    if (walker?.kind === 'test-rod') return [finding(at, { code: 'rod_kind', who, kind })];
    if (isPet(walker)) return PET_KINDS.includes(kind) ? [] : [finding(at, { code: 'pet_kind', who, kind })];
    const what = walker?.kind && THROUGH_ONLY[walker.kind];
    return what === undefined ? [] : [finding(at, { code: 'through_only', who, what, kind })];
  });
}

/** What rolls or is carried must fit between the jambs: shoulders turn, a chair doesn't. */
function checkBreadths(outline: Outline, { width_m, traffic }: OutlineDoor, path: KeyPath): Finding[] {
  if (width_m === undefined) return [];
  return (traffic?.mix ?? []).flatMap((entry, i) => {
    const who = entry?.who;
    const walker = walkerNamed(outline, who);
    const breadth_m = walker === undefined ? undefined : breadthOf(walker);
    return who !== undefined && breadth_m !== undefined && breadth_m >= width_m
      ? [finding([...path, 'mix', i, 'who'], { code: 'too_wide', who, breadth_m, width_m })]
      : [];
  });
}

/** Breadth of what a walker brings along or is, metres; undefined for people with nothing. */
export function breadthOf(walker: OutlineWalker): number | undefined {
  if (walker.kind === 'robot-vacuum') return walker.diameter_m;
  if (walker.kind === 'wheelchair-user') return LOAD_KINDS.wheelchair.breadth_m;
  const load = 'load' in walker ? walker.load : undefined;
  return load === undefined ? undefined : LOAD_KINDS[load].breadth_m;
}

/** As far as it can be read. */
function isPet(walker: { readonly kind?: string | undefined } | undefined): boolean {
  return walker?.kind === 'dog' || walker?.kind === 'cat';
}

/** A first move that starts in a room needs somebody there: nobody appears but at `outside`. */
function checkStart(outline: Outline, door: OutlineDoor, path: KeyPath): Finding[] {
  const { from, to, traffic } = door;
  const share = traffic?.forward_share;
  if (share === undefined || !traffic || !carriesPersons(outline, traffic)) return [];
  const empty = (name: string | undefined) => {
    const room = outline.rooms?.find((r) => r?.name === name);
    return name !== OUTSIDE && room?.people_at_start === 0;
  };
  const findings: Finding[] = [];
  if (share > 0 && from !== undefined && empty(from))
    findings.push(
      finding([...path, 'from'], { code: 'nobody_there', room: from, move: 'forward', forward_share: share }),
    );
  if (share < 1 && to !== undefined && empty(to))
    findings.push(finding([...path, 'to'], { code: 'nobody_there', room: to, move: 'backward', forward_share: share }));
  return findings;
}

/** Whether anybody in the mix counts as a person; pets don't, and rods may be set to stand for none. */
function carriesPersons(outline: Outline, traffic: OutlineTraffic): boolean {
  return (traffic.mix ?? []).some((entry) => {
    if (entry?.who === undefined) return true;
    const walker = walkerNamed(outline, entry.who);
    return walker === undefined || personsIn(walker) > 0;
  });
}
