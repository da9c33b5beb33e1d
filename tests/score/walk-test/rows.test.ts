/** The walks of a plan, row by row. */
import { expect, test } from 'vitest';
import { Stream } from '../../../src/engine/stream.js';
import { type WalkRow, walkRows } from '../../../src/score/walk-test/rows.js';

const one = { forward: { forward: 1, backward: 0 }, backward: { forward: 0, backward: 1 } };
const two = { forward: { forward: 2, backward: 0 }, backward: { forward: 0, backward: 2 } };
const none = { forward: { forward: 0, backward: 0 }, backward: { forward: 0, backward: 0 } };
const KINDS = [
  { kind: { who: 'adult', kind: 'through', crosses: one }, walks: 40 },
  { kind: { who: 'adult', kind: 'turn-back', crosses: none }, walks: 30 },
  { kind: { who: 'adult', kind: 'linger', crosses: one }, walks: 20 },
  { kind: { who: 'adult', kind: 'reach', crosses: none }, walks: 6 },
  { kind: { who: 'carer', kind: 'through', crosses: two }, walks: 10 },
] as const;
const rowsOf = (seed: string) => walkRows(KINDS, Stream.root(seed));
const rows = rowsOf('1');

test('as many of each kind as planned, half of them each way, numbered from 1', () => {
  expect(rows.map(({ number }) => number)).toEqual(rows.map((_, i) => i + 1));
  for (const { kind, walks } of KINDS) {
    const own = rows.filter((row) => row.who === kind.who && row.kind === kind.kind);
    expect(own).toHaveLength(walks);
    expect(own.filter(({ direction }) => direction === 'forward')).toHaveLength(walks / 2);
  }
});

test('the order is drawn: the same seed the same, another another', () => {
  expect(rowsOf('1')).toEqual(rows);
  expect(rowsOf('2')).not.toEqual(rows);
  // All kinds come early and late.
  const half = rows.slice(0, rows.length / 2).filter(({ kind }) => kind === 'turn-back').length;
  expect(half).toBeGreaterThan(7);
  expect(half).toBeLessThan(23);
});

test('each begins on the side where the one before of the same walker ended', () => {
  for (const who of ['adult', 'carer']) {
    const own = rows.filter((row) => row.who === who);
    const turns = own.slice(1).filter((row, i) => row.direction !== sideAfter(own[i]!));
    // At the very end one side may have run out.
    expect(turns.length).toBeLessThanOrEqual(own.length / 10);
  }
});

function sideAfter({ direction, back }: WalkRow): string {
  return back ? direction : direction === 'forward' ? 'backward' : 'forward';
}

test('a right counter adds who goes through, and nothing for who goes back', () => {
  for (const { who, kind, direction, back, expected } of rows) {
    const persons = back || kind === 'turn-back' || kind === 'reach' ? 0 : who === 'carer' ? 2 : 1;
    expect(expected[direction]).toBe(persons);
    expect(expected.forward + expected.backward).toBe(persons);
  }
});

test('places to stop are spread over all that the prediction takes them from', () => {
  const depths = rows.filter(({ kind }) => kind === 'turn-back').map(({ stop_m }) => stop_m!);
  // passage.turn_back.depth: −0.7 to 0.4 m.
  expect(Math.min(...depths)).toBeLessThan(-0.6);
  expect(Math.max(...depths)).toBeGreaterThan(0.3);
  expect(depths.every((depth) => depth >= -0.7 && depth <= 0.4)).toBe(true);
  const lingering = rows.filter(({ kind }) => kind === 'linger');
  // passage.linger.returns: three in ten go back.
  expect(lingering.filter(({ back }) => back)).toHaveLength(6);
  expect(rows.filter(({ kind }) => kind === 'through').every(({ stop_m }) => stop_m === null)).toBe(true);
});
