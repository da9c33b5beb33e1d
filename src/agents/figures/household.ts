/** How a household moves about: judgement throughout; what comes of it is printed as crossings per person and day. */
import type { Figure } from '../../engine/figure.js';
import { NO_SOURCE } from './sources.js';

export const STAY_SPREAD: Figure<{ readonly sigma: number }> = {
  id: 'household.stay.spread',
  value: { sigma: 0.7 },
  unit: 'standard deviation of the logarithm',
  used_in: 'how stays in a room scatter about their mean, log-normal',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const HEEL_LAG: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'household.at_heel.lag',
  value: { low: 0.1, high: 0.9 },
  unit: 's',
  used_in: 'how much later than its human a pet at heel comes, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const SECOND_THOUGHT: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'household.second_thought',
  value: { low: 3, high: 40 },
  unit: 's',
  used_in: 'how long somebody who turned back, lingered or reached through waits before going after all, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const FROM_SEAT: Figure<{ readonly low: number; readonly high: number }> = {
  id: 'household.way_to_door',
  value: { low: 1, high: 5 },
  unit: 'm',
  used_in: 'way from where somebody was in a room to its door, drawn evenly',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const CARER_AGE: Figure<number> = {
  id: 'household.carer.youngest',
  value: 14,
  unit: 'years',
  used_in: 'who carries an infant: the last of this age or older who leaves its room while it is awake, or the house',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const ABREAST_SHARE: Figure<number> = {
  id: 'household.abreast',
  value: 0.5,
  unit: 'share',
  used_in: 'how often those who go together walk in twos, side by side, through a door that is wide enough',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const ROOM_WAY: Figure<number> = {
  id: 'household.room_way',
  value: 4,
  unit: 'm',
  used_in: 'way from one door of a room to the next where the plan gives no places',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const ROOM_PACE: Figure<number> = {
  id: 'household.room_pace',
  value: 1.1,
  unit: 'm/s',
  used_in: 'pace from door to door inside a room; in doorways everybody has their own',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const NIGHT_VISIT: Figure<number> = {
  id: 'household.night_visit',
  value: 5,
  unit: 'min',
  used_in: 'how long somebody who got up at night is in the bathroom',
  citation: NO_SOURCE,
  status: 'assumption',
};
