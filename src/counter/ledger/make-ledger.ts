/** From what a user chose to a ledger that can be driven. */
import { clockHours } from '../../engine/time.js';
import { CapLedger } from './cap.js';
import { ConserveLedger } from './conserve.js';
import { FloorLedger } from './floor.js';
import type { HouseLedger, LedgerHouse } from './house-ledger.js';
import { LikelihoodLedger } from './likelihood.js';
import { PresenceLedger } from './presence.js';
import { RawLedger } from './raw.js';
import { ResetLedger } from './reset.js';
import type { LedgerChoice } from './schema.js';

/** @throws {RangeError} when a likelihood ledger is chosen and a door has no rates */
export function makeLedger(choice: LedgerChoice, house: LedgerHouse): HouseLedger {
  switch (choice.use) {
    case 'raw':
      return new RawLedger(house);
    case 'floor':
      return new FloorLedger(house);
    case 'cap':
      return new CapLedger(house, choice.at_most);
    case 'reset':
      return new ResetLedger(house, clockHours(choice.at), choice.to);
    case 'conserve':
      return new ConserveLedger(house, choice.household ?? null);
    case 'presence':
      return new PresenceLedger(house);
    case 'likelihood':
      return new LikelihoodLedger(house, choice.household ?? null, choice.keep);
  }
}
