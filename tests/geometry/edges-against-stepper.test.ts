/**
 * The exact edge search against a stepper that knows nothing of it (stepper.ts): bodies of all ages, test rods, pets, every
 * passage, level and tilted beams at all heights, both directions. The seed is fixed, so the cases are always the same.
 *
 * - Every edge the stepper sees has an exact one in the same tenth of a millisecond (or within 10 µs of it), one to one.
 * - Every exact break or gap longer than 0.2 ms is seen by the stepper; a shorter one is looked for at every microsecond.
 *
 * The search says that it may drop a third crossing within one cell of its nodes. It happens to limbs that turn: a
 * break or gap of up to 5 ms, at most once in 10,000 edges, and nothing else is forgiven.
 */
import { describe, expect, test } from 'vitest';
import type { Body } from '../../src/agents/body.js';
import { breaksOf } from '../../src/agents/motion/motion.js';
import type { Opening, Passage } from '../../src/agents/motion/passage.js';
import { linger, through, turnBack } from '../../src/agents/motion/passage.js';
import { petLinger, petThrough, petTurnBack } from '../../src/agents/pets/passage.js';
import type { Walker } from '../../src/agents/schema.js';
import { drawBody } from '../../src/agents/walkers.js';
import { Stream } from '../../src/engine/stream.js';
import type { BeamLine } from '../../src/geometry/beam-line.js';
import type { Margin } from './stepper.js';
import { GRID_S, marginOf, steppedEdges } from './stepper.js';
import { howMany } from '../how-many.js';

const root = Stream.root('edges against the stepper');
const MANY = howMany(0.25, 10, 0.04);
const MICROSECOND = 1e-6;
/** What the search promises of an edge. */
const ACCURACY = 1e-5;

const people = (youngest: number, oldest: number, with_infant = false): Walker => ({
  kind: 'people',
  ages_y: [youngest, oldest],
  women_share: 0.5,
  with_infant,
});
const WALKERS: Readonly<Record<string, Walker>> = {
  adult: people(18, 90),
  child: people(4, 12),
  toddler: people(2, 4),
  'adult with infant': people(20, 45, true),
  rod: { kind: 'test-rod', diameter_m: 0.05, height_m: 1.2, speed_mps: 0.3, speed_to_mps: 4, persons: 1 },
  'small dog': { kind: 'dog', size: 'small' },
  'giant dog': { kind: 'dog', size: 'giant' },
  cat: { kind: 'cat' },
};
const PASSAGES = { through, 'turn back': turnBack, linger } as const;
const PET_PASSAGES = { through: petThrough, 'turn back': petTurnBack, linger: petLinger } as const;

interface Case {
  readonly body: Body;
  readonly passage: Passage;
  readonly line: BeamLine;
  readonly clearance: number;
}

/** Case `n` of a walker and a passage: body, opening, way and beam are all drawn. */
function drawn(who: string, kind: keyof typeof PASSAGES, n: number): Case {
  const chance = root.child(who, kind).nth(n);
  const draw = chance.child('case');
  const between = (i: number, low: number, high: number) => low + (high - low) * draw.at(i);
  const opening: Opening = { width_m: between(0, 0.6, 1.4), zone_m: between(1, 1, 1.4) };
  const body = drawBody(who, WALKERS[who] as Walker, n, opening, between(2, 0.5, 1.2), chance.child('body'));
  const passages = body.sort === 'pet' ? PET_PASSAGES : PASSAGES;
  const passage = passages[kind](body, opening, draw.at(3) < 0.5, chance.child('visit'));
  // Heights 0.03 to 1.8 m, more of them near the floor, where limbs are quick; a third tilted up to 17°, a third askew.
  const height = 0.03 + 1.77 * draw.at(4) * draw.at(5);
  const at = between(6, -0.3, 0.3);
  const sort = draw.at(7);
  const far = {
    y: sort < 1 / 3 ? between(8, -0.3, 0.3) : at,
    z: sort > 2 / 3 ? Math.max(0.02, height + opening.width_m * between(9, -0.3, 0.3)) : height,
  };
  const left = draw.at(10) < 0.5;
  return {
    body,
    passage,
    line: {
      from: { x: left ? 0 : opening.width_m, y: at, z: height },
      to: { x: left ? opening.width_m : 0, ...far },
    },
    clearance: between(11, -0.003, 0.003),
  };
}

