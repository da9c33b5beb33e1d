/**
 * What the simulating thread is in at this moment, in memory shared with the thread that watches it.
 *
 * A module's step that never returns leaves its thread deaf: no message gets in or out. So before every call the thread
 * writes down what it calls and counts a beat; when the beat stands still for too long, the watching thread knows what
 * hangs, and ends it. Beside that stand the processes that run, so that they can be ended when nobody else can.
 */

/** Beat, what is called, which code, which door: four 32-bit words; then a time as a 64-bit number; then processes. */
const TIME_AT = 16;
const PROCESSES_AT = 24;
/** Most programs alive at once. */
export const MOST_PROCESSES = 128;
export const SHARED_BYTES = PROCESSES_AT + 4 * 2 * MOST_PROCESSES;

export const CALLS = ['nothing', 'loading', 'initial', 'step', 'label'] as const;
export type Call = (typeof CALLS)[number];

/** What is being called. */
export interface Place {
  readonly call: Exclude<Call, 'nothing'>;
  /** Index of the code in its job. */
  readonly code: number;
  /** Index of the door in the design; −1 while loading. */
  readonly door: number;
  /** The input's time, microseconds; NaN where there is none. */
  readonly time_us: number;
}

/** The simulating thread's side. */
export class Heart {
  private readonly words: Int32Array;
  private readonly time: Float64Array;
  private beat = 0;

  constructor(shared: SharedArrayBuffer) {
    this.words = new Int32Array(shared, 0, 4);
    this.time = new Float64Array(shared, TIME_AT, 1);
  }

  /** Calls begin. @param call index in {@link CALLS} */
  enter(call: number, code: number, door: number, time_us: number): void {
    const { words } = this;
    this.time[0] = time_us;
    words[2] = code;
    words[3] = door;
    this.beat = (this.beat + 1) | 0;
    Atomics.store(words, 1, call);
    Atomics.store(words, 0, this.beat);
  }

  leave(): void {
    Atomics.store(this.words, 1, 0);
  }
}

/** What the thread is in; null when it is in no code of the user's. */
export function placeIn(shared: SharedArrayBuffer): Place | null {
  const words = new Int32Array(shared, 0, 4);
  const call = CALLS[Atomics.load(words, 1)];
  if (call === undefined || call === 'nothing') return null;
  return { call, code: words[2]!, door: words[3]!, time_us: new Float64Array(shared, TIME_AT, 1)[0]! };
}

/** Looks so often, at most. */
const LOOK_MS = 200;

/**
 * Watches from another thread. A computer that sleeps stops the looking too, so that waking up is no hang.
 *
 * @param stuck told once, when one call has taken longer than `limit_s`
 * @returns stops watching
 */
export function watchHeart(shared: SharedArrayBuffer, limit_s: number, stuck: (place: Place) => void): () => void {
  const words = new Int32Array(shared, 0, 4);
  const every_ms = Math.min(LOOK_MS, (1000 * limit_s) / 4);
  let beat = 0;
  let looks = 0;
  const timer = setInterval(() => {
    const now = Atomics.load(words, 0);
    const place = placeIn(shared);
    looks = place && now === beat ? looks + 1 : 0;
    beat = now;
    if (place === null || looks * every_ms < 1000 * limit_s) return;
    clearInterval(timer);
    stuck(place);
  }, every_ms);
  return () => clearInterval(timer);
}

/** The processes that run, in shared memory: leaders of their groups. */
export function processesIn(shared: SharedArrayBuffer): Int32Array {
  return new Int32Array(shared, PROCESSES_AT, 2 * MOST_PROCESSES);
}

/** Ends a program and what it has started. */
export function killGroup(leader: number): void {
  for (const target of process.platform === 'win32' ? [leader] : [-leader, leader]) {
    try {
      process.kill(target, 'SIGKILL');
      return;
    } catch {
      // It has ended by itself, or has no group.
    }
  }
}

/** Ends every program that still runs: for when the thread that owns them is gone. */
export function killLeft(shared: SharedArrayBuffer): void {
  const running = processesIn(shared);
  for (let i = 0; i < running.length; i++) {
    const leader = Atomics.exchange(running, i, 0);
    if (leader > 0) killGroup(leader);
  }
}
