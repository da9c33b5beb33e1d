/** The simulating thread's end of the bridge: starts programs, asks them, waits. */
import { MessageChannel, type MessagePort, Worker, receiveMessageOnPort } from 'node:worker_threads';
import type { BridgeAnswer, BridgeQuestion, BridgeStart } from './bridge-messages.js';
import { MOST_PROCESSES } from './heart.js';

/** The bridge answers by itself when a program's time is over; past this much more the bridge is broken. */
const GRACE_MS = 10_000;

/** Who can do without its program for a while: it takes it up again where it stood. */
export interface Parkable {
  /** @returns false if it can't */
  park(): boolean;
}

export class Bridge {
  private readonly port: MessagePort;
  private readonly answered: Int32Array;
  private readonly thread: Worker;
  private seen = 0;
  private next = 1;
  /** Programs that run, the one used longest ago first. */
  private readonly running = new Map<number, Parkable>();

  constructor(
    private readonly limit_s: number,
    shared: SharedArrayBuffer,
  ) {
    const { port1, port2 } = new MessageChannel();
    const signal = new SharedArrayBuffer(4);
    this.answered = new Int32Array(signal);
    const workerData: BridgeStart = { port: port2, signal, shared, limit_s };
    this.thread = new Worker(new URL('./bridge-thread.js', import.meta.url), { workerData, transferList: [port2] });
    this.thread.unref();
    this.port = port1;
    this.port.unref();
  }

  /** @param user parked when there are too many programs at once */
  start(words: readonly string[], user: Parkable): number {
    if (this.running.size >= MOST_PROCESSES) [...this.running.values()].find((other) => other.park());
    const id = this.next++;
    this.running.set(id, user);
    this.tell({ ask: 'start', id, words });
    return id;
  }

  exchange(id: number, text: string, marker: string): Extract<BridgeAnswer, { told: 'lines' | 'fault' }> {
    const user = this.running.get(id);
    if (user) {
      this.running.delete(id);
      this.running.set(id, user);
    }
    this.tell({ ask: 'exchange', id, text, marker });
    const answer = this.wait();
    if (answer.told === 'closed') throw new Error('the bridge answers what nobody asked');
    return answer;
  }

  end(id: number): void {
    if (this.running.delete(id)) this.tell({ ask: 'end', id });
  }

  /** All programs are ended. */
  close(): void {
    this.tell({ ask: 'close' });
    this.wait();
    this.running.clear();
    void this.thread.terminate();
  }

  private tell(question: BridgeQuestion): void {
    this.port.postMessage(question);
  }

  private wait(): BridgeAnswer {
    for (;;) {
      const got = receiveMessageOnPort(this.port) as { message: BridgeAnswer } | undefined;
      if (got) return got.message;
      const outcome = Atomics.wait(this.answered, 0, this.seen, 1000 * this.limit_s + GRACE_MS);
      if (outcome === 'timed-out') throw new Error('the thread that owns the programs does not answer');
      this.seen = Atomics.load(this.answered, 0);
    }
  }
}
