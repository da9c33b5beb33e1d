/** Figures about ultrasonic rangers: complete, honest about where they come from, and the defaults themselves. */
import { expect, test } from 'vitest';
import { figureValueText } from '../../../src/engine/figure.js';
import { ultrasonicFigures } from '../../../src/sensors/ultrasonic/figures.js';
import { ultrasonicSchema } from '../../../src/sensors/ultrasonic/schema.js';

const figures = ultrasonicFigures();

test('each has a name of its own, a unit, a use, a citation', () => {
  expect(new Set(figures.map(({ id }) => id)).size).toBe(figures.length);
  for (const { id, unit, used_in, citation } of figures) {
    expect(id).toMatch(/^sensor\.ultrasonic\.[a-z_]+$/);
    for (const text of [unit, used_in, citation]) expect(text.length, id).toBeGreaterThan(0);
  }
});

test('an assumption says that it has no source', () => {
  for (const { id, citation, status } of figures) {
    if (status === 'assumption') expect(citation.startsWith('no source'), id).toBe(true);
  }
});

test('every default of the schema is listed', () => {
  const {
    kind: _,
    switching: __,
    stray_share: ___,
    dropout_share: ____,
    ...defaults
  } = ultrasonicSchema.parse({
    kind: 'ultrasonic-ranger',
  });
  const listed = figures.map(({ value }) => figureValueText(value)).join(' ');
  for (const [key, value] of Object.entries(defaults)) expect(listed.split(/[ ,]+/), key).toContain(String(value));
});
