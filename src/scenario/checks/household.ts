/** A household and its house: everybody begins in a room that exists, and can walk to where they mean to go. */
import { HABITS } from '../../agents/household/habits.js';
import { BUILT_IN_HABITS } from '../../agents/household/schema.js';
import { BUILT_IN_WALKERS, ROOM_USES } from '../../agents/schema.js';
import type { Finding, KeyPath } from '../issue.js';
import { checkManners, checkNamesOf } from './household-names.js';
import { OUTSIDE, type Outline, type OutlineHousehold, finding, unknownName } from './outline.js';
import { type HousePlaces, placesOf } from './places.js';
import { checkShares } from './shares.js';

export function checkHousehold(outline: Outline): Finding[] {
  return [...checkHabits(outline), ...checkDoorsAndRooms(outline), ...checkWho(outline)];
}

/** Either the doors have traffic of their own or a household lives here: not both, not neither. */
function checkDoorsAndRooms(outline: Outline): Finding[] {
  const lived = outline.household !== undefined || 'household' in outline;
  const doors = (outline.doors ?? []).flatMap((door, i) => {
    if (!door) return [];
    const path = ['doors', i, 'traffic'];
    const rate = door.traffic?.arrivals_per_hour;
    if (lived && rate !== undefined && rate !== 0) return [finding(path, { code: 'traffic_and_household' }, 'key')];
    return !lived && !('traffic' in door)
      ? [
          finding(
            path,
            {
              code: 'missing_key',
              key: 'traffic',
              description: 'who comes, how often, and what they do; or say who lives in the house: household',
            },
            'key',
          ),
        ]
      : [];
  });
  const rooms = lived
    ? (outline.rooms ?? []).flatMap((room, i) =>
        room?.people_at_start
          ? [finding(['rooms', i, 'people_at_start'], { code: 'start_and_household', found: room.people_at_start })]
          : [],
      )
    : [];
  return [...doors, ...rooms];
}

function checkHabits(outline: Outline): Finding[] {
  const places = placesOf(outline);
  return Object.entries(outline.habits ?? {}).flatMap(([name, habits]) => {
    const path = ['habits', name];
    const { sleep, away, meals, moves } = habits ?? {};
    return [
      ...noSpan(sleep?.from, sleep?.to, [...path, 'sleep', 'to']),
      ...(away ?? []).flatMap((one, i) => noSpan(one?.from, one?.to, [...path, 'away', i, 'to'])),
      ...(meals ?? []).flatMap((meal, i) => unknownPlace(places, meal?.in, false, [...path, 'meals', i, 'in'])),
      ...(moves ?? []).flatMap((row, i) => {
        const at = [...path, 'moves', i];
        return [
          ...unknownPlace(places, row?.after, true, [...at, 'after']),
          ...checkShares(row?.go, [...at, 'go']),
          ...(row?.go ?? []).flatMap((one, k) => unknownPlace(places, one?.to, true, [...at, 'go', k, 'to'])),
        ];
      }),
    ];
  });
}

function checkWho(outline: Outline): Finding[] {
  const { household } = outline;
  if (!household || typeof household === 'string') return [];
  const places = placesOf(outline);
  const { people = [], pets = [], robots = [] } = household;
  const nameOf = (one: { readonly name?: string | undefined } | undefined) => one?.name;
  const known = [...people, ...pets, ...robots];
  return [
    ...checkNamesOf(household),
    ...checkManners(household),
    ...checkPeople(outline, household, places),
    ...checkOthers(outline, household, places, {
      people: people.map(nameOf),
      pets: pets.map(nameOf),
      all: known.map(nameOf),
    }),
  ];
}

/** Each begins in a room that exists, by habits that exist, and can walk to all they mean to go to. */
function checkPeople(outline: Outline, { people = [] }: OutlineHousehold, places: HousePlaces | null): Finding[] {
  const own = outline.habits === undefined ? [undefined] : Object.keys(outline.habits);
  return people.flatMap((person, i) => {
    const path = ['household', 'people', i];
    if (!person) return [];
    const found = [
      ...unknownName('habit', person.habits, [...own, ...BUILT_IN_HABITS], [...path, 'habits']),
      ...unknownPlace(places, person.bedroom, false, [...path, 'bedroom']),
      ...unknownRoom(outline, person.starts_in, [...path, 'starts_in']),
    ];
    if (found.length > 0 || !places || person.habits === undefined) return found;
    const habits = outline.habits?.[person.habits] ?? HABITS[person.habits];
    const start = places.first(person.starts_in ?? person.bedroom ?? 'bedroom') ?? places.first('living');
    if (!habits || start === null) return found;
    const goals = [
      ...(habits.meals ?? []).map((meal) => meal?.in),
      ...(habits.moves ?? []).flatMap((row) => (row?.go ?? []).map((one) => one?.to)),
      ...((habits.away ?? []).length > 0 ? [OUTSIDE] : []),
    ];
    const far = [...new Set(goals)].find(
      (goal) => goal !== undefined && places.has(goal) && !places.canWalk(start, goal),
    );
    return far === undefined
      ? found
      : [
          ...found,
          finding([...path, 'habits'], { code: 'no_way', who: person.name ?? '', from: places.name(start), to: far }),
        ];
  });
}

