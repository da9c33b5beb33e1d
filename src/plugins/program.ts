/** One program that runs beside: its pipes, its answers, and its end. Lives in the bridge's thread. */
import { type ChildProcess, spawn } from 'node:child_process';
import { StringDecoder } from 'node:string_decoder';
import type { BridgeAnswer, ProcessFault } from './bridge-messages.js';
import { killGroup, processesIn } from './heart.js';

/** An answer longer than this is a flood, bytes. */
export const LONGEST_ANSWER = 1_048_576;
const KEPT_COMPLAINTS = 2048;
const KEPT_LINES = 5;
/** A program whose input was closed may take so long to end by itself. */
const ENDS_WITHIN_MS = 1000;

export class Program {
  /** Its process has ended and its pipes are drained. */
  readonly gone: Promise<void>;
  private readonly child: ChildProcess;
  private said = '';
  private bytes = 0;
  private complaints = '';
  private fault: ProcessFault | null = null;
  private waiting: { marker: string; answer: (answer: BridgeAnswer) => void; timer: NodeJS.Timeout } | null = null;

  constructor(
    [command = '', ...args]: readonly string[],
    private readonly shared: SharedArrayBuffer,
    private readonly limit_ms: number,
  ) {
    // A group of its own: it ends with all it has started, and hears no Ctrl-C but through us.
    this.child = spawn(command, args, { stdio: 'pipe', detached: process.platform !== 'win32', windowsHide: true });
    const { child } = this;
    if (child.pid !== undefined) this.register(0, child.pid);
    const decoder = new StringDecoder('utf8');
    child.stdout!.on('data', (chunk: Buffer) => this.hear(decoder.write(chunk), chunk.length));
    child.stdout!.on('end', () => setTimeout(() => this.fail({ why: 'mute' }), ENDS_WITHIN_MS).unref());
    child.stderr!.on('data', (chunk: Buffer) => {
      this.complaints = (this.complaints + chunk.toString('latin1')).slice(-KEPT_COMPLAINTS);
    });
    // Why nothing can be written any more, its end or its silence will tell.
    child.stdin!.on('error', () => undefined);
    this.gone = new Promise((gone) => {
      child.on('error', (error: NodeJS.ErrnoException) => {
        this.fail({ why: 'not started', code: error.code });
        if (child.pid === undefined) gone();
      });
      child.on('close', (exit, signal) => {
        this.register(child.pid ?? 0, 0);
        this.fail({ why: 'ended', exit: exit ?? undefined, signal: signal ?? undefined });
        gone();
      });
    });
  }

  /** Writes `text` and gives what comes until the line `marker`. */
  exchange(text: string, marker: string): Promise<BridgeAnswer> {
    return new Promise((answer) => {
      const timer = setTimeout(() => {
        this.fail({ why: 'hung' });
        this.kill();
      }, this.limit_ms);
      this.waiting = { marker, answer, timer };
      if (this.fault) this.tellFault();
      else this.child.stdin!.write(text);
    });
  }

  /** Closes its input; kills it if it hasn't ended soon. */
  async end(): Promise<void> {
    this.child.stdin!.end();
    const timer = setTimeout(() => this.kill(), ENDS_WITHIN_MS);
    await this.gone;
    clearTimeout(timer);
  }

  private kill(): void {
    if (this.child.pid !== undefined) killGroup(this.child.pid);
  }

  private hear(text: string, bytes: number): void {
    this.bytes += bytes;
    if (this.bytes > LONGEST_ANSWER) {
      if (this.fault === null) this.kill();
      this.fail({ why: 'flooded' });
      return;
    }
    const from = Math.max(0, this.said.length - (this.waiting?.marker.length ?? 0) - 2);
    this.said += text;
    this.look(from);
  }

  /** Whether the marker has come, as a line of its own. */
  private look(from: number): void {
    const { waiting } = this;
    if (!waiting) return;
    const line = `${waiting.marker}\n`;
    const at = this.said.startsWith(line) ? 0 : this.said.indexOf(`\n${line}`, from) + 1;
    if (at === 0 && !this.said.startsWith(line)) return;
    const lines = this.said.slice(0, at).split('\n');
    lines.pop();
    this.said = this.said.slice(at + line.length);
    this.bytes = this.said.length;
    this.answer({ told: 'lines', lines });
  }

  private answer(answer: BridgeAnswer): void {
    const { waiting } = this;
    this.waiting = null;
    if (!waiting) return;
    clearTimeout(waiting.timer);
    waiting.answer(answer);
  }

  /** The first fault is the cause of all that follow. */
  private fail(fault: Pick<ProcessFault, 'why' | 'code' | 'exit' | 'signal'>): void {
    this.fault ??= { ...fault, said: [], complained: [] };
    this.tellFault();
  }

  private tellFault(): void {
    if (this.fault === null) return;
    const fault = { ...this.fault, said: lastLines(this.said), complained: lastLines(this.complaints) };
    this.answer({ told: 'fault', fault });
  }

  /** In shared memory, so that others can end it when this thread is gone. */
  private register(was: number, is: number): void {
    const running = processesIn(this.shared);
    for (let i = 0; i < running.length; i++) if (Atomics.compareExchange(running, i, was, is) === was) return;
  }
}

function lastLines(text: string): string[] {
  return text
    .slice(-4096)
    .split('\n')
    .filter((line) => line !== '')
    .slice(-KEPT_LINES);
}
