/** What people carry, push and sit in, and what rolls by itself: plain sizes of plain things, nobody's make. */
import type { Figure } from '../../engine/figure.js';
import { NO_SOURCE } from './sources.js';

const COMMON = 'common practice, no source: the size such a thing usually has';

type Box = { readonly across: number; readonly along: number; readonly height: number };

export const RUCKSACK: Figure<Box> = {
  id: 'load.rucksack',
  value: { across: 0.3, along: 0.2, height: 0.45 },
  unit: 'm',
  used_in: 'a rucksack on the back, its top at shoulder height',
  citation: COMMON,
  status: 'common practice',
};

export const LAUNDRY_BASKET: Figure<Box> = {
  id: 'load.laundry_basket',
  value: { across: 0.6, along: 0.4, height: 0.25 },
  unit: 'm',
  used_in: 'a basket held with both arms before the belly',
  citation: COMMON,
  status: 'common practice',
};

/** What stands on it is left out. */
export const TRAY: Figure<Box> = {
  id: 'load.tray',
  value: { across: 0.45, along: 0.32, height: 0.04 },
  unit: 'm',
  used_in: 'an empty tray held with both arms at the height of the elbows',
  citation: COMMON,
  status: 'common practice',
};

export const SUITCASE: Figure<Box & { readonly behind: number; readonly lean: number; readonly wheel: number }> = {
  id: 'load.suitcase',
  value: { across: 0.38, along: 0.24, height: 0.6, behind: 0.85, lean: 0.35, wheel: 0.04 },
  unit: 'm; behind: from the trunk axis to the wheels; lean: forward over the height of the case',
  used_in: 'a case on wheels that leans forward and is pulled with the right arm',
  citation: COMMON,
  status: 'common practice',
};

type Cart = Box & { readonly wheel: number; readonly tube: number };

export const TROLLEY: Figure<Cart & { readonly shelf: number; readonly low_shelf: number }> = {
  id: 'load.trolley',
  value: { across: 0.45, along: 0.65, height: 0.85, wheel: 0.05, tube: 0.015, shelf: 0.06, low_shelf: 0.3 },
  unit: 'm',
  used_in: 'a serving trolley with two shelves, pushed with both arms',
  citation: COMMON,
  status: 'common practice',
};

export const PRAM: Figure<
  Cart & { readonly bed: number; readonly bed_across: number; readonly bed_low: number; readonly bed_high: number }
> = {
  id: 'load.pram',
  value: {
    across: 0.58,
    along: 0.95,
    height: 1.02,
    wheel: 0.12,
    tube: 0.015,
    bed: 0.75,
    bed_across: 0.4,
    bed_low: 0.5,
    bed_high: 0.8,
  },
  unit: 'm',
  used_in: 'a pram with an infant in it, pushed with both arms; its hood reaches up to the height',
  citation: COMMON,
  status: 'common practice',
};

export const ROLLATOR: Figure<Cart & { readonly ahead: number }> = {
  id: 'load.rollator',
  value: { across: 0.6, along: 0.6, height: 0.9, ahead: 0.12, wheel: 0.09, tube: 0.015 },
  unit: 'm; ahead: from the trunk axis to the rear wheels, which stand beside the feet',
  used_in: 'a walking frame on four wheels, pushed with both arms',
  citation: COMMON,
  status: 'common practice',
};

export const WHEELCHAIR: Figure<{
  readonly across: number;
  readonly seat: number;
  readonly back: number;
  readonly wheel: number;
  readonly castor: number;
  readonly tube: number;
  readonly handle_behind: number;
  readonly axle_behind: number;
  readonly footrest: number;
}> = {
  id: 'load.wheelchair',
  value: {
    across: 0.65,
    seat: 0.5,
    back: 0.92,
    wheel: 0.3,
    castor: 0.09,
    tube: 0.015,
    handle_behind: 0.25,
    axle_behind: 0.05,
    footrest: 0.12,
  },
  unit: 'm; behind: from the hips of whoever sits in it; heights of seat, back and footrest above the floor',
  used_in: 'a wheelchair, pushed or driven by who sits in it',
  citation: `${NO_SOURCE}; within the 1.20 m of length, 0.70 m of width and 1.09 m of height that ISO 7193:1985 gives as the largest (from memory)`,
  status: 'assumption',
};

export const SITTING_HEIGHT: Figure<number> = {
  id: 'people.sitting_height',
  value: 0.52,
  unit: 'share of stature',
  used_in: 'how far the crown is above the seat of somebody in a wheelchair',
  citation: 'sitting height over stature of adults, source not at hand',
  status: 'from memory',
};

export const PASSENGER: Figure<{ readonly stature: number; readonly shoulders: number; readonly hips: number }> = {
  id: 'load.wheelchair.passenger',
  value: { stature: 1.66, shoulders: 0.46, hips: 0.36 },
  unit: 'm; breadth across shoulders and hips',
  used_in: 'who sits in a wheelchair that is pushed: always the same middling person, otherwise of the pusher’s girths',
  citation: NO_SOURCE,
  status: 'assumption',
};

/** Where arms that hold something end, and how they hang: shares of the forearm forward and down; of the shoulder’s distance across. */
type HeldArm = Figure<{ readonly forward: number; readonly down: number; readonly across: number }>;
export const HOLDING: HeldArm = heldArm('holding', 1, 0, 0.9, 'arms that hold a load');
export const PUSHING: Figure<{ readonly steepest: number; readonly across: number }> = {
  id: 'load.arms.pushing',
  value: { steepest: 0.8, across: 0.9 },
  unit: 'share of the forearm; share of the shoulder’s distance from the middle',
  used_in:
    'arms that push a load: the upper arm hangs, the forearm reaches forward to the height of the handle, at most so steeply',
  citation: NO_SOURCE,
  status: 'assumption',
};
export const PULLING: HeldArm = heldArm('pulling', -0.35, 0.94, 1, 'the arm that pulls a load');

function heldArm(id: string, forward: number, down: number, across: number, whose: string): HeldArm {
  return {
    id: `load.arms.${id}`,
    value: { forward, down, across },
    unit: 'shares of the forearm; share of the shoulder’s distance from the middle',
    used_in: `${whose}: the upper arm hangs, the forearm doesn’t swing`,
    citation: NO_SOURCE,
    status: 'assumption',
  };
}
