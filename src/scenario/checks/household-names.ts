/** A household by itself: names that tell everybody apart, and shares of what walks begin with. */
import type { Finding } from '../issue.js';
import { type OutlineHousehold, duplicateNames, finding } from './outline.js';

/** In results each who passes has a name of their own; outings and errands draw by theirs. */
export function checkNamesOf(household: OutlineHousehold): Finding[] {
  const seen = new Set<string>();
  const { people = [], visitors = [], parties = [], pets = [] } = household;
  const guests = [...visitors, ...parties];
  const sorts = new Set([
    ...guests.flatMap((one) => one?.who?.map((row) => row?.who)),
    ...pets.map((pet) => pet?.animal),
  ]);
  const walkers = people.flatMap((one, i) =>
    one?.name !== undefined && sorts.has(one.name)
      ? [finding(['household', 'people', i, 'name'], { code: 'duplicate_name', what: 'walker', name: one.name })]
      : [],
  );
  const all = (['people', 'pets', 'robots', 'visitors', 'parties'] as const).flatMap((key) =>
    (household[key] ?? []).flatMap((one, i) => {
      if (one?.name === undefined) return [];
      if (!seen.has(one.name)) {
        seen.add(one.name);
        return [];
      }
      const problem = { code: 'duplicate_name', what: 'one in the household', name: one.name } as const;
      return [finding(['household', key, i, 'name'], problem)];
    }),
  );
  return [
    ...walkers,
    ...all,
    ...duplicateNames('outing', household.outings ?? [], ['household', 'outings']),
    ...duplicateNames('errand', household.errands ?? [], ['household', 'errands']),
  ];
}

/** What somebody does in a doorway is one thing at a time. */
export function checkManners(household: OutlineHousehold): Finding[] {
  const keys = ['turn_back_share', 'linger_share', 'reach_share'] as const;
  const shares = keys.map((key) => household[key]);
  if (shares.includes(undefined)) return [];
  const sum = shares.reduce<number>((total, share) => total + (share as number), 0);
  if (sum <= 1 + 1e-9) return [];
  const most = keys.reduce((one, other) => ((household[other] as number) > (household[one] as number) ? other : one));
  return [finding(['household', most], { code: 'manners_sum', sum })];
}
