/** Cross-talk: the ways by which one burst reaches another's ear. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BurstSource, RangerPlace, Scene } from '../../../src/sensors/ranger.js';
import { makeUltrasonic } from '../../../src/sensors/ultrasonic/ranger.js';
import { type Built, type Capsule, EMPTY, type Mounted, placeOf, sceneOf, upright } from './building.js';

function sourceOf({ mounted }: RangerPlace, sameFrame = true): BurstSource {
  return { ranger: mounted.sensor as BurstSource['ranger'], axis: mounted.line, sameFrame };
}
/** Ways from a source to a listener in one frame, metres, shortest first. */
function ways(from: Mounted, to: Mounted, built: Built = {}, scene: Scene = EMPTY, sameFrame = true): number[] {
  const listener = makeUltrasonic(placeOf({ ...built, mounting: to }));
  const out: number[] = [];
  listener.ear?.arrivals(sourceOf(placeOf({ ...built, mounting: from }), sameFrame), scene, 0, Infinity, out);
  return out.sort((a, b) => a - b);
}
const LEFT: Mounted = { mount: 'left-jamb', height_m: 1 };
const RIGHT: Mounted = { mount: 'right-jamb', height_m: 1 };
/** Walls and faces swallow all: only what is straight or off a body is left. */
const SOFT = { bounce_loss_db: 60 };

test('speed and window: from the blind zone’s end to the echo of the range', () => {
  const { ear } = makeUltrasonic(placeOf());
  expect(ear?.speed_mps).toBeCloseTo(343.2, 9);
  // 2·0.02/343.2 and 2·4/343.2.
  expect(ear?.window_us).toEqual([117, 23_310]);
});

test('a burst 1 ms late is seen 0.1716 m further away', () => {
  const { ear } = makeUltrasonic(placeOf());
  expect(ear?.seenAfter(1000)).toBeCloseTo(0.1716, 9);
});

describe('off a body', () => {
  // Two rangers s apart that fire together, target at d on A's axis: B sees (d + √(d² + s²))/2. Worked by hand.
  test.each([
    [0.8, 0.1, 0.803113],
    [1.55, 0.1, 1.551611],
    [0.4, 0.3, 0.45],
  ])('d = %d m, s = %d m: %d m', (d, s, seen) => {
    // Its surface at d: a small ball, so that both ways meet nearly the same point of it.
    const wire = sceneOf([[d + 0.0005, 0, 1, d + 0.0005, 0, 1, 0.0005]], 0.01);
    const built = { width_m: 3, sensor: { ...SOFT, source_level_db: 140, threshold_db: 50, frequency_khz: 25 } };
    const beside = { ...LEFT, height_m: 1 + s };
    const empty = ways(LEFT, beside, built);
    const found = ways(LEFT, beside, built, wire).filter((way) => !empty.includes(way));
    expect(found.length).toBe(1);
    expect(found[0]! / 2).toBeCloseTo(seen, 4);
  });

  test('its own earlier burst is heard at the distance its echo is seen at', () => {
    const scene = sceneOf([upright(0.5, 0.05, 0.06)], 0.2);
    const own = ways(LEFT, LEFT, { sensor: SOFT }, scene);
    expect(own.length).toBe(1);
    expect(own[0]! / 2).toBeCloseTo(makeUltrasonic(placeOf({ sensor: SOFT })).sees(scene), 9);
  });

  test('over the point of the limb’s axis with the least way to both', () => {
    // Lintel to jamb, so that both are unequally far; a limb that leans, heard by far enough.
    const built = { sensor: { ...SOFT, threshold_db: 45 } };
    const under: Mounted = { mount: 'lintel', height_m: 2, across_m: 0.3 };
    const limb: Capsule = [0.35, 0.05, 0.5, 0.55, -0.05, 1.6, 0.02];
    const [a, b] = [placeOf({ mounting: under }).mounted.line.from, placeOf({ mounting: LEFT }).mounted.line.from];
    let least = Infinity;
    for (let t = 0; t <= 1; t += 0.0005) {
      const q = [0, 1, 2].map((i) => limb[i]! + t * (limb[i + 3]! - limb[i]!)) as [number, number, number];
      const from = ({ x, y, z }: typeof a): number => Math.hypot(q[0] - x, q[1] - y, q[2] - z);
      least = Math.min(least, from(a) + from(b) - 0.04);
    }
    const empty = ways(under, LEFT, built);
    const found = ways(under, LEFT, built, sceneOf([limb], 0.01)).filter((way) => !empty.includes(way));
    expect(found.length).toBe(1);
    expect(found[0]).toBeCloseTo(least, 5);
  });

  test('never louder than off a flat wall, 1/way², however near one of both', () => {
    // A big ball 2.4 m from one and 5 cm under the other: 20·lg 2.45 + 1.318·2.45 = 11 dB below the burst at 1 m.
    const ball = sceneOf([[2.7, 0, 1.65, 2.7, 0, 1.65, 0.3]], 0.0001);
    const heard = (threshold_db: number): number =>
      ways(
        { ...LEFT, height_m: 1.65 },
        { mount: 'lintel', height_m: 2, across_m: 2.7 },
        { width_m: 3, sensor: { ...SOFT, threshold_db } },
        ball,
      ).length;
    expect(heard(105 - 10.9)).toBe(0);
    expect(heard(105 - 30)).toBe(1);
  });

  test('less in thick clothes', () => {
    const far = (u: number): Scene => sceneOf([upright(1.9, 0, 0.1, 1)], u);
    const built = { width_m: 4, sensor: SOFT };
    const beside = { ...LEFT, height_m: 1.6 };
    expect(ways(LEFT, beside, built, far(0.01)).length).toBe(1);
    expect(ways(LEFT, beside, built, far(0.99)).length).toBe(0);
  });

  test('not by a body between both: it casts a shadow', () => {
    expect(ways(LEFT, RIGHT, { sensor: SOFT })).toEqual([0.8]);
    expect(ways(LEFT, RIGHT, { sensor: SOFT }, sceneOf([upright(0.4, 0, 0.1)]))).toEqual([]);
  });

  test('not by a body behind another', () => {
    const behind = upright(0.6, 0.02, 0.06);
    const front: Capsule = upright(0.35, 0, 0.05, 0.6);
    const beside: Mounted = { ...LEFT, at_m: 0.04 };
    const reached = (scene: Scene): number[] => ways(LEFT, beside, { sensor: SOFT }, scene).filter((way) => way > 0.9);
    expect(reached(sceneOf([behind], 0.1)).length).toBe(1);
    expect(reached(sceneOf([behind, front], 0.1)).length).toBe(0);
  });
});

