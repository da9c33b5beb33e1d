/** What a page carries for its scripts, packed in one block. */
import type { AskData } from '../ask/ask-data.js';
import type { LiveChart } from '../charts/live.js';

export interface LivePage {
  readonly charts: readonly LiveChart[];
  /** Null where nothing can be asked: a study, a replayed log, several runs. */
  readonly ask: AskData | null;
}
