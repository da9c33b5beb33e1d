/** What a user writes about openings and the lines beams take through them. */
import { z } from 'zod';
import { quantity, wholeNumber } from '../engine/quantity.js';

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

/** What carries a sensor. */
export const mountSchema = z.enum(['left-jamb', 'right-jamb', 'lintel']);
export type Mount = z.infer<typeof mountSchema>;

/** Where one beam runs: from a light barrier's emitter to its receiver in the other jamb, or along a ranger's axis. */
export const beamLineSchema = {
  mount: mountSchema
    .meta({
      description:
        'What carries the emitter or the ranger: the left or right jamb, as seen walking forward, or (rangers only) the lintel.',
    })
    .default('left-jamb'),
  at_m: quantity(-1, 1, 'm', 'Place of the emitter or ranger along the walk; 0 is the door plane, + is forward.'),
  height_m: quantity(
    0.01,
    5,
    'm',
    "Height of the emitter or ranger above the floor (default under the lintel: the door's height_m).",
  ),
  across_m: quantity(
    0,
    10,
    'm',
    'Place of a ranger under the lintel, from the left jamb (default: the middle of the opening).',
  ).optional(),
  far_at_m: quantity(-1, 1, 'm', "Place of a light barrier's receiver along the walk (default: as `at_m`).").optional(),
  far_height_m: quantity(
    0.01,
    5,
    'm',
    "Height of a light barrier's receiver above the floor (default: as `height_m`, a level beam).",
  ).optional(),
  tilt_deg: quantity(
    -80,
    80,
    'deg',
    'Tilt of a ranger: in a jamb up (+) or down (−) from level; under the lintel toward the right (+) or left (−) jamb from straight down (default 0).',
  ).optional(),
  turn_deg: quantity(
    -55,
    55,
    'deg',
    'Turn of a ranger out of the door plane, forward (+) or backward (−) (default 0).',
  ).optional(),
};

/** Where a room is on the plan. */
export const placeSchema = {
  at_m: z
    .strictObject({
      x: quantity(-1000, 1000, 'm', "Left end of the room on the house's plan."),
      y: quantity(-1000, 1000, 'm', "Lower end of the room on the house's plan."),
    })
    .optional()
    .meta({ description: "Lower left corner of the room on the house's plan, with size_m." }),
  size_m: z
    .strictObject({
      x: quantity(0.3, 500, 'm', 'Width on the plan, to the right.'),
      y: quantity(0.3, 500, 'm', 'Depth on the plan, upwards.'),
    })
    .optional()
    .meta({ description: 'Size of the room on the plan: rooms are rectangles.' }),
  storey: wholeNumber(-5, 50, 'storeys', 'Which storey the room is on; 0 is the ground floor.').default(0),
};

/** A leaf that hangs in the frame. */
export const leafSchema = z.strictObject({
  hinge: z
    .enum(['left', 'right'])
    .meta({ description: 'The jamb it hangs from, as seen walking forward.' })
    .default('left'),
  opens: z
    .enum(['forward', 'backward'])
    .meta({ description: 'The side it swings to; shut, it lies flush with that side of the frame.' })
    .default('forward'),
  opens_deg: quantity(60, 180, 'deg', 'How far it opens: 90 stands square to the wall.').default(100),
  thickness_m: quantity(0.01, 0.15, 'm', 'Thickness of the leaf.').default(0.04),
  swing_s: quantity(0.3, 20, 's', 'How long one swing takes.').default(1.2),
  shut_share: quantity(
    0,
    1,
    'share',
    'Share of those who go through that shut it behind them; 0 leaves it open, 1 is a closer.',
  ).default(0.3),
  draught_per_hour: quantity(
    0,
    3600,
    '1/h',
    'How often an hour a draught stirs the leaf, while it stands open.',
  ).default(0),
});
export type Leaf = z.infer<typeof leafSchema>;

/** A curtain beside the opening. */
export const curtainSchema = z.strictObject({
  at_m: quantity(-3, 3, 'm', 'Where it hangs along the walk; 0 is the door plane, + is forward.'),
  swing_m: quantity(-2, 2, 'm', 'How far along the walk a gust carries its hem; + is forward.'),
  per_hour: quantity(0, 3600, '1/h', 'Gusts per hour, at random times.').default(2),
  gust_s: quantity(0.2, 30, 's', 'How long a gust carries it, out and back.').default(1.5),
});
export type Curtain = z.infer<typeof curtainSchema>;
