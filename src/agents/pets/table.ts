/**
 * Gait tables of pets: the walk of all with about the same stride, duty factor, lag and tail, at 128 nodes a stride.
 *
 * In heights at the withers, w from where the middle of the trunk is at node 0. Node 0 is the landing of the right hind
 * paw; then come the right forepaw, the left hind paw and the left forepaw: a lateral-sequence walk. Legs are those of
 * a joint at w = 0: a limb's own offset puts them where its shoulder or hip is.
 */
import { DEG, cos, sin } from '../../engine/arithmetic.js';
import type { LimbTrack, PoseTracks } from '../../geometry/track.js';
import { heightsOf, limbTrack, pointTrack, setPoint } from '../../geometry/track.js';
import { NODES } from '../gait/gait-table.js';
import type { Species } from './build.js';
import { PET_LEG_ORDER, PET_PART, SPECIES } from './build.js';
import { legOf, pawAt } from './leg.js';
import type { Pet } from './pet.js';

/** Widths of the classes that share a table. */
const STRIDE_CLASS = 0.02;
const DUTY_CLASS = 0.01;
const LAG_CLASS = 0.025;

/** How the pets of one table walk. */
export interface PetGait {
  readonly species: Species;
  readonly stride: number;
  readonly duty: number;
  readonly lag: number;
  readonly tail_up: boolean;
}

const tables = new Map<string, PoseTracks>();
const legTables = new Map<string, readonly LimbTrack[]>();
const gaits = new WeakMap<PoseTracks, PetGait>();

/** The table of a pet's class, made on first use and kept (some 40 kB each; legs are shared by both species and tails). */
export function petTable({ species, stride, duty, lag, tail_up }: Pet): PoseTracks {
  const gait: PetGait = {
    species,
    // Downward, so that no leg is asked for more than the pet's own stride.
    stride: STRIDE_CLASS * Math.max(1, Math.floor(stride / STRIDE_CLASS)),
    duty: DUTY_CLASS * Math.round(duty / DUTY_CLASS),
    lag: LAG_CLASS * Math.round(lag / LAG_CLASS),
    tail_up,
  };
  const legKey = `${gait.stride} ${gait.duty} ${gait.lag}`;
  const key = `${legKey} ${species} ${tail_up}`;
  let table = tables.get(key);
  if (!table) {
    let legs = legTables.get(legKey);
    if (!legs) legTables.set(legKey, (legs = buildLegs(gait)));
    table = build(gait, legs);
    tables.set(key, table);
    gaits.set(table, gait);
  }
  return table;
}

/** How a pet's table walks. @throws {RangeError} for a body that isn't a pet's */
export function gaitOf(tracks: PoseTracks | null): PetGait {
  const gait = tracks ? gaits.get(tracks) : undefined;
  if (!gait) throw new RangeError('gaitOf: these tracks are no table of pets');
  return gait;
}

/** Phase of leg i of {@link PET_LEG_ORDER} when the right hind leg is at `phase`. */
export function phaseOf({ lag }: PetGait, leg: number, phase: number): number {
  const { fore, right } = PET_LEG_ORDER[leg] as (typeof PET_LEG_ORDER)[number];
  const at = phase - (fore ? lag : 0) - (right ? 0 : 0.5);
  return at - Math.floor(at);
}

/** How far the tail is to the right, radians, when the right hind leg is at `phase`. */
export function tailSwing({ species }: PetGait, phase: number): number {
  const { swing_deg, per_stride } = SPECIES[species].tail;
  return swing_deg * DEG * sin(360 * DEG * per_stride * phase);
}

/** How far the tail is above the level, radians. */
export function tailRise({ species, tail_up }: PetGait): number {
  const { up_deg, hanging_deg } = SPECIES[species].tail;
  return DEG * (tail_up ? up_deg : hanging_deg);
}

/** The tip of a tail, from its root. */
export function tailTip(length: number, rise: number, swing: number): { l: number; w: number; z: number } {
  return { l: length * cos(rise) * sin(swing), w: -length * cos(rise) * cos(swing), z: length * sin(rise) };
}

function build(gait: PetGait, legs: readonly LimbTrack[]): PoseTracks {
  const span = { nodes: NODES, advance: gait.stride };
  const trunk = pointTrack(NODES);
  const tip = pointTrack(NODES);
  const rise = tailRise(gait);
  for (let k = 0; k < NODES; k++) {
    const w = (gait.stride * k) / NODES;
    const tail = tailTip(SPECIES[gait.species].tail.length, rise, tailSwing(gait, k / NODES));
    setPoint(trunk, k, 0, w, 0);
    setPoint(tip, k, tail.l, w + tail.w, tail.z);
  }
  const parts = [limbTrack(trunk, trunk, span), ...legs];
  parts[PET_PART.tail] = limbTrack(trunk, tip, span);
  return { span, made: parts, part: (index) => parts[index]!, heights: heightsOf(parts) };
}

function buildLegs(gait: PetGait): readonly LimbTrack[] {
  const span = { nodes: NODES, advance: gait.stride };
  return PET_LEG_ORDER.flatMap(({ build: leg }, i) => {
    const [joint, middle, paw] = [pointTrack(NODES), pointTrack(NODES), pointTrack(NODES)];
    for (let k = 0; k < NODES; k++) {
      const w = (gait.stride * k) / NODES;
      const foot = pawAt(gait.stride, gait.duty, phaseOf(gait, i, k / NODES));
      const posed = legOf(leg, { w: 0, z: leg.height }, foot);
      setPoint(joint, k, 0, w + posed.joint.w, posed.joint.z);
      setPoint(middle, k, 0, w + posed.middle.w, posed.middle.z);
      setPoint(paw, k, 0, w + foot.w, foot.z);
    }
    return [limbTrack(joint, middle, span), limbTrack(middle, paw, span)];
  });
}
