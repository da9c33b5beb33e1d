/** What a word of an itinerary means in a house: a room's name before a use, and of several the nearest. */
import { describe, expect, test } from 'vitest';
import { OUTSIDE } from '../../../src/agents/outside.js';
import { Places, useOf } from '../../../src/agents/household/places.js';
import { Routes } from '../../../src/agents/household/route.js';
import { ROOM_USES } from '../../../src/agents/schema.js';

// hall – landing – bath; hall – wc; a shed that no door leads to.
const ROOMS = [
  { name: 'hall', use: 'hall' },
  { name: 'landing', use: null },
  { name: 'bath', use: 'bathroom' },
  { name: 'wc', use: 'bathroom' },
  { name: 'shed', use: 'storage' },
  { name: 'kitchen', use: 'living' },
  { name: 'parlour', use: 'kitchen' },
];
const DOORS = [
  { from: OUTSIDE, to: 0 },
  { from: 0, to: 1 },
  { from: 1, to: 2 },
  { from: 0, to: 3 },
  { from: 0, to: 5 },
  { from: 5, to: 6 },
];
const places = new Places(ROOMS, new Routes(ROOMS.length, DOORS));

test('a name means that room, even where another has the word for its use', () => {
  expect(places.all('kitchen')).toEqual([5]);
});

test('a use means every room of it, in the order of the design; outside is outside; nonsense is nowhere', () => {
  expect(places.all('bathroom')).toEqual([2, 3]);
  expect(places.all('outside')).toEqual([OUTSIDE]);
  expect(places.all('ballroom')).toEqual([]);
});

describe('the nearest of several', () => {
  test('from upstairs it is the bath, from the hall the wc', () => {
    expect(places.nearest('bathroom', 1)).toBe(2);
    expect(places.nearest('bathroom', 0)).toBe(3);
    expect(places.nearest('bathroom', OUTSIDE)).toBe(3);
  });
  test('one is there already', () => {
    expect(places.nearest('bathroom', 2)).toBe(2);
  });
  test('what no way leads to is nowhere', () => {
    expect(places.nearest('storage', 0)).toBeNull();
  });
});

test('the use of a room is what is stated, then what its name says', () => {
  expect(useOf({ name: 'kitchen' }, ROOM_USES)).toBe('kitchen');
  expect(useOf({ name: 'kitchen', use: 'study' }, ROOM_USES)).toBe('study');
  expect(useOf({ name: 'den' }, ROOM_USES)).toBeNull();
});
