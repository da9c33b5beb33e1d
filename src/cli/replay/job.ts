/** A log from its first row to its last, whoever runs it: the terminal's own thread, or one that code of the user's can be ended on. */
import { join } from 'node:path';
import type { OutsideLogics } from '../../counter/make-logic.js';
import { HOUR_US } from '../../engine/time.js';
import { serialiseDesign } from '../../scenario/design-json.js';
import type { Design } from '../../scenario/schema.js';
import type { Metrics } from '../../score/metrics-schema.js';
import type { ReplayedLog } from '../../score/figures.js';
import { calibrated } from '../../simulate/calibration.js';
import type { TallyRow } from '../../simulate/outcome.js';
import { clockOf } from '../../simulate/plan.js';
import type { LogEvent } from '../../simulate/replay/in-order.js';
import { Replay } from '../../simulate/replay/replay.js';
import { tallyOrder } from '../../simulate/row-order.js';
import { assemble } from '../../simulate/simulate.js';
import { VERSION } from '../../simulate/version.js';
import type { Visit } from '../../agents/visit.js';
import { openTallyFile } from '../event-files.js';
import { writeNew } from '../files.js';
import { writeScored } from '../scored-files.js';
import { type LogChoice, LogReader } from './log-reader.js';
import { RoomFile } from './room-file.js';
import { STDIN, rowsOf } from './rows.js';
import { truthOf } from './truth.js';

export interface ReplayJob {
  readonly design: Design;
  readonly log: LogChoice;
  /** File of who truly came; null where nobody knows. */
  readonly truth: string | null;
  /** Unfinished folder for results; null where none are wanted. */
  readonly folder: string | null;
  /** Whether tallies are told as they come. */
  readonly watch: boolean;
  /** Hours of the log, where the caller knows them; null to measure a file, or to take the scenario's. */
  readonly hours: number | null;
  /** Whether the report is a page without any script. */
  readonly static: boolean;
}

export interface ReplayResult {
  /** Null without truth. */
  readonly metrics: Metrics | null;
  readonly log: ReplayedLog;
  readonly design: Design;
  /** `[door][logic]`: tallies. */
  readonly counted: readonly (readonly { readonly forward: number; readonly backward: number }[])[];
  /** `[logic][ledger][room]`: the count when the log ends. */
  readonly rooms: readonly (readonly (readonly number[])[])[];
}

/** One tally as it comes, and what the first ledger says of the rooms then. */
export interface Watched extends TallyRow {
  /** Per room, by the first ledger of that logic. */
  readonly rooms: readonly number[];
}

export interface ReplayHooks {
  readonly outside?: OutsideLogics | undefined;
  watched?(one: Watched): void;
  /** Ends the log early. */
  readonly stop?: AbortSignal;
}

/** A live log is counted as far as it is known once nothing has come for this long, milliseconds. */
const IDLE_MS = 300;

/** @throws {UserProblem} with the line of what can't be read */
export async function replayLog(job: ReplayJob, hooks: ReplayHooks): Promise<ReplayResult> {
  const measured = await measure(job, hooks);
  const design = calibrated({ ...job.design, replicates: 1, hours: measured.hours }, hooks.outside);
  const run = new Run(job, design, measured, hooks);
  await run.rows();
  return run.end();
}

/** A year: no clock is longer. */
const LONGEST_H = 8760;

interface Measured {
  readonly hours: number;
  /** Replicate of a run whose log this is; null for a log from elsewhere. */
  readonly simulated: number | null;
  /** Whether it has levels as a controller saw them, not only readings to be switched. */
  readonly switched: boolean;
}

/** What must be known of a log before it is replayed: whether it is our own, and how long it is. */
async function measure(job: ReplayJob, hooks: ReplayHooks): Promise<Measured> {
  const { design, log } = job;
  // Without truth nothing is measured over a clock: it only must not end before the log does.
  const hours = job.truth === null ? LONGEST_H : job.hours;
  // Standard input comes once: its header is looked at as it goes by.
  if (log.file === STDIN) return { hours: hours ?? design.hours, simulated: null, switched: true };
  let last_us = 0;
  const reader = new LogReader(design, log, ({ time_us }) => (last_us = time_us));
  const whole = hours === null;
  for await (const row of rowsOf(log.file, hooks.stop)) {
    reader.row(row);
    if (reader.columns && (!whole || reader.columns.own)) break;
  }
  const own = reader.columns?.own === true;
  if (own) return { hours: hours ?? design.hours, simulated: log.replicate, switched: reader.columns!.level >= 0 };
  if (!whole) return { hours: hours ?? design.hours, simulated: null, switched: true };
  reader.end();
  return { hours: Math.max(0.01, Math.ceil((last_us / HOUR_US) * 100) / 100), simulated: null, switched: true };
}

class Run {
  private readonly replay: Replay;
  private readonly reader: LogReader;
  private readonly files: { readonly tally: (row: TallyRow) => void; close(): void } | null;
  private readonly tallies;
  private readonly counted: { forward: number; backward: number }[][];
  private readonly roomFile: RoomFile | null;
  /** Tallies that nobody has been told of yet. */
  private readonly untold: TallyRow[] = [];
  private truth: AsyncGenerator<Visit> | null = null;
  /** The first of the truth that the replay has not been told of. */
  private next: Visit | null = null;
  private readonly events: LogEvent[] = [];
  private last_us = 0;
  private first_us = Number.NaN;
  private taking: Promise<void> = Promise.resolve();

