/** What every kind of ranger has: stray and missing readings, and its switching. */
import { quantity } from '../engine/quantity.js';
import { powerSchema } from './power.js';
import { switchingSchema } from './switching/schema.js';

export const rangerCommon = {
  stray_share: quantity(
    0,
    0.5,
    'share',
    'Share of readings that are strays: anything within the range, whoever is there.',
  ).default(0),
  dropout_share: quantity(0, 0.5, 'share', 'Share of readings that come back without echo, whoever is there.').default(
    0,
  ),
  switching: switchingSchema
    .meta({ description: 'How readings become broken and clear.' })
    .default(() => switchingSchema.parse({})),
  power_mw: powerSchema('The power it takes while it measures by turns').optional(),
};
