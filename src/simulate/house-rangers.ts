/** All rangers of a house over one clock: bodies in, edges and readings out. */
import type { Body } from '../agents/body.js';
import { nearWithin } from '../agents/motion/near.js';
import { Posed } from '../agents/motion/posed.js';
import type { Passage } from '../agents/motion/passage.js';
import type { Visit } from '../agents/visit.js';
import type { Stream } from '../engine/stream.js';
import { SECOND_US } from '../engine/time.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import type { RoundInterval } from '../sensors/controllers/intervals.js';
import { intervalOf } from '../sensors/controllers/intervals.js';
import type { Round } from '../sensors/controllers/rounds.js';
import type { MountedRanger } from '../sensors/mounted.js';
import { isRanger } from '../sensors/mounted.js';
import type { Scene } from '../sensors/ranger.js';
import { Desk } from '../sensors/scan/desk.js';
import { type ScanHooks, Scanner } from '../sensors/scan/scanner.js';
import { type Attendance, Slot } from '../sensors/scan/slot.js';
import { burstSources } from './bursts.js';
import { clockOf, hasRangers, mountedBeams } from './plan.js';
import type { RangerHooks } from './ranger-hooks.js';
import { houseRounds, longestBusy_us, rangerAt } from './ranger-rounds.js';
import { type Befallen, type ReadingSpan, isNear, readAllTheTime } from './read-all-the-time.js';
import { DoorScene } from './scene.js';

/** No ranger sees anything later than this after its turn has begun: who enters later can't change the reading. */
export const LAST_US = 2 * SECOND_US;

/** Somebody who may change what a ranger sees. */
interface Attending extends Attendance {
  readonly enter_us: number;
  readonly posed: Posed;
  readonly clothing: number;
  /** When each limb matters, seconds since entering. */
  readonly limbs: Float64Array;
}

/** The rangers of a house; null when it has none. */
export function houseRangers(design: Design, replicate: Stream, hooks: RangerHooks, jumps = true): HouseRangers | null {
  return hasRangers(design) ? new HouseRangers(design, replicate, hooks, jumps) : null;
}

export class HouseRangers {
  /** Per door, its rangers. */
  private slots: readonly (readonly Slot<Attending>[])[];
  private scanner: Scanner<Attending>;
  private readonly rounds: readonly Round[];
  private readonly find: (door: number, beam: number) => Slot<Attending>;
  private readonly clothing: Stream;
  private readonly bodies = new DoorScene();

  /**
   * @param replicate the replicate's stream @param jumps false to take every reading, however quiet
   */
  constructor(design: Design, replicate: Stream, hooks: RangerHooks, jumps = true) {
    const clock_us = clockOf(design);
    this.clothing = replicate.child('clothing');
    const mounted = design.doors.map((door) => mountedBeams(design, door));
    this.slots = design.doors.map((door, d) =>
      (mounted[d] as (typeof mounted)[number])
        .filter(isRanger)
        .map((beam) => slotOf(design, door, d, beam, replicate.child('door', door.name, 'beam', beam.name), clock_us)),
    );
    const rounds = houseRounds(design, mounted);
    const find = (door: number, beam: number): Slot<Attending> =>
      this.slots[door]?.find((slot) => slot.beam === beam) as Slot<Attending>;
    const desks = rounds
      .filter((round) => round.turns.length > 0)
      .map((round) => new Desk(round, find, replicate.child('controller', round.controller.name)));
    this.rounds = rounds;
    this.find = find;
    this.scanner = new Scanner<Attending>(
      desks,
      burstSources(design, mounted),
      {
        scene: (slot, pose_us) => this.sceneAt(slot, pose_us),
        ...tellOf(hooks),
      },
      jumps,
    );
  }

  /** Every edge before this has been told, microseconds. */
  get settled_us(): number {
    return this.scanner.settled_us;
  }

  /**
   * How long after it happened an edge of a door's rangers may be known: what a free-running sensor holds, the longest
   * wait for its turn, median and samples, the reading itself and the switch-off delay. Microseconds.
   */
  delay_us(door: number): number {
    let most_us = 0;
    for (const round of this.rounds) {
      for (const member of slowestInterval(round, this.find).members) {
        if (member.door !== door) continue;
        const slot = this.find(member.door, member.beam);
        const { median_of, minimum_samples, off_delay_ms } = slot.settings;
        const readings = minimum_samples + (median_of - 1) / 2 + 1;
        const own_us =
          slot.ranger.held_us + readings * member.longest_us + longestBusy_us(slot.ranger) + off_delay_ms * 1000;
        most_us = Math.max(most_us, own_us);
      }
    }
    return Math.ceil(most_us);
  }

