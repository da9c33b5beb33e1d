/** What can be chosen as a ledger, for the command that lists keys and for the docs: what it does, what defeats it, when it is wise. */
import { type LedgerUse, ledgerSchema } from './schema.js';

export interface LedgerInfo {
  readonly use: LedgerUse;
  readonly description: string;
  readonly defeated_by: string;
  readonly wise: string;
}

const ABOUT: Readonly<Record<LedgerUse, readonly [defeated_by: string, wise: string]>> = {
  raw: ['Every error, for good.', 'To judge logics by, for it hides nothing.'],
  floor: [
    'Persons too many, who stay for ever; an empty room drifts upwards though errors are even.',
    'Where a room is often empty and a light that stays on does little harm.',
  ],
  cap: [
    'Errors between the two ends, and visitors beyond the cap.',
    'Where a room is often empty or often full, and nobody but the household comes.',
  ],
  reset: [
    'Whoever is there at the time of the reset: with `to: zero` a sleeping household is counted out.',
    'With `to: zero` in shops, schools and offices that are empty at that time; at home only with `to: start`, if the night begins as the clock did.',
  ],
  conserve: [
    'Persons too many, which make no room negative; and a wrong guess where somebody came from.',
    'In homes with a door to every room, above all with `household` known.',
  ],
  presence: [
    'A still sleeper whom the sensor misses is counted out; whoever has left is held until the sensor lets go, and how many there are it never knows.',
    'Where it matters only whether anybody is there, and people move.',
  ],
  likelihood: [
    'Errors that come in bunches, rates that are not those of the days counted, and more doubt than `keep` can hold.',
    'In homes whose doors have been watched for a while, above all with `household` known.',
  ],
};

export function ledgerInfo(): readonly LedgerInfo[] {
  return ledgerSchema.options.map(({ shape }) => {
    const use = [...shape.use.values][0]!;
    const [defeated_by, wise] = ABOUT[use];
    return { use, description: shape.use.meta()?.description ?? '', defeated_by, wise };
  });
}
