/**
 * Which facts of a door's rangers deserve a word. Limits are judgement, no source: one walker in a hundred, half the
 * width, one false break a day.
 */
import type { BeamFacts, DoorFacts } from './fact-types.js';
import type { RangerCaution } from './ranger-caution-types.js';
import type { HeardFacts, RangerFacts } from './ranger-fact-types.js';

const WORTH_A_WORD = 0.01;
/** Share of the width over which two cones may see the same and still be two. */
const OVERLAP = 0.5;
/** Share of readings without echo from which on a passing body falls apart. */
const LOST = 0.1;
/** A shoulder comes this near to a jamb, metres. */
const NEAR_GAP_M = 0.05;
/** Share of the way from background to switching point that a wrong temperature may take. */
const OF_MARGIN = 0.5;
const PER_HOUR = 1 / 24;
/** Breaks per crossing from which on one body is several to it. */
const SEVERAL_BREAKS = 1.1;

export type Ranged = BeamFacts & { readonly ranger: RangerFacts };

export function rangedBeams({ beams }: Pick<DoorFacts, 'beams'>): Ranged[] {
  return beams.filter((beam): beam is Ranged => beam.ranger !== null);
}

export function rangerCautions(facts: Pick<DoorFacts, 'door' | 'beams' | 'spacings' | 'rangers'>): RangerCaution[] {
  if (facts.rangers === null) return [];
  const { scan, heard } = facts.rangers;
  const cautions: RangerCaution[] = [];
  const ranged = rangedBeams(facts);
  for (const { ranger, beams } of alikeRangers(ranged))
    cautions.push(
      ...idleCautions(
        ranger,
        beams.map(({ beam }) => beam),
      ),
    );
  if (scan.stretched?.always && scan.cycle_ms !== null)
    cautions.push({
      code: 'scan_stretched',
      controller: scan.controller,
      cycle_ms: scan.cycle_ms,
      ...scan.stretched,
    });
  for (const { first, second, spacing_m, scan: pair, rangers } of facts.spacings) {
    if (pair && pair.unsure.value > WORTH_A_WORD)
      cautions.push({ code: 'scan_slow', first, second, spacing_m, scan: pair });
    if (!rangers) continue;
    const { overlap, same_scan, wrong_order } = rangers;
    if (overlap.value > OVERLAP && same_scan.value > WORTH_A_WORD)
      cautions.push({ code: 'cones_overlap', first, second, spacing_m, overlap, same_scan });
    if (wrong_order.value > WORTH_A_WORD) cautions.push({ code: 'wrong_order', first, second, wrong: wrong_order });
  }
  for (const { worst, others } of heardByKind(heard)) {
    if (!worst.nearer) continue;
    const listener = ranged.find(({ beam }) => `${facts.door}.${beam}` === worst.listener);
    cautions.push({ code: 'heard', heard: worst, others, idle_m: listener?.ranger.idle?.reads_m ?? null });
  }
  cautions.push(...unseenCautions(ranged));
  for (const { beam, ranger, broken, breaks_per_crossing } of ranged) {
    const breaks = broken.value > 0 ? breaks_per_crossing / broken.value : 0;
    if (breaks > SEVERAL_BREAKS) cautions.push({ code: 'flicker', beam, breaks, interval_ms: ranger.interval.idle_ms });
    if (ranger.crossings.lost.value > LOST) cautions.push({ code: 'echo_lost', beam, lost: ranger.crossings.lost });
  }
  return cautions;
}

/** Of each kind of hearing the worst and how many others: rangers of a house with many doors hear many. */
export function heardByKind(heard: readonly HeardFacts[]): { readonly worst: HeardFacts; readonly others: number }[] {
  const kinds = new Map<string, HeardFacts[]>();
  for (const one of heard) {
    const key = `${one.when} ${one.nearer}`;
    kinds.set(key, [...(kinds.get(key) ?? []), one]);
  }
  return [...kinds.values()].map((alike) => {
    const inOrder = alike.toSorted((a, b) => b.share - a.share || a.reads_m - b.reads_m);
    return { worst: inOrder[0] as HeardFacts, others: alike.length - 1 };
  });
}

/** Who is never switched by; rangers of which it is the same together. */
function unseenCautions(ranged: readonly Ranged[]): RangerCaution[] {
  const groups = new Map<string, RangerCaution & { readonly code: 'unseen'; readonly beams: string[] }>();
  for (const { beam, ranger } of ranged) {
    const { ever, read, broken } = ranger.crossings;
    if (ranger.always_broken || broken.value >= 1 - WORTH_A_WORD) continue;
    const interval_ms = ranger.interval.idle_ms;
    const key = JSON.stringify([interval_ms, ever, read, broken]);
    const group = groups.get(key) ?? { code: 'unseen', beams: [], interval_ms, crossings: { ever, read, broken } };
    group.beams.push(beam);
    groups.set(key, group);
  }
  return [...groups.values()];
}

/** What follows from the idle door alone, once for all rangers it holds for. */
function idleCautions(ranger: RangerFacts, beams: readonly string[]): RangerCaution[] {
  const { background, axis_m, nearest_m, range_m, idle, point_m, learnt, always_broken, noise_m, sight_m } = ranger;
  const cautions: RangerCaution[] = [];
  if (background !== 'seen') cautions.push({ code: 'no_background', beams, background, axis_m, nearest_m, range_m });
  cautions.push(...temperatureCautions(ranger, beams));
  if (always_broken)
    return [...cautions, { code: 'idle_broken', beams, point_m, learnt, reads_m: idle?.reads_m ?? null }];
  if (point_m <= nearest_m) return [...cautions, { code: 'never_broken', beams, point_m, learnt, nearest_m }];
  const margin_m = (idle?.reads_m ?? range_m) - point_m;
  if (noise_m !== null && ranger.noise_breaks_per_hour > PER_HOUR)
    cautions.push({
      code: 'margin_noise',
      beams,
      margin_m,
      learnt,
      noise_m,
      per_hour: ranger.noise_breaks_per_hour,
    });
  if (sight_m && sight_m[0] > NEAR_GAP_M) cautions.push({ code: 'near_gap', beams, gap_m: sight_m[0], nearest_m });
  return cautions;
}

/** A learnt background is read by the same wrong speed of sound; a point behind the frame is wrong in any air. */
function temperatureCautions({ air, idle, learnt, point_m }: RangerFacts, beams: readonly string[]): RangerCaution[] {
  if (air === null || learnt || idle === null) return [];
  const off_m = air.off_per_m * idle.true_m;
  const margin_m = idle.true_m - point_m;
  if (margin_m <= 0 || Math.abs(off_m) <= OF_MARGIN * margin_m) return [];
  return [{ code: 'temperature', beams, real_c: air.real_c, assumed_c: air.assumed_c, off_m, margin_m }];
}

/** Rangers of which the idle door is the same, together; what lone walkers show may differ. */
export function alikeRangers(beams: readonly Ranged[]): { readonly ranger: RangerFacts; readonly beams: Ranged[] }[] {
  const groups = new Map<string, { ranger: RangerFacts; beams: Ranged[] }>();
  for (const one of beams) {
    const { crossings: _, ...idle } = one.ranger;
    const key = JSON.stringify([one.mount === 'lintel', one.height_m, one.level, idle]);
    const group = groups.get(key) ?? { ranger: one.ranger, beams: [] };
    group.beams.push(one);
    groups.set(key, group);
  }
  return [...groups.values()];
}
