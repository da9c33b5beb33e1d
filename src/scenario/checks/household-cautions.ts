/** A household that can live in its house, but not quite as it was meant. */
import { HABITS } from '../../agents/household/habits.js';
import { SHORT_FORMS } from '../../agents/household/schema.js';
import { householdOf } from '../../agents/household/short-forms.js';
import { LOAD_KINDS } from '../../agents/loads/kinds.js';
import { ROOM_USES } from '../../agents/schema.js';
import type { Finding, KeyPath } from '../issue.js';
import { OUTSIDE, type Outline, type OutlineHousehold, finding, walkerNamed } from './outline.js';
import { type HousePlaces, placesOf } from './places.js';
import { breadthOf } from './traffic.js';

export function cautionHousehold(outline: Outline): Finding[] {
  const { household } = outline;
  if (household === undefined) return [];
  if (typeof household === 'string') return cautionUses(outline, household);
  return [...cautionNobody(household), ...cautionBreadths(outline, household)];
}

/** Lists that can't be read are not empty. */
function cautionNobody(household: OutlineHousehold): Finding[] {
  const lists = (['people', 'visitors', 'parties', 'pets', 'robots'] as const).map((key) => household[key]);
  return lists.every((list) => list?.length === 0) ? [finding(['household'], { code: 'nobody_lives' }, 'key')] : [];
}

/** A household by name is for any house: it goes only where there are rooms for it. */
function cautionUses(outline: Outline, name: string): Finding[] {
  const form = SHORT_FORMS.find((one) => one === name);
  const places = placesOf(outline);
  if (!form || !places) return [];
  const { people, visitors } = householdOf(form);
  const words = [
    ...people.flatMap(({ habits, bedroom }) => {
      const { meals = [], moves = [] } = HABITS[habits] ?? {};
      return [
        bedroom ?? 'bedroom',
        ...meals.map((meal) => meal.in),
        ...moves.flatMap(({ go }) => go.map(({ to }) => to)),
      ];
    }),
    ...visitors.flatMap(({ rooms }) => rooms.map(({ room }) => room)),
  ];
  // Who has no dining room eats in the kitchen.
  const lacking = ROOM_USES.filter(
    (use) => words.includes(use) && !places.has(use) && !(use === 'dining' && places.has('kitchen')),
  );
  return lacking.length === 0 ? [] : [finding(['household'], { code: 'uses_lacking', household: name, uses: lacking })];
}

/** What rolls or is carried must fit through the doors on its way. */
function cautionBreadths(outline: Outline, household: OutlineHousehold): Finding[] {
  const places = placesOf(outline);
  if (!places) return [];
  const doors = outline.doors ?? [];
  const everyDoor = doors.map((_, d) => d);
  const tight = (what: string, breadth_m: number | undefined, on: readonly number[], path: KeyPath): Finding[] => {
    if (breadth_m === undefined) return [];
    const d = [...new Set(on)].find((one) => (doors[one]?.width_m ?? Infinity) <= breadth_m);
    const { name = '', width_m = 0 } = (d === undefined ? undefined : doors[d]) ?? {};
    return d === undefined
      ? []
      : [finding(path, { code: 'too_wide_on_the_way', what, breadth_m, door: name, width_m })];
  };
  const breadth = (load: keyof typeof LOAD_KINDS | undefined) =>
    load === undefined ? undefined : LOAD_KINDS[load].breadth_m;
  const people = (household.people ?? []).flatMap((person, i) =>
    tight(`the ${person?.load ?? ''}`, breadth(person?.load), everyDoor, ['household', 'people', i, 'load']),
  );
  const errands = (household.errands ?? []).flatMap((errand, i) => {
    const { load, from, to } = errand ?? {};
    if (from === undefined || to === undefined) return [];
    const on = places.all(from).flatMap((room) => places.doorsTo(room, to));
    return tight(`the ${load ?? ''}`, breadth(load), on, ['household', 'errands', i, 'load']);
  });
  const guests = (['visitors', 'parties'] as const).flatMap((key) =>
    (household[key] ?? []).flatMap((one, i) => {
      const on = guestDoors(places, one?.rooms);
      const path = ['household', key, i];
      const rolling = (one?.who ?? []).flatMap((row, k) => {
        const walker = walkerNamed(outline, row?.who);
        return walker ? tight(row?.who ?? '', breadthOf(walker), on, [...path, 'who', k, 'who']) : [];
      });
      return [...tight(`the ${one?.load ?? ''}`, breadth(one?.load), on, [...path, 'load']), ...rolling];
    }),
  );
  return [...people, ...errands, ...guests];
}

function guestDoors(
  places: HousePlaces,
  rooms: readonly ({ readonly room?: string | undefined } | undefined)[] | undefined,
): readonly number[] {
  const outside = places.first(OUTSIDE);
  if (outside === null) return [];
  return (rooms ?? []).flatMap((row) =>
    row?.room === undefined ? [] : places.all(row.room).flatMap((room) => places.doorsTo(outside, places.name(room))),
  );
}
