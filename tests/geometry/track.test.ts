/** What a limb's track says of all its nodes at once, of motions that can be worked out by hand. */
import { describe, expect, test } from 'vitest';
import {
  EXTENT_A,
  EXTENT_B,
  FASTEST,
  type NodeSpan,
  PER_PERIOD,
  type PointTrack,
  SIDEWAYS,
  STRAYS,
  endAt,
  extentOf,
  limbTrack,
  pointTrack,
  setPoint,
} from '../../src/geometry/track.js';

const NODES = 32;
const WALK: NodeSpan = { nodes: NODES, advance: 1 };
/** Sideways along a triangle of height 0.1, from 0 to 0.1 and back in a period. */
const triangle = (k: number): number => (0.1 * Math.min(k, NODES - k)) / (NODES / 2);

function points(place: (k: number) => readonly [l: number, w: number, z: number], nodes = NODES): PointTrack {
  const track = pointTrack(nodes);
  for (let k = 0; k < nodes; k++) setPoint(track, k, ...place(k));
  return track;
}
const even = (l: (k: number) => number, z = 1): PointTrack => points((k) => [l(k), k / NODES, z]);

describe('a limb that walks on evenly', () => {
  const upright = even(triangle);
  const { whole } = limbTrack(upright, upright, WALK);
  test('moves in each cell by the hypotenuse of its way forward and sideways', () => {
    const cell = Math.hypot(1 / NODES, 0.1 / (NODES / 2));
    expect(whole[FASTEST]).toBeCloseTo(cell, 5);
    expect(whole[PER_PERIOD]).toBeCloseTo(NODES * cell, 4);
    expect(whole[SIDEWAYS]).toBeCloseTo(0.1 / (NODES / 2), 6);
  });
  test('strays sideways by the triangle’s height, or by that of the end that strays more', () => {
    expect(whole[STRAYS]).toBeCloseTo(0.1, 6);
    const wider = even((k) => 3 * triangle(k), 1.5);
    expect(limbTrack(upright, wider, WALK).whole[STRAYS]).toBeCloseTo(0.3, 6);
    expect(limbTrack(wider, upright, WALK).whole[STRAYS]).toBeCloseTo(0.3, 6);
    // Not upright: its ends don't ride on one point.
    expect(limbTrack(upright, wider, WALK).whole[SIDEWAYS]).toBeNaN();
  });
  test('stays in the box of its sway once its advance is taken out', () => {
    const track = limbTrack(
      upright,
      even(() => -0.2, 0.4),
      WALK,
    );
    const box = { l0: 0, l1: 0.1, w0: 0, w1: 0, z0: 1, z1: 1 };
    for (const [key, value] of Object.entries(box))
      expect(extentOf(track, EXTENT_A)[key as keyof typeof box], key).toBeCloseTo(value, 6);
    expect(extentOf(track, EXTENT_B).l0).toBeCloseTo(-0.2, 6);
    expect(extentOf(track, EXTENT_B).z1).toBeCloseTo(0.4, 6);
  });
  test('is between two nodes where a straight line says, in any period', () => {
    const track = limbTrack(upright, upright, WALK);
    const at = endAt(track, 0, 2 * NODES + 4.5, WALK);
    expect(at.w).toBeCloseTo(2 + 4.5 / NODES, 6);
    expect(at.l).toBeCloseTo((triangle(4) + triangle(5)) / 2, 6);
    expect(endAt(track, 1, NODES - 0.5, WALK).w).toBeCloseTo(1 - 0.5 / NODES, 6);
  });
});

describe('a limb', () => {
  test('that swings back has no measure of straying: it may come again', () => {
    const back = points((k) => [0, k === 7 ? 0.1 : k / NODES, 1]);
    const on = even(() => 0);
    expect(limbTrack(back, on, WALK).whole[STRAYS]).toBeNaN();
    expect(limbTrack(on, back, WALK).whole[STRAYS]).toBeNaN();
  });
  test('that steps back from the end of a period to the next has none either', () => {
    const ahead = points((k) => [0, (1.1 * k) / (NODES - 1), 1]);
    expect(limbTrack(ahead, ahead, WALK).whole[STRAYS]).toBeNaN();
  });
  test('that doesn’t repeat has none, and moves in one cell less than it has nodes', () => {
    const once = even(() => 0);
    const { whole } = limbTrack(once, once, { nodes: NODES, advance: 0 });
    expect(whole[STRAYS]).toBeNaN();
    expect(whole[PER_PERIOD]).toBeCloseTo((NODES - 1) / NODES, 4);
  });
});
