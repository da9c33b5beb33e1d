/**
 * Each stage of the pipeline alone, on what the stages before it gave: few enough passages to stay near the processor,
 * as they do in a run, over and over.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Crowd } from '../src/agents/crowd.js';
import { linger, through, turnBack } from '../src/agents/motion/passage.js';
import { openEventFiles } from '../src/cli/event-files.js';
import { Stream } from '../src/engine/stream.js';
import { DoorCounter } from '../src/score/door-counts.js';
import { DoorScorer } from '../src/score/door-scorer.js';
import { DriftTrack } from '../src/score/drift-bands.js';
import { trueNetOf } from '../src/score/truth.js';
import { HouseBooks } from '../src/simulate/house-books.js';
import { clockOf } from '../src/simulate/plan.js';
import { type Beginning, beginningOf, bodyOf } from './beginning.js';
import { check } from './check.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { least, median, timed } from './measured.js';
import type { Recording } from './recording.js';
import { decide, record, sense, shadowOf } from './recording.js';

const PASSAGES = 4_000;
const TURNS = 20;

export function stages(name: string, repeats: number): Measured[] {
  const design = designOf(crowdNamed(name), PASSAGES);
  const beginning = beginningOf(design);
  const units = beginning.comings.length * TURNS;
  const stage = (label: string, work: () => void): Measured => {
    const turns = () => {
      for (let i = 0; i < TURNS; i++) work();
    };
    return { label, units, ...timed(repeats, turns) };
  };
  // Before anything is recorded: the engine puts what it has seen stay where it is dear to make.
  const who = [
    stage('who comes when, and how they walk', () => crowd(beginning)),
    stage('… of it drawing people and bodies', () => bodies(beginning)),
    stage('… of it laying out motions', () => motions(beginning)),
  ];
  const recording = record(design);
  const rest = [
    stage('edge search', () => edges(recording)),
    stage('sensors and inputs', () => sensors(recording)),
    stage('one logic', () => logics(recording)),
    stage('score at the door', () => score(recording)),
    stage('rooms', () => rooms(recording)),
    { label: 'rows', units, ...timed(repeats, () => rows(recording)) },
  ];
  return [...who, ...rest, { label: 'all stages', units, ...together([who[0]!, ...rest]) }];
}

/** What the best, and what the medians, of all parts come to. */
function together(parts: readonly Measured[]): Pick<Measured, 'seconds' | 'cpu_s'> {
  const sum = (key: 'seconds' | 'cpu_s', of: (all: readonly number[]) => number) =>
    parts.reduce((total, part) => total + of(part[key]), 0);
  const both = (key: 'seconds' | 'cpu_s') => [sum(key, least), sum(key, median), sum(key, median)];
  return { seconds: both('seconds'), cpu_s: both('cpu_s') };
}

function crowd({ plan, stream, comings }: Beginning): void {
  let n = 0;
  new Crowd(plan, stream).run(() => n++);
  check(n === comings.length, `the crowd made ${n} visits instead of ${comings.length}`);
}

/** Each body once, as the crowd keeps those who are to return. */
function bodies({ plan, bodyStream, firstComings }: Beginning): void {
  for (const { who, body, stature_m } of firstComings) {
    const again = bodyOf(plan, who, body, bodyStream);
    check(again.stature_m === stature_m, 'a body is drawn differently the second time');
  }
}

function motions({ plan, bodyStream, comings, someBodies }: Beginning): void {
  const { opening } = plan.doors[0]!;
  comings.forEach(({ kind, direction, body }, i) => {
    const pass = kind === 'turn-back' ? turnBack : kind === 'linger' ? linger : through;
    const walker = someBodies[i % someBodies.length]!;
    const { leave_s } = pass(walker, opening, direction === 'backward', bodyStream.nth(body).nth(1));
    check(leave_s > 0, 'a passage takes no time');
  });
}

function edges({ barriers, episodes }: Recording): void {
  for (const { seen, shadows } of episodes) {
    seen.forEach((one, i) => {
      const { breaks } = shadowOf(one, barriers);
      const before = shadows[i]!.breaks;
      check(breaks[0]!.length === before[0]!.length && breaks[1]![0] === before[1]![0], 'edges differ');
    });
  }
}

function sensors({ design, doorStream, episodes, changes }: Recording): void {
  let n = 0;
  sense(design, doorStream, episodes, () => n++);
  check(n === changes.length, `${n} changes of levels instead of ${changes.length}`);
}

function logics({ logic, changes, tallies }: Recording): void {
  let n = 0;
  decide(logic, changes, () => n++);
  check(n === tallies.length, `${n} tallies instead of ${tallies.length}`);
}

function score({ design, logic, episodes, tallies }: Recording): void {
  const counter = new DoorCounter();
  const scorer = new DoorScorer(logic.latency_us, counter);
  const drift = new DriftTrack(clockOf(design));
  let t = 0;
  for (const { seen, settled_us } of episodes) {
    for (const { visit } of seen) {
      scorer.visit(visit);
      if (visit.cross_us !== null) drift.crossed(visit.cross_us, trueNetOf(visit));
    }
    for (; t < tallies.length && tallies[t]!.time_us < settled_us; t++) {
      const { time_us, direction } = tallies[t]!;
      scorer.tally(time_us, direction);
      drift.tallied(time_us, direction === 'forward' ? 1 : -1);
    }
    scorer.advance(settled_us);
  }
  scorer.close();
  check(counter.counts().tallies === tallies.length, 'not every tally is judged once');
}

function rooms({ design, episodes, tallies }: Recording): void {
  const books = new HouseBooks(
    design,
    design.rooms.map((room) => room.people_at_start),
    Stream.root('rooms'),
    false,
  );
  let t = 0;
  episodes.forEach(({ seen, settled_us }, i) => {
    for (const { visit } of seen) books.crossing(visit);
    for (; t < tallies.length && tallies[t]!.time_us < settled_us; t++)
      books.tally(0, 0, tallies[t]!.time_us, tallies[t]!.direction);
    if (i % 64 === 0) books.advance(settled_us);
  });
  const [times] = books.close().flat(2);
  check(times!.exact_us > 0 && times!.exact_us <= times!.span_us, 'a room is right for longer than the clock runs');
}

function rows({ design, visits, tallies }: Recording): void {
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-bench-'));
  const files = openEventFiles(folder, design, false);
  for (let i = 0; i < TURNS; i++) {
    for (const { visit } of visits) files.sinks.passage!(1, visit);
    for (const { time_us, direction } of tallies) files.sinks.tally!(1, { door: 0, logic: 0, time_us, direction });
  }
  files.close();
  rmSync(folder, { recursive: true });
}
