/** Whose turn it is: two doors on one controller, a third on another. */
import { expect, test } from 'vitest';
import { roundsOf } from '../../../src/sensors/controllers/rounds.js';
import { controllerSchema } from '../../../src/sensors/controllers/schema.js';

const beams = (...names: string[]) => names.map((name) => ({ name, ranger: !name.startsWith('barrier') }));
const DOORS = [
  { name: 'kitchen', controller: 'hall', beams: beams('outer', 'barrier', 'inner') },
  { name: 'cellar', controller: 'shed', beams: beams('barrier A', 'barrier B') },
  { name: 'living room', controller: 'hall', beams: beams('outer', 'inner') },
];
const rounds = (turns?: string[][]) =>
  roundsOf(
    ['shed', 'hall'].map((name) => controllerSchema.parse({ name, ...(name === 'hall' && turns ? { turns } : {}) })),
    DOORS,
  );
const KITCHEN_OUTER = { door: 0, beam: 0 };
const KITCHEN_INNER = { door: 0, beam: 2 };
const LIVING_OUTER = { door: 2, beam: 0 };
const LIVING_INNER = { door: 2, beam: 1 };

test('without turns rangers are read one after another, in order of doors and beams', () => {
  const [, hall] = rounds();
  expect(hall!.turns).toEqual([[KITCHEN_OUTER], [KITCHEN_INNER], [LIVING_OUTER], [LIVING_INNER]]);
});

test('a controller with light barriers alone has no turns, and each knows its place', () => {
  const [shed, hall] = rounds();
  expect(shed!.turns).toEqual([]);
  expect([shed!.index, shed!.controller.name]).toEqual([0, 'shed']);
  expect([hall!.index, hall!.controller.name]).toEqual([1, 'hall']);
});

test('turns are taken as written, and who is not named comes after', () => {
  const [, hall] = rounds([['living room.inner'], ['living room.outer', 'kitchen.inner']]);
  expect(hall!.turns).toEqual([[LIVING_INNER], [LIVING_OUTER, KITCHEN_INNER], [KITCHEN_OUTER]]);
});

test('who is named twice is read twice', () => {
  const [, hall] = rounds([['kitchen.outer'], ['kitchen.inner'], ['kitchen.outer'], ['living room.inner']]);
  expect(hall!.turns).toEqual([[KITCHEN_OUTER], [KITCHEN_INNER], [KITCHEN_OUTER], [LIVING_INNER], [LIVING_OUTER]]);
});

test("what is no ranger of the controller's doors is no turn", () => {
  for (const name of ['kitchen.barrier', 'cellar.barrier A', 'kitchen.upper', 'kitchen']) {
    expect(() => rounds([[name]])).toThrow(`hall has no ranger ${name}`);
  }
});
