/** Figures about optical rangers: complete, honest about where they come from, and the defaults themselves. */
import { describe, expect, test } from 'vitest';
import { figureValueText } from '../../../src/engine/figure.js';
import { timeOfFlightFigures } from '../../../src/sensors/time-of-flight/figures.js';
import { timeOfFlightSchema } from '../../../src/sensors/time-of-flight/schema.js';
import { triangulationFigures } from '../../../src/sensors/triangulation/figures.js';
import { triangulationSchema } from '../../../src/sensors/triangulation/schema.js';

describe.each([
  ['triangulation', triangulationFigures(), triangulationSchema.parse({ kind: 'triangulation-ranger' })],
  ['time_of_flight', timeOfFlightFigures(), timeOfFlightSchema.parse({ kind: 'time-of-flight-ranger' })],
])('%s', (name, figures, defaults) => {
  test('each has a name of its own, a unit, a use, a citation', () => {
    expect(new Set(figures.map(({ id }) => id)).size).toBe(figures.length);
    for (const { id, unit, used_in, citation } of figures) {
      expect(id.startsWith(`sensor.${name}.`)).toBe(true);
      for (const text of [unit, used_in, citation]) expect(text.length, id).toBeGreaterThan(0);
    }
  });

  test('an assumption says that it has no source; nothing claims to be published', () => {
    for (const { id, citation, status } of figures) {
      if (status === 'assumption') expect(citation.startsWith('no source'), id).toBe(true);
      expect(['assumption', 'common practice', 'from memory'], id).toContain(status);
    }
  });

  test('every number of the schema is listed', () => {
    const chance = ['stray_share', 'dropout_share'];
    const listed = figures.map(({ value }) => figureValueText(value));
    for (const [key, value] of Object.entries(defaults))
      if (typeof value === 'number' && !chance.includes(key)) expect(listed, key).toContain(String(value));
  });
});
