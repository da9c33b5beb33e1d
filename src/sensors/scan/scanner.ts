/**
 * All controllers of a house reading all its rangers, in order of time: turn after turn, each reading at its own
 * instant, with what is in the air. Quiet rounds are jumped; what comes out is the same, to the byte, as if every
 * reading of every night had been taken.
 *
 * Readings are told of while somebody is about, while the switching is still at work on them, and otherwise when they differ
 * from the reading before: what is not told would change nothing.
 */
import { forkOf } from '../../engine/fork.js';
import type { Scene } from '../ranger.js';
import { MedianWindow } from '../switching/median-window.js';
import { Switch } from '../switching/switch.js';
import { Air, type Reaches } from './air.js';
import { Desk } from './desk.js';
import { Struck } from './struck.js';
import { type Attendance, NOBODY, Slot } from './slot.js';

export interface ScanHooks<A extends Attendance> {
  /** Who is about one ranger at an instant, posed; null for nobody. The scene is looked at before the next call. */
  scene(slot: Slot<A>, pose_us: number): Scene | null;
  /** A beam has changed. */
  edge(slot: Slot<A>, time_us: number, level: 0 | 1): void;
  /** A reading: whole micrometres or NO_ECHO. */
  reading?(slot: Slot<A>, time_us: number, distance_um: number): void;
  /** A reading that a stray, a drop-out, a burst of another or rare noise made what it is. */
  befallen?(slot: Slot<A>, time_us: number, distance_um: number): void;
}

export class Scanner<A extends Attendance> {
  /** Every turn that begins before this has been taken, microseconds. */
  settled_us = 0;
  private readonly air: Air;
  private readonly latest_us: number;
  private readonly hearsOthers: ReadonlySet<Desk>;
  private readonly loud: boolean;

  /**
   * @param reaches how one ranger's burst reaches another
   * @param jumps false takes every reading, however quiet: to check the jumps against
   */
  constructor(
    private readonly desks: readonly Desk[],
    reaches: Reaches,
    private hooks: ScanHooks<A>,
    private readonly jumps = true,
  ) {
    const slots = desks.flatMap((desk) => [...desk.readings.keys()]);
    this.air = new Air(slots, reaches);
    this.latest_us = Math.max(0, ...slots.map((slot) => slot.ranger.latest_us));
    this.loud = slots.some((slot) => slot.ranger.ear !== null);
    // Two controllers' rounds drift against each other: where one hears the other, no round is like the last.
    this.hearsOthers = new Set(
      desks.filter((desk) =>
        desks.some((other) => other !== desk && (hears(desk, other, this.air) || hears(other, desk, this.air))),
      ),
    );
  }

  /** The same scan at this moment, to go on another way. @param tell where edges and readings go from now on */
  fork(tell: Omit<ScanHooks<A>, 'scene'>): Scanner<A> {
    const copy = forkOf(this, [Scanner, Desk, Slot, Switch, MedianWindow, Struck, Air]) as Scanner<A>;
    const { hooks } = this;
    copy.hooks = { scene: (slot, pose_us) => hooks.scene(slot, pose_us), ...tell };
    return copy;
  }

  /** All rangers it reads. */
  get slots(): Slot<A>[] {
    return this.desks.flatMap((desk) => [...desk.readings.keys()]) as Slot<A>[];
  }

  /** Takes all turns whose poses are known when everybody who enters before `until_us` is. */
  until(until_us: number): void {
    const limit_us = until_us - this.latest_us;
    for (;;) {
      const desk = this.first();
      if (desk === null || desk.at_us >= limit_us) break;
      if (desk.listening) this.end(desk);
      else this.begin(desk, limit_us);
    }
    if (limit_us > this.settled_us) this.settled_us = limit_us;
  }

  /** The controller whose turn begins or ends first. */
  private first(): Desk | null {
    let first: Desk | null = null;
    for (const desk of this.desks) if (first === null || desk.at_us < first.at_us) first = desk;
    return first;
  }

  private begin(desk: Desk, limit_us: number): void {
    if (desk.turn === 0 && this.jumps && !this.hearsOthers.has(desk)) {
      const by_us = desk.jump(this.quietUntil(desk, limit_us), this.air.stays_us);
      if (by_us > 0) {
        if (this.loud) this.air.shift(by_us, (source) => desk.readings.has(source));
        if (desk.at_us >= limit_us) return;
      }
    }
    const start_us = desk.at_us;
    const members = desk.members as readonly Slot<A>[];
    if (this.loud) for (const slot of members) if (slot.ranger.ear !== null) this.air.send(start_us, slot);
    for (const slot of members) {
      const scene = this.hooks.scene(slot, slot.ranger.poseTime(start_us));
      slot.begin(start_us, scene);
      if (slot.ranger.ear !== null) this.air.hear(slot, scene ?? NOBODY);
    }
    desk.listen(start_us);
    if (this.hearsOthers.size > 0) this.disturbOthers(desk, start_us, members);
  }

  /** A burst may be heard by rangers of other controllers that listen already. */
  private disturbOthers(desk: Desk, sent_us: number, sources: readonly Slot<A>[]): void {
    for (const other of this.desks) {
      if (other === desk || !other.listening) continue;
      for (const slot of other.members as readonly Slot<A>[]) {
        if (slot.ranger.ear === null) continue;
        const scene = this.hooks.scene(slot, slot.ranger.poseTime(slot.start_us)) ?? NOBODY;
        for (const source of sources) if (source.ranger.ear !== null) this.air.hearOne(slot, scene, sent_us, source);
        other.listenAgain(slot.start_us);
      }
    }
  }

  private end(desk: Desk): void {
    const time_us = desk.at_us;
    const members = desk.members as readonly Slot<A>[];
    for (const slot of members) {
      const reading = slot.end();
      const { level } = slot.switching;
      const stirred = slot.switching.reading(time_us, reading);
      const told = slot.attended || stirred || reading !== slot.last_um;
      if (told || slot.befallen || slot.seen_m !== slot.lastSeen_m) desk.disturb();
      if (told) this.hooks.reading?.(slot, time_us, reading);
      if (slot.befallen || slot.heard) this.hooks.befallen?.(slot, time_us, reading);
      slot.last_um = reading;
      slot.lastSeen_m = slot.seen_m;
      if (slot.switching.level !== level) this.hooks.edge(slot, time_us, slot.switching.level);
    }
    desk.next((members[0] as Slot<A>).start_us);
  }

  /** Before this nobody is about any of a controller's rangers; of those who are known, all others enter later. */
  private quietUntil(desk: Desk, limit_us: number): number {
    let until_us = limit_us;
    for (const slot of desk.readings.keys()) {
      slot.forget(slot.ranger.poseTime(desk.at_us));
      until_us = Math.min(until_us, slot.expected_us() - this.latest_us);
    }
    return until_us;
  }
}

function hears(listener: Desk, source: Desk, air: Air): boolean {
  for (const one of listener.readings.keys())
    for (const other of source.readings.keys()) if (air.mayHear(one, other)) return true;
  return false;
}
