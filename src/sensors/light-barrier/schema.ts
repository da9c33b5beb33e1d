/** What a user writes about a light barrier. */
import { z } from 'zod';
import { quantity } from '../../engine/quantity.js';
import { powerSchema } from '../power.js';

export const lightBarrierSchema = z.strictObject({
  kind: z
    .literal('light-barrier')
    .meta({ description: 'A light barrier: broken while enough of its beam is covered.' }),
  layout: z
    .enum(['through-beam', 'reflector'])
    .meta({ description: 'Receiver in the far jamb, or beside the emitter with a reflector in the far jamb.' })
    .default('through-beam'),
  beam_diameter_m: quantity(0.001, 0.1, 'm', 'Effective diameter of the beam.').default(0.006),
  covered_share: quantity(0.01, 0.99, 'share', "Share of the beam's area that must be covered to break it.").default(
    0.5,
  ),
  response_ms: quantity(
    0,
    1000,
    'ms',
    'Response time: a change shorter than this is not reported, a longer one this much later.',
  ).default(1),
  spurious_per_hour: quantity(0, 10000, '1/h', 'Breaks per hour with nobody there.').default(0),
  spurious_ms: quantity(0.1, 10000, 'ms', 'Length of a spurious break.').default(20),
  missed_share: quantity(0, 1, 'share', 'Share of true breaks that go unreported.').default(0),
  shiny_share: quantity(
    0,
    1,
    'share',
    'Reflector layout: share of bodies whose clothing sends enough light back to hide them.',
  ).default(0),
  half_angle_deg: quantity(
    0,
    30,
    'deg',
    "Half-angle within which the emitter shines and the receiver sees; decides whether one beam's emitter reaches the other's receiver.",
  ).default(4),
  separation: z
    .enum(['none', 'alternate', 'carriers'])
    .meta({
      description:
        'How two barriers in one frame are kept apart: not at all, alternating in time, or by different carriers.',
    })
    .default('alternate'),
  power_mw: powerSchema('The power it takes, both ends together').optional(),
});
export type LightBarrier = z.infer<typeof lightBarrierSchema>;
