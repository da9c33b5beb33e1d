/** Areas of a disc behind an edge and in a box, against handbook values and counted points. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { behindEdge, inBox } from '../../../src/sensors/optics/covered.js';

describe('behind an edge', () => {
  // Circular segment ½·R²·(α − sin α) over π·R²: 1/3 − √3/(4π) at half the radius; Bronshtein & Semendyayev, from memory.
  test.each([
    [-1.2, 1],
    [-0.5, 2 / 3 + Math.sqrt(3) / (4 * Math.PI)],
    [0, 0.5],
    [0.5, 1 / 3 - Math.sqrt(3) / (4 * Math.PI)],
    [1, 0],
  ])('at %d radii: %d', (x, share) => {
    expect(behindEdge(x)).toBeCloseTo(share, 6);
  });

  test('off by less than 1e-4 between the nodes of the table', () => {
    for (let x = -1; x <= 1; x += 0.00037) {
      const exact = (Math.acos(x) - x * Math.sqrt(1 - x * x)) / Math.PI;
      expect(Math.abs(behindEdge(x) - exact)).toBeLessThan(1e-4);
    }
  });
});

describe('in a box', () => {
  test('a quadrant, a strip, the square that just fits', () => {
    expect(inBox(0, 2, 0, 2)).toBeCloseTo(0.25, 6);
    expect(inBox(-0.5, 0.5, -3, 3)).toBeCloseTo(1 / 3 + Math.sqrt(3) / (2 * Math.PI), 6);
    const half = Math.SQRT1_2;
    expect(inBox(-half, half, -half, half)).toBeCloseTo(2 / Math.PI, 4);
  });

  test('is what counted points say, wherever the box is', () => {
    const side = fc.double({ min: -1.5, max: 1.5, noNaN: true });
    fc.assert(
      fc.property(side, side, side, side, (a, b, c, d) => {
        const [x0, x1] = [Math.min(a, b), Math.max(a, b)];
        const [y0, y1] = [Math.min(c, d), Math.max(c, d)];
        const cells = 160;
        let [inside, all] = [0, 0];
        for (let i = 0; i < cells; i++) {
          for (let j = 0; j < cells; j++) {
            const [x, y] = [(2 * i + 1) / cells - 1, (2 * j + 1) / cells - 1];
            if (x * x + y * y > 1) continue;
            all++;
            if (x > x0 && x < x1 && y > y0 && y < y1) inside++;
          }
        }
        // Each edge of the box may be wrong by half a cell over the disc's width: 4 · (1/160) / (π/2).
        expect(Math.abs(inBox(x0, x1, y0, y1) - inside / all)).toBeLessThan(0.016);
      }),
      { seed: 11, numRuns: 150 },
    );
  });
});
