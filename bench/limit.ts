/**
 * The edge search against the same loop in C99 (limit.c): the same limbs on the same tracks before the same beams, laid out
 * beforehand for both, so that what is compared is the loop and what it reads.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { FlatBeam } from '../src/geometry/beam-line.js';
import { flatten } from '../src/geometry/beam-line.js';
import type { Limb } from '../src/geometry/limbs.js';
import { LIMB, Limbs, limbOf } from '../src/geometry/limbs.js';
import { passesBy, scanLimb } from '../src/geometry/search.js';
import type { LimbTrack, NodeSpan, PoseTracks } from '../src/geometry/track.js';
import type { BeamPath } from '../src/sensors/door-sensors.js';
import { check } from './check.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { timed } from './measured.js';
import type { Seen } from './recording.js';
import { record } from './recording.js';

const PASSAGES = 4_000;
const FLAGS = ['-std=c99', '-O3', '-march=native', '-ffp-contract=off', '-Wall', '-Wextra', '-Werror'];

/** One stretch of one visit before one beam: what of it must be looked for. */
interface Search {
  readonly beam: FlatBeam;
  readonly span: NodeSpan;
  readonly heights: PoseTracks['heights'];
  readonly from: number;
  readonly to: number;
  /** Of the limbs that must be looked for: their numbers, parts, clearances and tracks. */
  readonly limbs: Limbs;
  readonly clearances: readonly number[];
  readonly tracks: readonly LimbTrack[];
}

export function limit(name: string, repeats: number): Measured[] {
  const { visits, barriers } = record(designOf(crowdNamed(name), PASSAGES));
  const searches = visits.flatMap((seen) => barriers.paths.flatMap((path) => searchesOf(seen, path)));
  const found = searches.map(search);
  check(found.flat().length > visits.length, 'hardly anything is found');
  const units = visits.length;
  const here = {
    label: 'the loop here',
    units,
    ...timed(repeats, () => {
      for (const one of searches) search(one);
    }),
  };
  const seconds = inC(searches, found, repeats);
  return seconds ? [here, { label: 'in C99', units, seconds, cpu_s: seconds }] : [here];
}

function searchesOf({ body, passage }: Seen, path: BeamPath): Search[] {
  return passage.motion.flatMap((stretch) => {
    const { tracks } = stretch;
    const beam = flatten(path.line, stretch.frame, body.unit_m);
    const limbs: Limb[] = [];
    const clearances: number[] = [];
    const made: LimbTrack[] = [];
    for (let i = 0; i < body.limbs.count; i++) {
      const limb = body.limbs.at(i);
      const clearance = path.clearance(limb.radius * body.unit_m) / body.unit_m;
      const foreseen = stretch.foresee?.(i, beam, limb.radius + clearance) ?? 'look';
      if (foreseen === 'broken') return [];
      if (foreseen === 'clear') continue;
      limbs.push(stretch.perLimb ? limbOf(i, 0, 0, 0, 0, 0, 0, limb.radius) : limb);
      clearances.push(clearance);
      made.push(tracks.part(stretch.perLimb ? i : limb.part));
    }
    const [from, to] = [Math.floor(stretch.from), Math.ceil(stretch.to)];
    const { span, heights } = tracks;
    return [{ beam, span, heights, from, to, limbs: Limbs.of(limbs), clearances, tracks: made }];
  });
}

function search({ beam, span, heights, from, to, limbs, clearances, tracks }: Search): number[] {
  const nodes: number[] = [];
  const level = beam.vl === 0;
  const { numbers, count } = limbs;
  for (let i = 0; i < count; i++) {
    const at = LIMB * i;
    const clearance = clearances[i]!;
    if (
      level &&
      heights !== null &&
      passesBy(heights, limbs.partOf(i), numbers, at, beam, limbs.radiusOf(i) + clearance)
    )
      continue;
    scanLimb(tracks[i]!, numbers, at, span, beam, clearance, from, to, nodes);
  }
  return nodes;
}

/** Times of the repeats in C, or null where there is no compiler. */
function inC(searches: readonly Search[], found: readonly (readonly number[])[], repeats: number): number[] | null {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  try {
    const program = join(folder, 'limit');
    const compiled = spawnSync('cc', [...FLAGS, '-o', program, 'bench/limit.c', '-lm'], { encoding: 'utf8' });
    if (compiled.error) return null;
    check(compiled.status === 0, compiled.stderr);
    const data = join(folder, 'searches');
    writeFileSync(data, laidOut(searches, found));
    const { status, stdout, stderr } = spawnSync(program, [data, String(repeats)], { encoding: 'utf8' });
    check(status === 0, `the loop in C: exit code ${status}: ${stderr}`);
    return stdout.trim().split('\n').map(Number);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Numbers of a limb there: its own, its track's number in place of its part, and its clearance. */
const LIMB_IN_C = LIMB + 1;

/** As limit.c reads it. */
function laidOut(searches: readonly Search[], found: readonly (readonly number[])[]): Buffer {
  const numberOf = new Map<LimbTrack, number>();
  const floats: Float32Array[] = [];
  const [tracks, rows, limbs, results]: [number[], number[], number[], number[]] = [[], [], [], []];
  let size = 0;
  searches.forEach((one, s) => {
    const { ul, uw, uz, u0, vl, vz, v0 } = one.beam;
    rows.push(ul, uw, uz, u0, vl, vz, v0, one.from, one.to, limbs.length / LIMB_IN_C, one.limbs.count);
    rows.push(results.length, found[s]!.length);
    results.push(...found[s]!);
    one.tracks.forEach((track, i) => {
      if (!numberOf.has(track)) {
        numberOf.set(track, numberOf.size);
        const { whole, ends } = track;
        tracks.push(one.span.nodes, one.span.advance, ...whole, size);
        floats.push(ends);
        size += ends.length;
      }
      const { al, aw, az, bl, bw, bz, radius, shadowed } = one.limbs.at(i);
      limbs.push(numberOf.get(track)!, al, aw, az, bl, bw, bz, radius, shadowed ? 1 : 0, one.clearances[i]!);
    });
  });
  const head = [numberOf.size, searches.length, limbs.length / LIMB_IN_C, results.length, size];
  const parts = [head, tracks, rows, limbs, results].map((all) => Buffer.from(Float64Array.from(all).buffer));
  return Buffer.concat([...parts, ...floats.map((ends) => Buffer.from(ends.buffer, ends.byteOffset, ends.byteLength))]);
}
