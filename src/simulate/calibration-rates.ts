/** Error rates in a design, by door and logic. */
import type { DoorRates } from '../counter/ledger/house-ledger.js';
import type { Design } from '../scenario/schema.js';

/** Null where the design holds none. */
export function ratesOf(design: Design, door: string, logic: string): DoorRates | null {
  return design.calibration?.find((one) => one.door === door && one.logic === logic) ?? null;
}
