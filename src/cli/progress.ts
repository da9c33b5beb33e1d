/** How far a run has come, on stderr: a bar with the time left on a terminal, a plain line now and then elsewhere. */
import { SingleBar } from 'cli-progress';
import type { Io } from './io.js';

/** Seconds between two plain lines. */
const LINE_EVERY_S = 5;

export interface Progress {
  /** `done` replicates, a fraction counts the running one. */
  update(done: number): void;
  stop(): void;
}

export function startProgress(of: number, io: Io): Progress {
  let began = performance.now();
  const timeLeft = (done: number) => {
    const spent_s = (performance.now() - began) / 1000;
    return done > 0 ? `about ${durationText((spent_s / done) * (of - done))} left` : 'beginning';
  };
  const progress = io.errIsTerminal ? bar(of, timeLeft) : lines(of, timeLeft, io);
  return {
    update(done) {
      // The time to load and start is over when the first replicate begins; it says nothing of the others.
      if (done === 0) began = performance.now();
      progress.update(done);
    },
    stop: () => progress.stop(),
  };
}

function bar(of: number, timeLeft: (done: number) => string): Progress {
  const progress = new SingleBar({
    format: '{bar} {percentage} %  replicate {replicate} of {total}, {left}',
    barCompleteChar: '\u2588',
    barIncompleteChar: '\u2591',
    barsize: 30,
    clearOnComplete: true,
    stream: process.stderr,
  });
  const payload = (done: number) => ({ replicate: Math.min(of, Math.floor(done) + 1), left: timeLeft(done) });
  progress.start(of, 0, payload(0));
  return { update: (done) => progress.update(done, payload(done)), stop: () => progress.stop() };
}

function lines(of: number, timeLeft: (done: number) => string, io: Io): Progress {
  let said = performance.now();
  return {
    update(done) {
      if (performance.now() - said < LINE_EVERY_S * 1000 || done >= of) return;
      said = performance.now();
      io.err(`replicate ${Math.floor(done) + 1} of ${of}, ${timeLeft(done)}\n`);
    },
    stop: () => undefined,
  };
}

/** `3 s`, `2 min`, `1.5 h`: coarse, as an estimate is. */
export function durationText(seconds: number): string {
  if (seconds < 90) return `${Math.ceil(seconds)} s`;
  return seconds < 5400 ? `${Math.round(seconds / 60)} min` : `${Math.round(seconds / 360) / 10} h`;
}
