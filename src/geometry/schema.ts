/** What a user writes about openings and the lines beams take through them. */
import { z } from 'zod';
import { quantity } from '../engine/quantity.js';

/** The hole in the wall. */
export const openingSchema = {
  width_m: quantity(0.4, 10, 'm', 'Clear width of the opening, left jamb to right jamb.'),
  height_m: quantity(1.5, 5, 'm', 'Clear height of the opening, floor to lintel.').default(2.0),
  jamb_depth_m: quantity(
    0.02,
    1,
    'm',
    'Depth of the frame along the walk: beams further apart than this need a bracket.',
  ).default(0.12),
  zone_m: quantity(
    0.3,
    5,
    'm',
    'Half-depth of the doorway zone: a visit lasts while the trunk is nearer to the door plane than this.',
  ).default(1.0),
};

/** Where one beam runs: from an emitter in one jamb to a receiver in the other, straight. */
export const beamLineSchema = {
  at_m: quantity(-1, 1, 'm', 'Place of the emitter along the walk; 0 is the door plane, + is forward.'),
  height_m: quantity(0.01, 5, 'm', 'Height of the emitter above the floor.'),
  far_at_m: quantity(-1, 1, 'm', 'Place of the receiver along the walk (default: as `at_m`).').optional(),
  far_height_m: quantity(
    0.01,
    5,
    'm',
    'Height of the receiver above the floor (default: as `height_m`, a level beam).',
  ).optional(),
  emitter_jamb: z
    .enum(['left', 'right'])
    .meta({ description: 'Jamb that carries the emitter, as seen walking forward.' })
    .default('left'),
};
