/**
 * Ctrl-C, `kill` and a terminal that is closed: what a command was writing is cleaned up, then the process ends with
 * 128 and the signal's number, as shells have it.
 */

const EXIT_CODES = { SIGINT: 130, SIGTERM: 143, SIGHUP: 129 } as const;

type CleanUp = () => void | Promise<void>;

const cleanUps = new Set<CleanUp>();

/** Runs `cleanUp` if a signal ends the process; gives back how to take it off again. */
export function onSignal(cleanUp: CleanUp): () => void {
  cleanUps.add(cleanUp);
  return () => void cleanUps.delete(cleanUp);
}

/** Listens from now on. A second signal while cleaning up changes nothing: cleaning up takes milliseconds. */
export function listenForSignals(): void {
  let ending = false;
  for (const [signal, code] of Object.entries(EXIT_CODES)) {
    process.on(signal, () => {
      if (ending) return;
      ending = true;
      // The latest thing begun is the first undone.
      void [...cleanUps]
        .reverse()
        .reduce<Promise<void>>(async (before, cleanUp) => {
          await before;
          await cleanUp();
        }, Promise.resolve())
        .catch(() => undefined)
        .then(() => process.exit(code));
    });
  }
}
