/** What a user writes about a room's presence sensor. */
import { z } from 'zod';
import { quantity } from '../../engine/quantity.js';

export const presenceSchema = z.strictObject({
  miss_share: quantity(
    0,
    1,
    'share',
    'Chance that it does not see somebody when it could: a still sleeper, a dead corner.',
  ),
  hold_min: quantity(
    0.01,
    1440,
    'min',
    'How long it says occupied after it last saw somebody, and how often it looks.',
  ),
});
export type PresenceSettings = z.infer<typeof presenceSchema>;
