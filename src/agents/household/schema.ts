/** What a user writes about who lives in the house, who comes to it, and what moves about in it. */
import { z } from 'zod';
import { clockTime, name, quantity, wholeNumber } from '../../engine/quantity.js';
import { LOADS } from '../schema.js';

export const WEEKDAYS = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

export const weekdaySchema = z.enum(WEEKDAYS);
const days = z
  .union([z.enum(['every-day', 'workdays', 'weekend']), z.array(weekdaySchema).min(1).max(7)])
  .meta({ description: 'On which days: every-day, workdays (Monday to Friday), weekend, or a list of weekdays.' })
  .default('every-day');
export type Days = z.infer<typeof days>;

const place = (what: string) => name(`${what}: a room's name, or a use that rooms have, such as kitchen.`);
const spread = quantity(0, 300, 'min', 'Standard deviation of the clock times of a day, drawn anew each day.');

/** One place somebody may go to next. */
const destination = z.strictObject({
  to: name("A room's name, a use that rooms have, such as bathroom, or outside."),
  share: quantity(0, 1, 'share', 'How often of all free moves it is chosen; shares of a row add up to 1.'),
  stay_min: quantity(0.1, 1440, 'min', 'Mean stay there, log-normal; cut short by what the day has next.'),
});
const movesRow = z.strictObject({
  from: clockTime('Clock time from which this row holds, HH:MM, until the next row.'),
  after: name(
    'Only for those who are in this room, or in one of this use; rows without it are for all others.',
  ).optional(),
  go: z.array(destination).min(1).max(50).meta({ description: 'Where to next, with shares that add up to 1.' }),
});

/** How somebody spends a day: fixed times first, free moves between them. */
export const habitsSchema = z.strictObject({
  sleep: z
    .strictObject({
      from: clockTime('When going to bed, HH:MM.'),
      to: clockTime('When getting up, HH:MM.'),
      wakes_per_night: quantity(0, 10, 'per night', 'How often somebody gets up to the bathroom, Poisson.').default(
        0.4,
      ),
    })
    .optional()
    .meta({ description: 'The night, spent in the bedroom.' }),
  away: z
    .array(
      z.strictObject({
        from: clockTime('When leaving the house, HH:MM.'),
        to: clockTime('When coming home, HH:MM.'),
        days,
      }),
    )
    .max(20)
    .meta({ description: 'Work, school and whatever else is outside at fixed times.' })
    .default(() => []),
  meals: z
    .array(
      z.strictObject({
        at: clockTime('When it begins, HH:MM.'),
        lasts_min: quantity(1, 300, 'min', 'How long it lasts.'),
        in: place('Where').default('kitchen'),
        days,
      }),
    )
    .max(20)
    .meta({ description: 'Meals at home, for whoever is there.' })
    .default(() => []),
  spread_min: spread.default(12),
  moves: z.array(movesRow).min(1).max(96).meta({ description: 'Free time: where to next, by time of day.' }),
});
export type Habits = z.infer<typeof habitsSchema>;

/** Habits that come with the project. */
export const BUILT_IN_HABITS = ['commuter', 'pupil', 'at-home', 'retired', 'small-child', 'infant', 'lodger'] as const;

const personSchema = z.strictObject({
  name: name('Who it is, in results.'),
  age_y: quantity(0, 100, 'y', 'Age; below 2 they are carried.'),
  sex: z.enum(['woman', 'man']).meta({ description: 'Sex, for stature, proportions and pace; girl and boy below 18.' }),
  stature_m: quantity(0.7, 2.3, 'm', 'Stature; left out, it is drawn for age and sex.').optional(),
  speed_mps: quantity(0.1, 3, 'm/s', 'Walking speed; left out, it is drawn for age and sex.').optional(),
  load: z.enum(LOADS).optional().meta({ description: 'What goes with them always: a rollator, a wheelchair.' }),
  habits: name(`How the day is spent: ${BUILT_IN_HABITS.join(', ')}, or one named under \`habits\`.`),
  bedroom: place('Where they sleep').optional(),
  starts_in: name("Room at the clock's start, or outside; left out, where the habits put them.").optional(),
});

const petSchema = z.strictObject({
  name: name('Which animal it is, in results.'),
  animal: name('A walker: dog-small, dog-medium, dog-large, dog-giant, cat, or one named under `walkers`.'),
  sleeps_in: place('Where it sleeps'),
  rooms: z
    .array(name("A room's name or use."))
    .min(1)
    .max(50)
    .optional()
    .meta({ description: 'Where it may go by itself; left out, every room.' }),
  moves_per_hour: quantity(0, 60, '1/h', 'How often it goes to another room by itself, by day.').default(2),
  awake: z
    .strictObject({ from: clockTime('From, HH:MM.'), to: clockTime('To, HH:MM.') })
    .meta({ description: 'When it is up and about.' })
    .default({ from: '06:30', to: '22:30' }),
  follows_share: quantity(0, 1, 'share', 'How often it goes along at heel when somebody leaves its room.').default(
    0.25,
  ),
  sits_share: quantity(0, 1, 'share', 'How often it sits down in the doorway on its way.').default(0.08),
  by_itself_outside: z.boolean().meta({ description: 'Goes in and out of the house by itself.' }).default(false),
});