describe('without anybody', () => {
  test('straight from the other jamb, and as often to and fro as it stays loud: W, 3W, 5W, …', () => {
    const found = ways(LEFT, RIGHT, { sensor: { bounce_loss_db: 2 } });
    found.forEach((way, i) => expect(way).toBeCloseTo(0.8 * (2 * i + 1), 9));
    expect(found.length).toBeGreaterThan(2);
    expect(ways(LEFT, RIGHT, { sensor: { bounce_loss_db: 8 } }).length).toBeLessThan(found.length);
  });

  test('the last that is heard is the last above the threshold: 37 − 20·lg L − 1.318·L − loss each bounce', () => {
    // One bounce less than each way has: L = 0.8·(2k + 1) with 2k bounces of 2 dB.
    const loud = Array.from({ length: 30 }, (_, k) => 0.8 * (2 * k + 1)).filter(
      (way, k) => 37 - 20 * Math.log10(way) - 1.318242 * way - 4 * k >= 0,
    );
    expect(ways(LEFT, RIGHT, { sensor: { bounce_loss_db: 2 } }).length).toBe(loud.length);
  });

  test('one’s own late rounds: 2W, 4W, … with a bounce more each way', () => {
    const own = ways(LEFT, LEFT);
    own.forEach((way, i) => expect(way).toBeCloseTo(1.6 * (i + 1), 9));
    expect(own.length).toBeGreaterThan(1);
  });

  test('beside each other: off the far jamb, √((2W)² + s²)', () => {
    const found = ways(LEFT, { ...LEFT, at_m: 0.1 }, {}).filter((way) => way > 0.5);
    expect(found[0]).toBeCloseTo(Math.sqrt(1.6 * 1.6 + 0.1 * 0.1), 9);
  });

  test('off the floor, under the lintel: √((2H)² + s²)', () => {
    const under: Mounted = { mount: 'lintel', height_m: 2 };
    const found = ways({ ...under, across_m: 0.3 }, { ...under, across_m: 0.5 }).filter((way) => way > 1);
    expect(found[0]).toBeCloseTo(Math.sqrt(16 + 0.04), 9);
  });

  test('a body in the way leaves them out, leg by leg', () => {
    const all = ways(LEFT, RIGHT);
    const low = sceneOf([[0.4, 0, 0.1, 0.4, 0, 0.2, 0.05]]);
    expect(ways(LEFT, RIGHT, {}, low)).toEqual(all);
    expect(ways(LEFT, RIGHT, {}, sceneOf([[0.4, 0, 0.9, 0.4, 0, 1.1, 0.03]]))).toEqual([]);
    // From 0.6 m to 1.4 m by two bounces: the middle leg rises through the centre at 1 m, as does the straight way.
    const [from, to] = [
      { ...LEFT, height_m: 0.6, tilt_deg: 15 },
      { ...RIGHT, height_m: 1.4, tilt_deg: -15 },
    ] as const;
    const open = ways(from, to);
    // On the last leg, at 0.4 m across: 0.6 + 0.8·5/6.
    const last = sceneOf([[0.4, 0, 1.267, 0.4, 0, 1.267, 0.02]]);
    const without = Math.sqrt(2.4 * 2.4 + 0.8 * 0.8);
    expect(open.some((way) => Math.abs(way - without) < 1e-9)).toBe(true);
    expect(ways(from, to, {}, last)).toEqual(open.filter((way) => Math.abs(way - without) > 1e-9));
  });

  test('a corner lies where the way meets the jamb: nearer to the one that is nearer', () => {
    // From 0.3 m across under the lintel by the far jamb, 0.5 m away, to the near jamb: met at 2 − 0.5/1.3 = 1.615 m.
    const under: Mounted = { mount: 'lintel', height_m: 2, across_m: 0.3, tilt_deg: 50 };
    const built = { sensor: { threshold_db: 60 } };
    const bounced = Math.sqrt(1.3 * 1.3 + 1);
    const has = (scene: Scene): boolean =>
      ways(under, LEFT, built, scene).some((way) => Math.abs(way - bounced) < 1e-9);
    const ball = (x: number, z: number): Scene => sceneOf([[x, 0, z, x, 0, z, 0.01]]);
    expect(has(EMPTY)).toBe(true);
    expect(has(ball(0.79, 1.615))).toBe(false);
    expect(has(ball(0.79, 1.5))).toBe(true);
    expect(has(ball(0.4, (1.615 + 1) / 2))).toBe(false);
    // On to the far jamb at 1 m by both: legs of 0.5, 0.8 and 0.8 m, the second corner at 2 − 1.3/2.1 = 1.381 m.
    const twice = Math.sqrt(2.1 * 2.1 + 1);
    const still = (scene: Scene): boolean =>
      ways(under, RIGHT, built, scene).some((way) => Math.abs(way - twice) < 1e-9);
    expect(still(EMPTY)).toBe(true);
    expect(still(ball(0.01, 1.381))).toBe(false);
    expect(still(ball(0.01, 1.5))).toBe(true);
  });

  test('from another frame only straight', () => {
    const beyond: Mounted = { ...RIGHT, at_m: 0.5, turn_deg: -20 };
    expect(ways(beyond, LEFT, {}, EMPTY, false)).toEqual([Math.sqrt(0.8 * 0.8 + 0.5 * 0.5)]);
    expect(ways(beyond, LEFT).length).toBeGreaterThan(1);
  });

  test('not from behind, nor at another frequency', () => {
    const listener = makeUltrasonic(placeOf({ mounting: RIGHT }));
    const heard = (source: BurstSource): number => {
      const out: number[] = [];
      listener.ear?.arrivals(source, EMPTY, 0, Infinity, out);
      return out.length;
    };
    const plain = sourceOf(placeOf({ mounting: LEFT }));
    const { from, to } = plain.axis;
    expect(heard(plain)).toBeGreaterThan(0);
    expect(heard({ ...plain, sameFrame: false, axis: { from, to: { ...to, x: -to.x } } })).toBe(0);
    expect(heard(sourceOf(placeOf({ mounting: LEFT, sensor: { frequency_khz: 41 } })))).toBeGreaterThan(0);
    expect(heard(sourceOf(placeOf({ mounting: LEFT, sensor: { frequency_khz: 58 } })))).toBe(0);
  });

  test('nothing is heard from further than farthest_m', () => {
    for (const threshold_db of [50, 68]) {
      const built = { sensor: { threshold_db, source_level_db: 120, bounce_loss_db: 0 } };
      const { ear } = makeUltrasonic(placeOf({ ...built, mounting: RIGHT }));
      const farthest = ear?.farthest_m(sourceOf(placeOf({ ...built, mounting: LEFT }))) ?? 0;
      const longest = Math.max(...ways(LEFT, RIGHT, built));
      expect(longest).toBeLessThan(farthest);
      // The next round is 1.6 m longer.
      expect(longest + 1.6).toBeGreaterThan(farthest);
    }
  });
});

