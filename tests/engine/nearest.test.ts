import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nearest } from '../../src/engine/nearest.js';

fc.configureGlobal({ seed: 22, numRuns: 200 });

const KEYS = ['height_m', 'width_m', 'tilt_deg', 'cycle_ms', 'arrivals_per_hour', 'name'];

describe('did you mean', () => {
  test.each([
    ['one letter too many', 'heigth_m', 'height_m'],
    ['two letters that changed places', 'nmae', 'name'],
    ['letters that changed places far apart, one slip of however many edits', 'emna', 'name'],
    ['capitals, spaces and dashes', 'Cycle-MS', 'cycle_ms'],
    ['spaces for lines', 'arrivals per hour', 'arrivals_per_hour'],
    ['no unit', 'width', 'width_m'],
    ['another unit', 'tilt_share', 'tilt_deg'],
    ['a unit in inches', 'height_in', 'height_m'],
  ])('%s', (_, written, meant) => {
    expect(nearest(written, KEYS)).toBe(meant);
  });

  test('nothing where nothing is close, or nothing is known', () => {
    expect(nearest('colour', KEYS)).toBeUndefined();
    expect(nearest('name', [])).toBeUndefined();
    // Two of five letters may differ, three may not; in a word of three letters one may.
    expect([nearest('beaxx', ['beams']), nearest('bexxx', ['beams'])]).toEqual(['beams', undefined]);
    expect([nearest('rox', ['rod']), nearest('rxx', ['rod']), nearest('x', ['y'])]).toEqual(['rod', undefined, 'y']);
  });

  test('the closest of several, the first of those alike', () => {
    expect(nearest('dor', ['floor', 'door', 'dog'])).toBe('door');
    expect(nearest('dog_m', ['dot_m', 'dig_m', 'dog_s'])).toBe('dog_s');
    expect(nearest('bat', ['cat', 'rat'])).toBe('cat');
  });

  test('a known word is its own nearest, however it is written', () => {
    fc.assert(
      fc.property(fc.constantFrom(...KEYS), fc.constantFrom('_', '-', ' ', '\t'), fc.boolean(), (key, dash, loud) => {
        const written = key.replaceAll('_', dash);
        expect(nearest(loud ? written.toUpperCase() : written, KEYS)).toBe(key);
      }),
    );
  });

  test('of a very long word only the beginning counts', () => {
    const long = 'x'.repeat(60);
    expect(nearest(long + 'y'.repeat(100_000), [long + 'z'])).toBe(long + 'z');
  });
});
