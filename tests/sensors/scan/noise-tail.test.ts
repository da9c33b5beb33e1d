/** The share of readings whose noise alone breaks a beam. */
import { expect, test } from 'vitest';
import { noiseTail } from '../../../src/sensors/scan/noise-tail.js';

test.each([0.4, 0.01, 1e-7, 3e-14])('is the largest uniform that breaks it, however rare: %d', (edge) => {
  const share = noiseTail((u) => u < edge, 80);
  expect(share).toBeLessThan(edge);
  expect(share / edge).toBeCloseTo(1, 12);
});

test('is nothing where next to no reading breaks it', () => {
  expect(noiseTail(() => false, 80)).toBe(0);
});