test('what A hears of B is what B hears of A, when both are alike', () => {
  const mounting: fc.Arbitrary<Mounted> = fc.record({
    mount: fc.constantFrom('left-jamb', 'right-jamb'),
    height_m: fc.double({ min: 0.3, max: 1.8, noNaN: true }),
    at_m: fc.double({ min: -0.1, max: 0.1, noNaN: true }),
    tilt_deg: fc.double({ min: -30, max: 30, noNaN: true }),
    turn_deg: fc.double({ min: -20, max: 20, noNaN: true }),
  });
  const part = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
  const limb = fc.tuple(
    part(0.1, 0.7),
    part(-0.3, 0.3),
    part(0.1, 1.9),
    part(0.1, 0.7),
    part(-0.3, 0.3),
    part(0.1, 1.9),
    part(0.02, 0.1),
  );
  let ever = 0;
  fc.assert(
    fc.property(mounting, mounting, fc.array(limb, { maxLength: 4 }), (a, b, limbs) => {
      const scene = sceneOf(limbs, 0.3);
      const [there, back] = [ways(a, b, {}, scene), ways(b, a, {}, scene)];
      ever += there.length;
      expect(back.length).toBe(there.length);
      back.forEach((way, i) => expect(way).toBeCloseTo(there[i]!, 9));
    }),
    { seed: 5, numRuns: 60 },
  );
  expect(ever).toBeGreaterThan(40);
});
