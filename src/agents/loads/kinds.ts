/** Kinds of loads, and what of them matters to who sets out: persons aboard, arms taken, breadth. */
import { LAUNDRY_BASKET, PRAM, ROLLATOR, RUCKSACK, SUITCASE, TRAY, TROLLEY, WHEELCHAIR } from '../figures/loads.js';
import type { Load } from '../schema.js';

interface LoadKind {
  /** Persons in it: they pass with whoever pushes. */
  readonly persons: 0 | 1;
  /** Arms that hold it and so don't swing. */
  readonly arms: 'none' | 'pull' | 'hold' | 'push';
  /** Height of the handle of what is pushed, metres. */
  readonly handle_m: number;
  /** Breadth across, metres. */
  readonly breadth_m: number;
}

export const LOAD_KINDS: Readonly<Record<Load, LoadKind>> = {
  rucksack: { persons: 0, arms: 'none', handle_m: 0, breadth_m: RUCKSACK.value.across },
  'laundry-basket': { persons: 0, arms: 'hold', handle_m: 0, breadth_m: LAUNDRY_BASKET.value.across },
  tray: { persons: 0, arms: 'hold', handle_m: 0, breadth_m: TRAY.value.across },
  suitcase: { persons: 0, arms: 'pull', handle_m: 0, breadth_m: SUITCASE.value.across },
  trolley: { persons: 0, arms: 'push', handle_m: TROLLEY.value.height, breadth_m: TROLLEY.value.across },
  pram: { persons: 1, arms: 'push', handle_m: PRAM.value.height, breadth_m: PRAM.value.across },
  rollator: { persons: 0, arms: 'push', handle_m: ROLLATOR.value.height, breadth_m: ROLLATOR.value.across },
  wheelchair: { persons: 1, arms: 'push', handle_m: WHEELCHAIR.value.back, breadth_m: WHEELCHAIR.value.across },
};

/** Whoever holds or pushes something with both arms goes square on: the shoulders can't be turned. */
export function turnsShoulders(load: Load | undefined): boolean {
  const arms = load === undefined ? 'none' : LOAD_KINDS[load].arms;
  return arms === 'none' || arms === 'pull';
}
