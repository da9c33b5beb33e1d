/** What the page asks its worker, and what comes back: plain data. */
import type { AskData } from '../report/ask/ask-data.js';
import type { StartedLogic } from '../scenario/schema.js';
import type { Estimate } from '../score/metrics-schema.js';

export interface Question {
  /** Comes back with the answers. */
  readonly number: number;
  readonly scenario: string;
  readonly tables: Readonly<Record<string, string>>;
  /** As of `--set`. */
  readonly sets: readonly string[];
  readonly logic: StartedLogic;
  /** Which door, from 0. */
  readonly door: number;
  /** The first so many. */
  readonly replicates: number;
  /** `[replicate][door]`: what the run found by the headline's logic; null where the report doesn't hold it. */
  readonly reported: AskData['reported'];
}

export interface Compared {
  /** Wrong per 100 crossings, as changed. */
  readonly found: Estimate;
  /** The same of the report, over the same replicates. */
  readonly reported?: Estimate;
  /** Found less reported, crowd by crowd. */
  readonly change?: Estimate;
}

export type Answer =
  | { readonly kind: 'refused'; readonly number: number; readonly reasons: readonly string[] }
  | {
      readonly kind: 'found';
      readonly number: number;
      readonly replicates: number;
      readonly door: Compared;
      readonly house: Compared;
    };
