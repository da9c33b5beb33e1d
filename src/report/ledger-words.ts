/** Ledgers as a reader sees them. */
import { named } from './words.js';

const LEDGER: Readonly<Record<string, string>> = {
  raw: 'raw sum',
  floor: 'floor at zero',
  cap: 'floor and cap',
  reset: 'daily reset',
  conserve: 'conserved persons',
  presence: 'corrected by presence',
  likelihood: 'likeliest counts',
};

/** A built-in ledger in words; else the name it has. */
export const ledgerWords = (ledger: string): string => LEDGER[ledger] ?? named(ledger);
