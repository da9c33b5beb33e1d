/** Who goes when a party sets out from a room. */
import { expect, test } from 'vitest';
import type { Resident } from '../../src/agents/party.js';
import { RoomPool } from '../../src/agents/room-pool.js';
import { BUILT_IN_WALKERS, type Walker } from '../../src/agents/schema.js';

const adult = BUILT_IN_WALKERS['adult'] as Walker;
const rod: Walker = { kind: 'test-rod', diameter_m: 0.1, height_m: 1.8, speed_mps: 1, persons: 1 };
const resident = (number: number, who: string, walker: Walker): Resident => ({
  number,
  who,
  walker,
  persons: 1,
  home: 0,
  trips: 0,
  body: null,
});

test('one of the name goes, then somebody not seen yet, then another of the sort', () => {
  const pool = new RoomPool(1);
  const [ann, bob] = [resident(1, 'ann', adult), resident(2, 'bob', adult)];
  pool.giveBack(ann);
  pool.giveBack(bob);
  expect(pool.take('bob', adult)).toBe(bob);
  expect(pool.take('carl', adult)).toBe('new');
  expect(pool.take('carl', adult)).toBe(ann);
  expect(pool.take('carl', adult)).toBeNull();
});

test('rods and people never go in each other’s place', () => {
  const pool = new RoomPool(0);
  const lone = resident(1, 'rods', rod);
  pool.giveBack(lone);
  expect(pool.take('adult', adult)).toBeNull();
  expect(pool.take('thin-rods', rod)).toBe(lone);
  pool.giveBack(resident(2, 'ann', adult));
  expect(pool.take('rods', rod)).toBeNull();
});

test('pets come whenever they like, and never in a person’s place, nor a person in theirs', () => {
  const cat = BUILT_IN_WALKERS['cat'] as Walker;
  const pool = new RoomPool(0);
  expect(pool.take('cat', cat)).toBe('new');
  const tom = { ...resident(1, 'cat', cat), persons: 0 };
  pool.giveBack(tom);
  expect(pool.free).toBe(0);
  expect(pool.take('adult', adult)).toBeNull();
  expect(pool.take('rods', rod)).toBeNull();
  expect(pool.take('cat', cat)).toBe(tom);
});
