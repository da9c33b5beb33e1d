/**
 * Habits that come with the project, as a user would write them. All are assumptions: nobody has counted how often a
 * household goes from room to room; what comes out is printed as crossings per person and day.
 */
import type { z } from 'zod';
import { BUILT_IN_HABITS, type Habits, habitsSchema } from './schema.js';

type Written = z.input<typeof habitsSchema>;
type Row = Written['moves'][number];
type Go = Row['go'];

const go = (...rows: readonly (readonly [to: string, share: number, stay_min: number])[]): Go =>
  rows.map(([to, share, stay_min]) => ({ to, share, stay_min }));
/** Nobody settles down in a hall or a bathroom: what one does after it. */
const MORNING = go(
  ['bathroom', 0.3, 9],
  ['kitchen', 0.35, 12],
  ['bedroom', 0.15, 10],
  ['living', 0.1, 15],
  ['hall', 0.1, 2],
);
const DAY = go(
  ['living', 0.28, 65],
  ['kitchen', 0.27, 20],
  ['bathroom', 0.15, 6],
  ['study', 0.1, 75],
  ['bedroom', 0.08, 20],
  ['hall', 0.07, 2],
  ['outside', 0.05, 15],
);
const EVENING = go(['living', 0.42, 70], ['kitchen', 0.26, 14], ['bathroom', 0.2, 6], ['bedroom', 0.12, 20]);
const GROWN: Row[] = [
  { from: '05:00', go: MORNING },
  { from: '09:00', go: DAY },
  { from: '18:30', go: EVENING },
];
const PLAY = go(
  ['living', 0.3, 28],
  ['bedroom', 0.3, 32],
  ['kitchen', 0.17, 10],
  ['bathroom', 0.1, 5],
  ['hall', 0.06, 2],
  ['outside', 0.07, 35],
);
const BREAKFAST = { at: '07:10', lasts_min: 15 };
const DINNER = { at: '18:45', lasts_min: 35, in: 'dining' };
const LUNCH = { at: '12:30', lasts_min: 25 };

const WRITTEN: Readonly<Record<(typeof BUILT_IN_HABITS)[number], Written>> = {
  commuter: {
    sleep: { from: '22:50', to: '06:40' },
    away: [{ from: '08:10', to: '17:20', days: 'workdays' }],
    meals: [BREAKFAST, { ...LUNCH, days: 'weekend' }, DINNER],
    moves: GROWN,
  },
  pupil: {
    sleep: { from: '21:00', to: '06:50', wakes_per_night: 0.2 },
    away: [{ from: '07:45', to: '15:30', days: 'workdays' }],
    meals: [BREAKFAST, { ...LUNCH, days: 'weekend' }, DINNER],
    moves: [
      { from: '05:00', go: MORNING },
      { from: '09:00', go: PLAY },
    ],
  },
  'at-home': {
    sleep: { from: '22:40', to: '06:45' },
    meals: [BREAKFAST, LUNCH, DINNER],
    moves: GROWN,
  },
  retired: {
    sleep: { from: '22:00', to: '06:30', wakes_per_night: 1.5 },
    away: [{ from: '10:00', to: '11:15', days: ['tuesday', 'friday'] }],
    meals: [{ at: '07:40', lasts_min: 30 }, LUNCH, { ...DINNER, at: '18:00' }],
    moves: GROWN,
  },
  'small-child': {
    sleep: { from: '19:30', to: '06:30', wakes_per_night: 0.3 },
    meals: [BREAKFAST, LUNCH, { ...DINNER, at: '18:00' }],
    moves: [{ from: '05:00', go: PLAY }],
  },
  infant: {
    sleep: { from: '19:00', to: '06:15', wakes_per_night: 0 },
    moves: [{ from: '00:00', go: go(['living', 1, 60]) }],
  },
  lodger: {
    sleep: { from: '23:15', to: '07:45' },
    away: [{ from: '09:45', to: '17:45', days: 'every-day' }],
    meals: [{ at: '08:40', lasts_min: 35, in: 'dining' }],
    spread_min: 35,
    moves: [
      { from: '05:00', go: go(['bathroom', 0.45, 12], ['bedroom', 0.45, 20], ['outside', 0.1, 15]) },
      {
        from: '12:00',
        go: go(['bedroom', 0.45, 50], ['bathroom', 0.2, 8], ['living', 0.15, 40], ['outside', 0.2, 70]),
      },
    ],
  },
};

/** The built-in habits, checked and with their defaults. */
export const HABITS: Readonly<Record<string, Habits>> = Object.fromEntries(
  Object.entries(WRITTEN).map(([name, habits]) => [name, habitsSchema.parse(habits)]),
);

/** Habits by name: the user's own first. */
export function habitsNamed(name: string, own: Readonly<Record<string, Habits>>): Habits {
  const habits = Object.hasOwn(own, name) ? own[name] : HABITS[name];
  if (!habits) throw new RangeError(`no habits are named ${name}`);
  return habits;
}