const guestShare = z.strictObject({
  who: name('A walker.'),
  share: quantity(0, 1, 'share', 'Share of guests; shares add up to 1.'),
});
const guests = {
  name: name('Who they are, in results.'),
  who: z
    .array(guestShare)
    .min(1)
    .max(20)
    .meta({ description: 'What sort of walkers they are, with shares that add up to 1.' })
    .default(() => [{ who: 'adult', share: 1 }]),
  group_of: z
    .tuple([wholeNumber(1, 50, 'persons', 'Smallest.'), wholeNumber(1, 50, 'persons', 'Largest.')])
    .meta({ description: 'They come and go in groups of so many bodies, drawn evenly between.', unit: 'bodies' })
    .default([1, 1]),
  rooms: z
    .array(
      z.strictObject({ room: name("A room's name or use."), share: quantity(0, 1, 'share', 'Shares add up to 1.') }),
    )
    .min(1)
    .max(50)
    .meta({ description: 'Where they stay, and move to and fro between, with shares that add up to 1.' }),
  moves_per_hour: quantity(0, 120, '1/h', 'How often each goes to another of these rooms.').default(0),
  load: z.enum(LOADS).optional().meta({ description: 'What they bring along and take away again.' }),
};
export const STAY_LAWS = ['exponential', 'log-normal', 'even', 'fixed'] as const;
const visitorsSchema = z.strictObject({
  ...guests,
  per_day: quantity(0, 5000, '1/day', 'Groups a day that comes, Poisson, within the hours.'),
  from: clockTime('Earliest arrival, HH:MM.').default('09:00'),
  to: clockTime('Latest arrival, HH:MM; 00:00 to 00:00 is all day.').default('21:00'),
  days,
  stay_min: quantity(0.1, 20_000, 'min', 'Mean stay.'),
  stay_law: z
    .enum(STAY_LAWS)
    .meta({ description: 'Law of the stay about its mean; even: between 0 and twice the mean.' })
    .default('log-normal'),
});
const partySchema = z.strictObject({
  ...guests,
  day: weekdaySchema.meta({ description: 'The day of the week.' }),
  from: clockTime('When guests begin to come, HH:MM.'),
  to: clockTime('When they begin to go, HH:MM.'),
  guests: wholeNumber(1, 500, 'guests', 'How many come.'),
  come_within_min: quantity(0, 600, 'min', 'They come, and later go, within so many minutes, evenly.').default(30),
});

const outingSchema = z.strictObject({
  name: name('What it is.'),
  who: z.array(name('Somebody of the household.')).min(1).max(20).meta({ description: 'Who may go.' }),
  choose: z
    .enum(['all', 'one'])
    .meta({ description: 'All who are at home and free go together, or the first of them.' })
    .default('all'),
  takes: z
    .array(name('A pet.'))
    .max(20)
    .meta({ description: 'Pets that go along at heel.' })
    .default(() => []),
  fetches: z
    .array(name('Somebody of the household.'))
    .max(20)
    .meta({ description: 'Who comes home with them, if outside by then.' })
    .default(() => []),
  at: clockTime('When they set out, HH:MM.'),
  lasts_min: quantity(1, 1000, 'min', 'How long they are away.'),
  spread_min: spread.default(10),
  days,
});

const errandSchema = z.strictObject({
  name: name('What it is.'),
  load: z.enum(LOADS).meta({ description: 'What is carried or rolled.' }),
  from: place('Where it is taken from'),
  to: name("Where it is taken to: a room's name, a use, or outside."),
  per_week: quantity(0, 1000, 'per week', 'How often, Poisson, within the hours.'),
  earliest: clockTime('Not before, HH:MM.').default('08:00'),
  latest: clockTime('Not after, HH:MM.').default('21:00'),
});

const robotSchema = z.strictObject({
  name: name('Which one it is, in results.'),
  docks_in: place('Where it stands'),
  at: clockTime('When it sets out, HH:MM.'),
  days,
  rooms: z.array(name("A room's name or use.")).min(1).max(50).meta({ description: 'Rooms it does, in this order.' }),
  minutes_per_room: quantity(0.5, 300, 'min', 'How long it stays in each.').default(15),
});

const list = <T extends z.ZodType>(item: T, description: string) =>
  z
    .array(item)
    .max(200)
    .meta({ description })
    .default(() => []);

export const householdSchema = z.strictObject({
  people: list(personSchema, 'Who lives here.'),
  pets: list(petSchema, 'Animals that live here.'),
  visitors: list(visitorsSchema, 'Who comes now and then, singly or in groups.'),
  parties: list(partySchema, 'Many guests on one day of the week.'),
  outings: list(outingSchema, 'Leaving the house together: the school run, a walk with the dog.'),
  errands: list(errandSchema, 'Carrying or rolling something from room to room.'),
  robots: list(robotSchema, 'Robot vacuums on their rounds.'),
  activity: quantity(
    0.05,
    20,
    'times',
    'How active the household is: scales free moves, visitors, errands and pets; an assumption, reports show half and double.',
  ).default(1),
  home_pace: quantity(
    0.2,
    1.5,
    'share',
    'Walking pace as a share of the published comfortable pace; an assumption, a home walks slower than a street.',
  ).default(0.7),
  turn_back_share: quantity(0, 0.5, 'share', 'How often a walk begins with turning back in the first doorway.').default(
    0.02,
  ),
  linger_share: quantity(0, 0.5, 'share', 'How often somebody stops in a doorway.').default(0.015),
  reach_share: quantity(0, 0.5, 'share', 'How often somebody reaches through a doorway before going.').default(0.005),
});
export type Household = z.infer<typeof householdSchema>;
export type HouseholdPerson = Household['people'][number];
export type HouseholdPet = Household['pets'][number];
export type Visitors = Household['visitors'][number];
export type HouseParty = Household['parties'][number];
export type Outing = Household['outings'][number];
export type Errand = Household['errands'][number];
export type Robot = Household['robots'][number];

/** Households by name. */
export const SHORT_FORMS = ['single', 'couple', 'family-of-four', 'grandparents'] as const;
export type ShortForm = (typeof SHORT_FORMS)[number];
