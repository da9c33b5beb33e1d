/** What the simulating thread and the bridge's thread say to each other. One question at a time. */

export type BridgeQuestion =
  | { readonly ask: 'start'; readonly id: number; readonly words: readonly string[] }
  /** The answer is what the program says before the line `marker`. */
  | { readonly ask: 'exchange'; readonly id: number; readonly text: string; readonly marker: string }
  /** Its input is closed, and soon after it is ended. Nobody waits for that. */
  | { readonly ask: 'end'; readonly id: number }
  /** All are ended. */
  | { readonly ask: 'close' };

export type BridgeAnswer =
  | { readonly told: 'lines'; readonly lines: readonly string[] }
  | { readonly told: 'fault'; readonly fault: ProcessFault }
  | { readonly told: 'closed' };

/** Why there is no answer. */
export interface ProcessFault {
  readonly why: 'not started' | 'ended' | 'mute' | 'hung' | 'flooded';
  /** The system's code for why it was not started. */
  readonly code?: string | undefined;
  readonly exit?: number | undefined;
  readonly signal?: string | undefined;
  /** The last it said in this exchange, and the last on its standard error. */
  readonly said: readonly string[];
  readonly complained: readonly string[];
}

export interface BridgeStart {
  readonly port: import('node:worker_threads').MessagePort;
  /** Goes up by one with each answer. */
  readonly signal: SharedArrayBuffer;
  readonly shared: SharedArrayBuffer;
  readonly limit_s: number;
}