  constructor(
    private readonly job: ReplayJob,
    private readonly design: Design,
    { simulated, switched }: Measured,
    private readonly hooks: ReplayHooks,
  ) {
    const { folder } = job;
    this.files = folder === null ? null : openTallyFile(folder, design, job.log.replicate);
    this.roomFile = folder === null ? null : new RoomFile(folder, design);
    this.counted = design.doors.map(() => design.logics.map(() => ({ forward: 0, backward: 0 })));
    this.tallies = tallyOrder((row) => this.files?.tally(row));
    this.replay = new Replay(design, {
      outside: hooks.outside,
      simulated,
      switched,
      tally: (row) => {
        this.tallies.put(row);
        this.counted[row.door]![row.logic]![row.direction]++;
        if (job.watch) this.untold.push(row);
      },
      counted: (count) => this.roomFile?.count(count),
    });
    this.reader = new LogReader(design, job.log, (event) => this.events.push(event));
  }

  async rows(): Promise<void> {
    const { job, hooks, reader } = this;
    const live = job.log.file === STDIN;
    let idle: NodeJS.Timeout | undefined;
    for await (const row of rowsOf(job.log.file, hooks.stop)) {
      clearTimeout(idle);
      reader.row(row);
      if (this.events.length > 0) await this.takeInTurn(false);
      if (live)
        idle = setTimeout(() => {
          reader.order.release();
          // What goes wrong then is told with the next row, or at the end.
          this.takeInTurn(true).catch(() => undefined);
        }, IDLE_MS);
    }
    clearTimeout(idle);
    reader.end();
    await this.takeInTurn(true);
  }

  async end(): Promise<ReplayResult> {
    const { job, design, reader, replay } = this;
    const { folder } = job;
    await this.truthUntil(Infinity);
    const unfinished = replay.broken();
    // What ledgers do by the clock after the log's end is no part of it.
    replay.advance(this.last_us + 1);
    this.tellWatcher();
    const rooms = replay.counts();
    this.roomFile?.close();
    const clock_us = clockOf(design);
    const result = replay.close(clock_us);
    this.tallies.release(Infinity);
    this.tellWatcher();
    this.files?.close();
    const { mender, order } = reader;
    const log: ReplayedLog = {
      rows: reader.rows,
      edges: reader.edges,
      readings: reader.readings,
      span_h: (reader.rows === 0 ? 0 : this.last_us - this.first_us) / HOUR_US,
      out_of_order: order.outOfOrder,
      duplicates: order.duplicates,
      repeated: replay.repeated,
      wraps: mender.wraps,
      silences: mender.silences.map((silence) => ({ ...silence })),
      unfinished: unfinished.map(({ door, beam }) => ({
        door: design.doors[door]!.name,
        beam: design.doors[door]!.beams[beam]!.name,
      })),
      own: reader.columns!.own,
    };
    const { counted } = this;
    let metrics: Metrics | null = null;
    if (folder !== null) {
      writeNew(join(folder, 'design.json'), serialiseDesign(design));
      writeNew(join(folder, 'replay.json'), `${JSON.stringify({ format: 1, jambeam: VERSION, ...log }, null, 2)}\n`);
    }
    if (job.truth !== null) {
      const outcome = assemble(design, [result], { closer: log.own, why: false, outside: this.hooks.outside });
      ({ metrics } = outcome);
      const figures = { ...outcome.figures, replayed: log };
      if (folder !== null) await writeScored(folder, { design, metrics, figures }, job.static);
    }
    return { metrics, log, design, counted, rooms };
  }

  /** One after another, whoever asks. @param quiet nothing else is coming for now: what happened last is told too */
  private takeInTurn(quiet: boolean): Promise<void> {
    this.taking = this.taking.then(async () => this.take(quiet));
    return this.taking;
  }

  /** What has come in order goes on, each event after those who came before it. */
  private async take(quiet: boolean): Promise<void> {
    for (const event of this.events.splice(0)) {
      if (Number.isNaN(this.first_us)) this.first_us = event.time_us;
      this.last_us = event.time_us;
      // Most events come before the next visit, and waiting for nothing costs time.
      const isDue = this.truth === null || (this.next !== null && this.next.enter_us <= event.time_us);
      if (this.job.truth !== null && isDue) await this.truthUntil(event.time_us);
      const { door, beam, time_us, level, distance_um } = event;
      if (level === null) this.replay.reading(door, beam, time_us, distance_um!);
      else this.replay.edge(door, beam, time_us, level);
    }
    const known_us = quiet ? this.last_us + 1 : this.last_us;
    if (this.job.watch) this.replay.advance(known_us);
    // The replay itself goes on in steps: no tally before its last one is still to come.
    this.tallies.release(this.replay.told_us);
    this.tellWatcher();
  }

  /** Tells what has been counted since, in order of time. */
  private tellWatcher(): void {
    if (this.untold.length === 0) return;
    const counts = this.replay.counts();
    for (const row of this.untold.splice(0).sort((a, b) => a.time_us - b.time_us))
      this.hooks.watched?.({ ...row, rooms: counts[row.logic]![0] ?? [] });
  }

  /** Tells the replay of all who came in until then. */
  private async truthUntil(time_us: number): Promise<void> {
    const { truth: file, log } = this.job;
    if (file === null) return;
    if (this.truth === null) {
      const { replicate, door } = log;
      const first = this.reader.first;
      const first_us = this.reader.columns?.own === true || !first ? 0 : first.time_us;
      this.truth = truthOf(this.design, { file, replicate, door, first_us });
      this.next = (await this.truth.next()).value ?? null;
    }
    while (this.next && this.next.enter_us <= time_us) {
      this.replay.visit(this.next);
      this.next = (await this.truth.next()).value ?? null;
    }
  }
}