  /**
   * The same rangers at this moment, to go on another way.
   *
   * @param noise false: from now on nothing befalls them but bodies
   */
  fork(hooks: RangerHooks, noise: boolean): HouseRangers {
    const copy = Object.assign(Object.create(HouseRangers.prototype) as HouseRangers, this);
    copy.scanner = this.scanner.fork(tellOf(hooks));
    const slots = copy.scanner.slots;
    if (!noise) for (const slot of slots) slot.noiseless = true;
    copy.slots = this.slots.map((ofDoor) =>
      ofDoor.map(({ door, beam }) => slots.find((slot) => slot.door === door && slot.beam === beam)!),
    );
    return copy;
  }

  /** Whether any ranger of a door has learnt a background that is none. */
  misled(door: number): boolean {
    return this.slots[door]!.some((slot) => slot.misled);
  }

  /**
   * The rangers of one door read all the time, as if the controller had nothing else to do, from now on. While nobody is
   * about and nothing stirs, the same reading again and again is jumped.
   *
   * @param noise draws reading by reading
   * @param befallen what befell readings at the controller's own pace, in order of time
   */
  readAllTheTime(
    door: number,
    span: ReadingSpan,
    noise: Stream,
    befallen: readonly Befallen[],
    hooks: RangerHooks,
  ): void {
    for (const slot of this.slots[door]!)
      readAllTheTime(
        slot,
        span,
        (pose_us) => this.sceneAt(slot, pose_us),
        noise.child(String(slot.beam)),
        befallen,
        hooks,
      );
  }

  /** The next visit; visits come in order of entering. @param hidden limbs that aren't there */
  visit(door: number, visit: Visit, body: Body, passage: Passage, hidden?: ReadonlySet<number>): void {
    const { enter_us } = visit;
    const posed = new Posed(body, passage.motion);
    for (const slot of this.slots[door] as readonly Slot<Attending>[]) {
      const { near_m, heights_m } = slot.ranger;
      const near = nearWithin(body, passage.motion, { along_m: near_m, heights_m });
      if (near === null) continue;
      for (const limb of hidden ?? []) near.limbs[2 * limb] = Infinity;
      const clothing = this.clothing.nth(visit.body).at(0);
      const start_us = enter_us + Math.floor(near.start_s * SECOND_US);
      const end_us = enter_us + Math.ceil(near.end_s * SECOND_US);
      slot.attending.push({ start_us, end_us, enter_us, posed, clothing, limbs: near.limbs });
    }
  }

  /** Takes all readings that nobody who enters at `until_us` or later can change. */
  until(until_us: number): void {
    this.scanner.until(until_us);
  }

  private sceneAt(slot: Slot<Attending>, pose_us: number): Scene | null {
    if (slot.attending.length === 0) return null;
    slot.forget(pose_us);
    const { bodies } = this;
    bodies.clear();
    let somebody = false;
    for (const { start_us, enter_us, posed, clothing, limbs } of slot.attending) {
      if (start_us > pose_us) continue;
      somebody = true;
      bodies.add(posed, (pose_us - enter_us) / SECOND_US, clothing, limbs);
    }
    return somebody ? bodies.scene : null;
  }
}

function tellOf(hooks: RangerHooks): Omit<ScanHooks<Attending>, 'scene'> {
  return {
    edge: (slot, time_us, level) => hooks.edge(slot.door, slot.beam, time_us, level),
    ...(hooks.reading && {
      reading: (slot, time_us, distance_um) =>
        hooks.reading?.(slot.door, slot.beam, time_us, distance_um, isNear(slot, distance_um)),
    }),
    ...(hooks.befallen && {
      befallen: (slot, time_us, distance_um) => {
        const lasts = isNear(slot, distance_um) === (slot.switching.level === 1);
        hooks.befallen?.(slot.door, slot.beam, time_us, distance_um, lasts);
      },
    }),
  };
}

function slowestInterval(round: Round, find: (door: number, beam: number) => Slot<Attending>): RoundInterval {
  return intervalOf(round, ({ door, beam }) => longestBusy_us(find(door, beam).ranger));
}

function slotOf(
  design: Design,
  door: DesignDoor,
  index: number,
  mounted: MountedRanger,
  stream: Stream,
  clock_us: number,
): Slot<Attending> {
  const ranger = rangerAt(design, door, mounted, stream.child('phase').at(0));
  return new Slot<Attending>(index, mounted.index, ranger, mounted.sensor, stream, clock_us);
}
