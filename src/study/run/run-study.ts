/** Runs the cells of a study until all are done, keeping each in the journal. */
import { withLesson } from '../cells/do-cell.js';
import type { Done } from '../cells/do-cell.js';
import type { Entry } from '../store/entry.js';
import type { Journal } from '../store/journal.js';
import type { Executor } from './executor.js';
import type { CellName, Standing } from './standing.js';

/** Shorter cells than this are synced to the disk together. */
const SYNC_MS = 50;

export interface RunHooks {
  /** After every cell. */
  progress?(standing: Standing): void;
}

/**
 * @param stop aborted: hand out nothing more and end
 * @returns whether all cells are done
 * @throws what the disk or the executor refused; what was synced before stays
 */
export async function runStudy(
  standing: Standing,
  journal: Journal,
  executor: Executor,
  stop: AbortSignal,
  hooks: RunHooks = {},
): Promise<boolean> {
  const { plan } = standing;
  let running = 0;
  let synced = performance.now();
  let timer: NodeJS.Timeout | undefined;
  return new Promise<boolean>((resolve, reject) => {
    let over = false;
    const end = (finish: () => void): void => {
      if (over) return;
      over = true;
      clearTimeout(timer);
      stop.removeEventListener('abort', halt);
      finish();
    };
    const sync = (): void => {
      clearTimeout(timer);
      timer = undefined;
      journal.sync();
      synced = performance.now();
    };
    const fail = (error: unknown): void => end(() => reject(error));
    const guarded = (step: () => void): void => {
      if (over) return;
      try {
        step();
      } catch (error) {
        fail(error);
      }
    };
    const halt = (): void => {
      guarded(() => {
        sync();
        end(() => resolve(standing.finished));
      });
    };
    const keep = ({ planned, replicate }: CellName, done: Done): void => {
      const entry: Entry = { d: planned.key, r: replicate, ...('cell' in done ? done.cell : done) };
      standing.take(entry, journal.put(entry));
      if (performance.now() - synced >= SYNC_MS) sync();
      else timer ??= setTimeout(() => guarded(sync), SYNC_MS);
      hooks.progress?.(standing);
    };
    const pump = (): void => {
      while (!over && running < executor.room) {
        const cell = standing.next();
        if (cell === null) break;
        running++;
        const design = plan.design(cell.planned);
        const { lesson } = standing.designs[cell.planned.number - 1]!;
        const task = {
          key: cell.planned.key,
          design: withLesson(design, lesson),
          replicate: cell.replicate,
        };
        executor.run(task).then((done) => {
          running--;
          guarded(() => {
            keep(cell, done);
            pump();
          });
        }, fail);
      }
      if (running > 0 || over) return;
      sync();
      end(() => resolve(standing.finished));
    };
    if (stop.aborted) {
      halt();
      return;
    }
    stop.addEventListener('abort', halt);
    guarded(pump);
  });
}
