/** Households by name, as a user would write them at length. Invented. */
import type { z } from 'zod';
import { type Household, type ShortForm, householdSchema } from './schema.js';

type Written = z.input<typeof householdSchema>;

const FAMILY: Written = {
  people: [
    { name: 'mother', age_y: 39, sex: 'woman', habits: 'commuter', bedroom: 'bedroom' },
    { name: 'father', age_y: 42, sex: 'man', habits: 'at-home', bedroom: 'bedroom' },
    { name: 'daughter', age_y: 11, sex: 'woman', habits: 'pupil' },
    { name: 'son', age_y: 6, sex: 'man', habits: 'pupil' },
  ],
  visitors: [
    {
      name: 'friend',
      per_day: 0.4,
      from: '15:00',
      to: '20:00',
      group_of: [1, 2],
      rooms: [
        { room: 'living', share: 0.8 },
        { room: 'kitchen', share: 0.2 },
      ],
      moves_per_hour: 0.7,
      stay_min: 90,
    },
  ],
};

const WRITTEN: Readonly<Record<ShortForm, Written>> = {
  single: {
    people: [{ name: 'resident', age_y: 34, sex: 'woman', habits: 'commuter' }],
    visitors: [
      {
        name: 'friend',
        per_day: 0.3,
        from: '18:00',
        to: '21:00',
        rooms: [{ room: 'living', share: 1 }],
        stay_min: 120,
      },
    ],
  },
  couple: {
    people: [
      { name: 'one', age_y: 37, sex: 'woman', habits: 'commuter', bedroom: 'bedroom' },
      { name: 'other', age_y: 40, sex: 'man', habits: 'at-home', bedroom: 'bedroom' },
    ],
  },
  'family-of-four': FAMILY,
  grandparents: {
    people: [
      { name: 'grandmother', age_y: 74, sex: 'woman', habits: 'retired', bedroom: 'bedroom' },
      { name: 'grandfather', age_y: 78, sex: 'man', habits: 'retired', bedroom: 'bedroom' },
    ],
  },
};

/** A household spelt out. */
export function householdOf(written: ShortForm | Household): Household {
  return typeof written === 'string' ? householdSchema.parse(WRITTEN[written]) : written;
}
