/** Who does the cells: threads of this machine, or other machines behind a queue. */
import type { Done, Task } from '../cells/do-cell.js';

export interface Executor {
  /** Cells it takes at once. */
  readonly room: number;
  /** Does a cell. What it rejects with is no fault of the design: the study pauses. */
  run(task: Task): Promise<Done>;
  /** Ends what is under way and gives back what it holds. */
  close(): Promise<void>;
}
