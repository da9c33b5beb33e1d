/**
 * One process at a time writes into a study's folder. The lock is a file that says which process; one that is gone, by
 * kill -9 or a power cut, holds nothing: on this computer its number and start time tell at once, on another one (a shared
 * disk) or after a restart the lock is given up when its time stamp stands still.
 */
import { randomUUID } from 'node:crypto';
import { linkSync, readFileSync, renameSync, rmSync, statSync, unlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { jsonOrNothing } from '../../engine/json.js';

const NAME = 'running.lock';
const TOUCH_MS = 2000;
/** A lock of another computer that was not touched for so long is left over. */
const STALE_MS = 15_000;

const holderSchema = z.object({ pid: z.number().int(), started: z.string(), boot: z.string() });
type Holder = z.infer<typeof holderSchema>;

export class Lock {
  private readonly timer: NodeJS.Timeout;

  private constructor(private readonly file: string) {
    this.timer = setInterval(() => touch(file), TOUCH_MS);
    this.timer.unref();
  }

  /** The lock of a folder; null when another process holds it. */
  static async take(folder: string): Promise<Lock | null> {
    const file = join(folder, NAME);
    const mine = `${file}-${randomUUID().slice(0, 8)}`;
    try {
      // On a full disk a file comes to be, and its text doesn't.
      writeFileSync(mine, JSON.stringify(holderNow()));
      for (let tries = 0; tries < 5; tries++) {
        try {
          // A link is made whole or not at all: nobody ever reads a half-written lock.
          link(mine, file);
          return new Lock(file);
        } catch (error) {
          if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
        }
        const before = stampOf(file);
        if (before === null) continue;
        if (await isHeld(file, before)) return null;
        giveUp(file, before);
      }
      return null;
    } finally {
      rmSync(mine, { force: true });
    }
  }

  release(): void {
    clearInterval(this.timer);
    rmSync(this.file, { force: true });
  }
}

/** Some file systems have no links: there a file that must not exist has to do. */
function link(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (error) {
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS'].includes((error as NodeJS.ErrnoException).code ?? ''))
      throw error;
    writeFileSync(to, readFileSync(from), { flag: 'wx' });
  }
}

/** Takes a left-over lock away, unless another process was quicker. */
function giveUp(file: string, seen: string): void {
  const aside = `${file}-${randomUUID().slice(0, 8)}`;
  try {
    renameSync(file, aside);
  } catch {
    return;
  }
  if (stampOf(aside) !== seen) {
    // It was a new one after all: back with it, as long as its place is free.
    try {
      link(aside, file);
    } catch {
      // A third process has it.
    }
  }
  unlinkSync(aside);
}

/** Whether the process that a lock names is there. */
async function isHeld(file: string, seen: string): Promise<boolean> {
  // Torn, or nobody's: then only its time stamp tells.
  const holder = holderSchema.safeParse(jsonOrNothing(seen.slice(seen.indexOf(' ') + 1))).data;
  const { boot } = holderNow();
  if (holder && boot !== '' && holder.boot === boot) return startOf(holder.pid) === holder.started;
  // Its clock and ours may differ; whether it moves does not depend on them.
  const first = statSync(file, { throwIfNoEntry: false })?.mtimeMs;
  for (let waited = 0; waited < STALE_MS; waited += 500) {
    await new Promise((done) => setTimeout(done, 500));
    const now = statSync(file, { throwIfNoEntry: false })?.mtimeMs;
    if (now === undefined) return false;
    if (now !== first) return true;
  }
  return false;
}

/** What tells this lock file from a later one of the same name: its inode, and whose it is. */
function stampOf(file: string): string | null {
  try {
    return `${statSync(file).ino} ${readFileSync(file, 'utf8')}`;
  } catch {
    return null;
  }
}

function touch(file: string): void {
  const now = new Date();
  try {
    utimesSync(file, now, now);
  } catch {
    // The folder is gone; writing into it will say so.
  }
}

function holderNow(): Holder {
  return { pid: process.pid, started: startOf(process.pid) ?? '', boot: bootId() };
}

/** When a process started, in the kernel's count; null: there is no such process. */
function startOf(pid: number): string | null {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
    // A zombie is gone but for its parent's asking.
    return fields[0] === 'Z' ? null : (fields[19] ?? null);
  } catch {
    return null;
  }
}

function bootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    return '';
  }
}
