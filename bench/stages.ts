/**
 * Each stage of the pipeline alone, on what the stages before it gave: few enough passages to stay near the processor,
 * as they do in a run, over and over.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Crowd } from '../src/agents/crowd.js';
import { linger, through, turnBack } from '../src/agents/motion/passage.js';
import { drawBody, walkerNamed } from '../src/agents/walkers.js';
import { openEventFiles } from '../src/cli/event-files.js';
import { DoorCounter } from '../src/score/door-counts.js';
import { DoorScorer } from '../src/score/door-scorer.js';
import { DriftTrack } from '../src/score/drift-bands.js';
import { trueNetOf } from '../src/score/truth.js';
import { HouseBooks } from '../src/simulate/house-books.js';
import { clockOf } from '../src/simulate/plan.js';
import { check } from './check.js';
import { crowdNamed, designOf } from './crowds.js';
import type { Measured } from './measured.js';
import { least, median, timed } from './measured.js';
import type { Recording } from './recording.js';
import { decide, record, sense, shadowOf } from './recording.js';

const PASSAGES = 4_000;
const TURNS = 20;

export function stages(name: string, repeats: number): Measured[] {
  const recording = record(designOf(crowdNamed(name), PASSAGES));
  const units = recording.visits.length * TURNS;
  const stage = (label: string, work: (recording: Recording) => void): Measured => {
    const turns = () => {
      for (let i = 0; i < TURNS; i++) work(recording);
    };
    return { label, units, seconds: timed(repeats, turns) };
  };
  const parts = [
    stage('who comes when, and how they walk', crowd),
    stage('edge search', edges),
    stage('sensors and inputs', sensors),
    stage('one logic', logics),
    stage('score at the door', score),
    stage('rooms', rooms),
    { label: 'rows', units, seconds: timed(repeats, () => rows(recording)) },
  ];
  const [first, ...rest] = parts;
  return [
    first!,
    stage('… of it drawing people and bodies', bodies),
    stage('… of it laying out motions', motions),
    ...rest,
    { label: 'all stages', units, seconds: together(parts) },
  ];
}

/** What the best, and what the medians, of all parts come to. */
function together(parts: readonly Measured[]): number[] {
  const sum = (of: (all: readonly number[]) => number) => parts.reduce((total, { seconds }) => total + of(seconds), 0);
  return [sum(least), sum(median), sum(median)];
}

function crowd({ plan, crowdStream, visits }: Recording): void {
  let n = 0;
  new Crowd(plan, crowdStream).run(() => n++);
  check(n === visits.length, `the crowd made ${n} visits instead of ${visits.length}`);
}

/** Each body once, as the crowd keeps those who are to return. */
function bodies({ plan, crowdStream, visits }: Recording): void {
  const door = plan.doors[0]!;
  const stream = crowdStream.child('body');
  const drawn = new Set<number>();
  for (const { visit, body } of visits) {
    if (drawn.has(body.number)) continue;
    drawn.add(body.number);
    const walker = walkerNamed(body.who, plan.walkers);
    const { opening, traffic } = door;
    const again = drawBody(body.who, walker, body.number, opening, traffic.home_pace, stream.nth(body.number));
    check(again.stature_m === visit.stature_m, 'a body is drawn differently the second time');
  }
}

function motions({ plan, crowdStream, visits }: Recording): void {
  const { opening } = plan.doors[0]!;
  const stream = crowdStream.child('body');
  const passing = { 'turn-back': turnBack, linger, other: through };
  for (const { visit, body } of visits) {
    const pass = visit.kind === 'turn-back' || visit.kind === 'linger' ? passing[visit.kind] : passing.other;
    const { leave_s } = pass(body, opening, visit.direction === 'backward', stream.nth(body.number).nth(1));
    check(leave_s > 0, 'a passage takes no time');
  }
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
  const books = new HouseBooks(design, false);
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