/** What is wrong with the exact breaks in the stepper's eyes; nothing, as it should be, gives an empty list. */
function disagreements(exact: readonly number[], margin: Margin, until_s: number): Wrong[] {
  const wrong: Wrong[] = [];
  const stepped = steppedEdges(margin, until_s);
  const free = new Set(exact.keys());
  stepped.forEach((time, i) => {
    const partner = exact.findIndex(
      (edge, j) => free.has(j) && j % 2 === i % 2 && edge > time - GRID_S - ACCURACY && edge < time + ACCURACY,
    );
    if (partner >= 0) free.delete(partner);
    else wrong.push({ time, what: `stepper ${i % 2 ? 'clears' : 'breaks'}, no exact edge` });
  });
  // What is left over lies between two grid points.
  for (const j of free) {
    const short = [j - 1, j].find((k) => {
      const [start, end] = [exact[k], exact[k + 1]];
      return (
        start !== undefined &&
        end !== undefined &&
        end - start <= 2 * GRID_S &&
        confirmed(margin, start, end, k % 2 === 0)
      );
    });
    if (short === undefined) wrong.push({ time: exact[j] as number, what: `exact edge ${j}, nothing on the grid` });
  }
  return wrong;
}

interface Wrong {
  readonly time: number;
  readonly what: string;
}

/** One short break or gap that the stepper sees and the search doesn't. */
function isDropped(wrong: readonly Wrong[]): boolean {
  const [first, second] = wrong;
  if (wrong.length !== 2 || !first || !second) return false;
  return wrong.every(({ what }) => what.startsWith('stepper')) && second.time - first.time <= 5e-3;
}

/** A short break or gap is there if one of its own microseconds, or the middle of it, shows the state. */
function confirmed(margin: Margin, start: number, end: number, isBreak: boolean): boolean {
  for (let t = start; t < end; t += MICROSECOND) if (margin(t) < 0 === isBreak) return true;
  return margin((start + end) / 2) < 0 === isBreak;
}

const CASES: readonly [who: string, kind: keyof typeof PASSAGES, cases: number][] = [
  ['adult', 'through', 300],
  ['child', 'through', 200],
  ['toddler', 'through', 120],
  ['adult with infant', 'through', 80],
  ['rod', 'through', 100],
  ['adult', 'turn back', 120],
  ['child', 'turn back', 60],
  ['adult', 'linger', 60],
  ['child', 'linger', 30],
  ['small dog', 'through', 80],
  ['giant dog', 'through', 60],
  ['cat', 'through', 60],
  ['giant dog', 'turn back', 30],
  ['small dog', 'turn back', 30],
  ['cat', 'linger', 20],
  ['giant dog', 'linger', 20],
];

describe('exact edges against a 0.1 ms stepper', () => {
  let edges = 0;
  let dropped = 0;
  test.each(CASES)(
    '%s, %s',
    (who, kind, cases) => {
      for (let n = 0; n < cases * MANY; n++) {
        const { body, passage, line, clearance } = drawn(who, kind, n);
        const clearanceOf = () => clearance;
        const exact: number[] = [];
        breaksOf(body, passage.motion, line, clearanceOf, exact);
        const margin = marginOf(body, passage.motion, line, clearanceOf);
        const wrong = disagreements(exact, margin, passage.leave_s);
        if (isDropped(wrong)) dropped++;
        else expect(wrong, `${who} ${kind} case ${n}`).toEqual([]);
        edges += exact.length;
      }
    },
    600_000,
  );

  test('the cases have edges to disagree about', () => {
    expect(edges).toBeGreaterThan(3000 * MANY);
    expect(dropped).toBeLessThanOrEqual(edges / 10_000);
  });

  test('the stepper would notice: a break left out, moved by 0.2 ms, made up, or glued to the next', () => {
    const { body, passage, line } = drawn('adult', 'through', 3);
    const margin = marginOf(
      body,
      passage.motion,
      { ...line, from: { x: 0, y: 0, z: 0.15 }, to: { x: 1, y: 0, z: 0.15 } },
      () => 0,
    );
    const exact: number[] = [];
    breaksOf(body, passage.motion, { from: { x: 0, y: 0, z: 0.15 }, to: { x: 1, y: 0, z: 0.15 } }, () => 0, exact);
    expect(exact.length).toBeGreaterThanOrEqual(4);
    expect(disagreements(exact, margin, passage.leave_s)).toEqual([]);
    const [a, b, c, d] = exact as [number, number, number, number];
    for (const spoiled of [
      [c, d],
      [a + 2e-4, b, c, d],
      [a, d],
      [0.001, 0.0011, ...exact],
      [a, (a + b) / 2, (a + b) / 2 + 1e-5, b, c, d],
    ])
      expect(disagreements(spoiled, margin, passage.leave_s)).not.toEqual([]);
  });
});
