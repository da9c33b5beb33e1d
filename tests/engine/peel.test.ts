/** A schema without its wrappers. */
import { expect, test } from 'vitest';
import { z } from 'zod';
import { peel } from '../../src/engine/peel.js';

const metres = z.number().min(0).meta({ description: 'A length.', unit: 'm' });

test('a bare schema is its own core, and must be given', () => {
  expect(peel(metres)).toEqual({
    core: metres,
    optional: false,
    defaultValue: undefined,
    meta: { description: 'A length.', unit: 'm' },
  });
});

test('what may be left out, and what stands in its place then', () => {
  expect(peel(metres.optional())).toMatchObject({ core: metres, optional: true, defaultValue: undefined });
  expect(peel(metres.default(2))).toMatchObject({ core: metres, optional: true, defaultValue: 2 });
  expect(peel(metres.default(2).optional())).toMatchObject({ core: metres, optional: true, defaultValue: 2 });
});

test('what a wrapper says of itself comes before what is said inside', () => {
  const wrapped = metres.optional().meta({ description: 'Another length.' });
  expect(peel(wrapped).meta).toMatchObject({ description: 'Another length.', unit: 'm' });
});

test('of an intersection the half with the keys', () => {
  const keys = z.object({ a: metres });
  const both = z.intersection(
    keys,
    z.unknown().refine(() => true),
  );
  expect(peel(both.default({ a: 1 })).core).toBe(keys);
});
