/** What befell readings taken at the controller's own pace, and how long each of it lasted. */
import type { RangerHooks } from '../ranger-hooks.js';
import type { Befallen } from '../read-all-the-time.js';

/**
 * Collects from a run of the rangers. A mishap that the beam's level went along with lasts until another reading of that
 * beam; what a median or minimum samples swallowed is a single reading.
 *
 * @returns the hooks to run with, and the list that fills, in order of time
 */
export function befell(door: number): { readonly hooks: RangerHooks; readonly all: readonly Befallen[] } {
  const all: { -readonly [Key in keyof Befallen]: Befallen[Key] }[] = [];
  const lasting = new Map<number, (typeof all)[number]>();
  const hooks: RangerHooks = {
    edge() {},
    // Told before what befell it.
    reading(at, beam, time_us) {
      const last = lasting.get(beam);
      if (at !== door || !last) return;
      last.until_us = time_us;
      lasting.delete(beam);
    },
    befallen(at, beam, time_us, distance_um, lasts) {
      if (at !== door) return;
      const one = { beam, time_us, until_us: time_us, distance_um };
      all.push(one);
      if (lasts) lasting.set(beam, one);
    },
  };
  return { hooks, all };
}
