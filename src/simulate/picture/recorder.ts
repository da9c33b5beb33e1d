/** One visit of a replicate under watch: who else is there, and what beams, controller and logic make of it. */
import type { Direction, Level } from '../../counter/logic.js';
import type { HostStep } from '../../counter/host.js';
import type { Design } from '../../scenario/schema.js';
import type { Picture, PicturedBeam, Panel } from '../../score/pictures.js';
import type { WrongVisit } from '../../score/wrong-visits.js';
import type { Why } from '../../score/why-classes.js';
import { axisPaths } from '../../sensors/axis-paths.js';
import type { MountedBeam } from '../../sensors/mounted.js';
import { isBarrier } from '../../sensors/mounted.js';
import { mountedBeams } from '../plan.js';
import type { Arrival } from '../parties.js';
import { bandsOf } from './bands.js';

/** What is drawn before the visit begins and after it ends. */
const BEFORE_US = 150_000;
const AFTER_US = 250_000;
/** A walk is drawn every 10 ms; of longer stays no more instants than this. */
const STEP_US = 10_000;
const MOST_STEPS = 320;
/** Longer stays are drawn to here: whoever lingers does so for minutes. */
const LONGEST_US = 30_000_000;

/** The visit a picture is about. */
export type Pictured = Pick<
  WrongVisit,
  'door' | 'logic' | 'number' | 'enter_us' | 'leave_us' | 'missed' | 'reversed' | 'extra' | 'invented'
> & { readonly why?: Why };

export class Recorder {
  readonly start_us: number;
  readonly end_us: number;
  private readonly arrived: Arrival[] = [];
  private readonly mounted: readonly MountedBeam[];
  private readonly levels: Level[];
  private readonly changes: number[][];
  private readonly readings: { readonly ms: number[]; readonly near: Level[] }[];
  private label = '';
  private readonly states: { from_ms: number; label: string }[] = [];
  private readonly tallies: { at_ms: number; direction: Direction }[] = [];

  /** @param initial label of the logic's first state */
  constructor(
    private readonly design: Design,
    private readonly replicate: number,
    private readonly of: Pictured,
    initial: string,
  ) {
    this.start_us = of.enter_us - BEFORE_US;
    this.end_us = Math.min(of.leave_us, of.enter_us + LONGEST_US) + AFTER_US;
    this.mounted = mountedBeams(design, design.doors[of.door]!);
    this.levels = this.mounted.map(() => 0);
    this.changes = this.mounted.map(() => []);
    this.readings = this.mounted.map(() => ({ ms: [], near: [] }));
    this.label = initial;
  }

  visit(arrived: Arrival): void {
    const { visit } = arrived;
    if (visit.door === this.of.door && visit.enter_us <= this.end_us && visit.leave_us >= this.start_us)
      this.arrived.push(arrived);
  }

  edge(door: number, beam: number, time_us: number, level: Level): void {
    if (door !== this.of.door || time_us > this.end_us) return;
    if (time_us < this.start_us) this.levels[beam] = level;
    else this.changes[beam]!.push(this.ms(time_us));
  }

  reading(door: number, beam: number, time_us: number, near: boolean): void {
    if (door !== this.of.door || time_us < this.start_us || time_us > this.end_us) return;
    this.readings[beam]!.ms.push(this.ms(time_us));
    this.readings[beam]!.near.push(near ? 1 : 0);
  }

  step(door: number, logic: number, { time_us, label, tallies }: HostStep): void {
    if (door !== this.of.door || logic !== this.of.logic || time_us > this.end_us) return;
    if (time_us < this.start_us) {
      this.label = label;
      return;
    }
    const at_ms = this.ms(time_us);
    if (label !== (this.states.at(-1)?.label ?? this.label)) this.states.push({ from_ms: at_ms, label });
    for (const direction of tallies) this.tallies.push({ at_ms, direction });
  }

  picture(): Picture {
    const { design, of, mounted, start_us, end_us } = this;
    const step_us = Math.max(STEP_US, Math.ceil((end_us - start_us) / MOST_STEPS / 1000) * 1000);
    const steps = Math.floor((end_us - start_us) / step_us) + 1;
    const paths = axisPaths(mounted);
    const panels = panelsOf(mounted);
    const bodies = [...this.arrived].sort(
      (a, b) => Number(b.visit.number === of.number) - Number(a.visit.number === of.number),
    );
    const { missed, reversed, extra, invented } = of;
    return {
      door: design.doors[of.door]!.name,
      logic: design.logics[of.logic]!.name,
      replicate: this.replicate,
      number: of.number,
      step_ms: step_us / 1000,
      span_ms: this.ms(end_us),
      panels,
      beams: mounted.map((beam, b): PicturedBeam => {
        const { from, to } = beam.line;
        return {
          name: beam.name,
          ranger: !isBarrier(beam),
          at_mm: Math.round(500 * (from.y + to.y)),
          level: this.levels[b]!,
          changes_ms: this.changes[b]!,
          readings_ms: this.readings[b]!.ms,
          near: this.readings[b]!.near,
        };
      }),
      bodies: bodies.map((arrived) => {
        const { visit } = arrived;
        return {
          number: visit.number,
          who: visit.who,
          kind: visit.kind,
          direction: visit.direction,
          stature_m: Math.round(visit.stature_m * 100) / 100,
          crosses: visit.cross_us !== null,
          enter_ms: this.ms(visit.enter_us),
          leave_ms: this.ms(visit.leave_us),
          bands: panels.map(({ beams }) => bandsOf(arrived, paths[beams[0]!]!, { start_us, step_us, steps })),
        };
      }),
      states: [{ from_ms: 0, label: this.label }, ...this.states],
      tallies: this.tallies,
      missed,
      reversed,
      extra,
      invented,
      ...(of.why && { why: of.why }),
    };
  }

  /** Milliseconds of the picture, to a tenth. */
  private ms(time_us: number): number {
    return Math.round((time_us - this.start_us) / 100) / 10;
  }
}

/** Beams that lie in one plane see the same sections: as high at both ends, and as much askew. */
function panelsOf(mounted: readonly MountedBeam[]): Panel[] {
  const panels = new Map<string, number[]>();
  mounted.forEach(({ line: { from, to }, sensor }, b) => {
    const slant = Math.abs(to.y - from.y) < 1e-9 ? 0 : (to.y - from.y) / Math.max(1e-9, Math.abs(to.x - from.x));
    const ends = [Math.min(from.z, to.z), Math.max(from.z, to.z), slant].map((one) => Math.round(one * 1000));
    const key = `${ends.join()} ${sensor.kind === 'light-barrier' ? `${sensor.beam_diameter_m} ${sensor.covered_share}` : ''}`;
    panels.set(key, [...(panels.get(key) ?? []), b]);
  });
  return [...panels.values()].map((beams) => {
    const { from, to } = mounted[beams[0]!]!.line;
    return { height_m: Math.round(500 * (from.z + to.z)) / 1000, beams };
  });
}
