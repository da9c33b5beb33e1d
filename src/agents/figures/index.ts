/** All built-in figures about people, module by module in the order a reader meets them, by name within each. */
import type { Figure } from '../../engine/figure.js';
import * as breadths from './breadths.js';
import * as household from './household.js';
import * as leaf from './leaf.js';
import * as legs from './legs.js';
import * as loads from './loads.js';
import * as manner from './manner.js';
import * as mix from './mix.js';
import * as pace from './pace.js';
import * as pets from './pets.js';
import * as proportions from './proportions.js';
import * as stature from './stature.js';
import * as stillness from './stillness.js';

export function agentFigures(): Figure[] {
  return [stature, proportions, breadths, pace, legs, manner, loads, leaf, stillness, mix, pets, household].flatMap(
    (module) =>
      Object.values(module)
        .flatMap(collect)
        .sort((a, b) => (a.id < b.id ? -1 : 1)),
  );
}

/** Exports are figures or figures by sex and measure; whatever else a module exports is passed over. */
function collect(value: unknown): Figure[] {
  if (typeof value !== 'object' || value === null) return [];
  if ('citation' in value && 'id' in value) return [value as Figure];
  return Object.values(value).flatMap(collect);
}