interface Names {
  readonly people: readonly (string | undefined)[];
  readonly pets: readonly (string | undefined)[];
  readonly all: readonly (string | undefined)[];
}

function checkOthers(
  outline: Outline,
  household: OutlineHousehold,
  places: HousePlaces | null,
  names: Names,
): Finding[] {
  const walkers =
    outline.walkers === undefined ? [undefined] : [...Object.keys(outline.walkers), ...Object.keys(BUILT_IN_WALKERS)];
  const at = (key: string, i: number): KeyPath => ['household', key, i];
  const place = (word: string | undefined, path: KeyPath, outdoors = false) =>
    unknownPlace(places, word, outdoors, path);
  const guests = (key: 'visitors' | 'parties') =>
    (household[key] ?? []).flatMap((one, i) => {
      const path = at(key, i);
      const [low, high] = one?.group_of ?? [];
      return [
        ...(one?.who ?? []).flatMap((who, k) => unknownName('walker', who?.who, walkers, [...path, 'who', k, 'who'])),
        ...checkShares(one?.who, [...path, 'who']),
        ...checkShares(one?.rooms, [...path, 'rooms']),
        ...(one?.rooms ?? []).flatMap((room, k) => {
          const where = [...path, 'rooms', k, 'room'];
          const missing = place(room?.room, where);
          const word = room?.room;
          return missing.length === 0 && places && word !== undefined && !places.reachedFromOutside(word)
            ? [finding(where, { code: 'no_way', who: one?.name ?? '', from: OUTSIDE, to: word })]
            : missing;
        }),
        ...(low !== undefined && high !== undefined && low > high
          ? [
              finding([...path, 'group_of'], {
                code: 'not_ordered',
                low_key: 'smallest',
                low,
                high_key: 'largest',
                high,
              } as const),
            ]
          : []),
      ];
    });
  return [
    ...guests('visitors'),
    ...guests('parties'),
    ...(household.parties ?? []).flatMap((party, i) => noSpan(party?.from, party?.to, [...at('parties', i), 'to'])),
    ...(household.pets ?? []).flatMap((pet, i) => [
      ...unknownName('walker', pet?.animal, walkers, [...at('pets', i), 'animal']),
      ...place(pet?.sleeps_in, [...at('pets', i), 'sleeps_in']),
      ...noSpan(pet?.awake?.from, pet?.awake?.to, [...at('pets', i), 'awake', 'to']),
      ...(pet?.rooms ?? []).flatMap((word, k) => place(word, [...at('pets', i), 'rooms', k])),
    ]),
    ...(household.outings ?? []).flatMap((outing, i) => [
      ...(outing?.who ?? []).flatMap((who, k) =>
        unknownName('person', who, names.people, [...at('outings', i), 'who', k]),
      ),
      ...(outing?.fetches ?? []).flatMap((who, k) =>
        unknownName('person', who, names.people, [...at('outings', i), 'fetches', k]),
      ),
      ...(outing?.takes ?? []).flatMap((who, k) =>
        unknownName('pet', who, names.pets, [...at('outings', i), 'takes', k]),
      ),
    ]),
    ...(household.errands ?? []).flatMap((errand, i) => [
      ...place(errand?.from, [...at('errands', i), 'from']),
      ...place(errand?.to, [...at('errands', i), 'to'], true),
      ...noWay(places, errand?.name, errand?.from, errand?.to, [...at('errands', i), 'to']),
    ]),
    ...(household.robots ?? []).flatMap((robot, i) => [
      ...place(robot?.docks_in, [...at('robots', i), 'docks_in']),
      ...(robot?.rooms ?? []).flatMap((word, k) => [
        ...place(word, [...at('robots', i), 'rooms', k]),
        ...noWay(places, robot?.name, robot?.docks_in, word, [...at('robots', i), 'rooms', k]),
      ]),
    ]),
  ];
}

function unknownRoom(outline: Outline, name: string | undefined, path: KeyPath): Finding[] {
  const rooms = outline.rooms?.map((room) => room?.name) ?? [undefined];
  return unknownName('room', name, [...rooms, OUTSIDE], path);
}

/** A word that is neither a room's name nor a use that some room has. */
function unknownPlace(
  places: HousePlaces | null,
  word: string | undefined,
  outdoors: boolean,
  path: KeyPath,
): Finding[] {
  if (word === undefined || !places || (outdoors && word === OUTSIDE) || (word !== OUTSIDE && places.has(word)))
    return [];
  if (word !== OUTSIDE && ROOM_USES.some((use) => use === word))
    return [finding(path, { code: 'no_room_for', use: word, rooms: places.names })];
  return unknownName('room', word, places.names, path);
}

/** What is to go from one place to another where no doors lead. */
function noWay(
  places: HousePlaces | null,
  who: string | undefined,
  from: string | undefined,
  to: string | undefined,
  path: KeyPath,
): Finding[] {
  if (!places || from === undefined || to === undefined || !places.has(to)) return [];
  const start = places.first(from);
  return start === null || places.canWalk(start, to)
    ? []
    : [finding(path, { code: 'no_way', who: who ?? '', from, to })];
}

/** A span of the clock that ends when it begins. */
function noSpan(from: string | undefined, to: string | undefined, path: KeyPath): Finding[] {
  return from !== undefined && from === to ? [finding(path, { code: 'no_span', at: from })] : [];
}
