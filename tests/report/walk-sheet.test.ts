/** The printed sheet: plain words for every kind of walk, and nothing of a stranger's in its markup. */
import { expect, test } from 'vitest';
import { PASSAGE_KINDS } from '../../src/agents/schema.js';
import type { WalkRow } from '../../src/score/walk-test/rows.js';
import { walkSheet } from '../../src/report/walk-sheet.js';
import { addsWords, kindOfWalk, walkWords, walkerWords } from '../../src/report/walk-words.js';
import { whoWords } from '../../src/report/words.js';
import { inventedDesign } from './fixture.js';

const row = (changes: Partial<WalkRow> = {}): WalkRow => ({
  number: 1,
  who: 'adult',
  kind: 'through',
  direction: 'backward',
  expected: { forward: 0, backward: 1 },
  stop_m: null,
  stay_s: null,
  back: false,
  ...changes,
});
const says = (changes: Partial<WalkRow>) => walkWords(row(changes)).replaceAll('\u00a0', ' ');

test('every kind that can be walked says something of its own', () => {
  const kinds = PASSAGE_KINDS.filter((kind) => kind !== 'swing');
  expect(new Set(kinds.map((kind) => says({ kind }))).size).toBeGreaterThanOrEqual(kinds.length - 1);
  expect(says({ kind: 'turn-back', stop_m: -0.46, stay_s: 1, back: true })).toBe(
    'walk in, stop 46 cm before the middle, stand 1 s, turn round, go back',
  );
  expect(says({ kind: 'linger', stop_m: 0.12, stay_s: 8 })).toBe(
    'walk in, stop 12 cm past the middle, stand 8 s, walk on through',
  );
  expect(says({ kind: 'linger', stop_m: 0, stay_s: 0 })).toBe(
    'walk in, stop in the middle, wait a moment, walk on through',
  );
});

test('who walks, and what a right counter adds', () => {
  expect(walkerWords(whoWords, row())).toBe('an adult');
  expect(walkerWords(whoWords, row({ who: 'cat', kind: 'at-heel' }))).toBe('somebody with cats');
  expect(kindOfWalk(whoWords, { who: 'adult', kind: 'linger' })).toBe('adults lingering');
  expect(addsWords(row())).toBe('+1 backward');
  expect(addsWords(row({ expected: { forward: 1, backward: 1 } }))).toBe('+1 forward, +1 backward');
  expect(addsWords(row({ expected: { forward: 0, backward: 0 } }))).toBe('nothing');
});

test('names of strangers stay text', () => {
  const design = { ...inventedDesign(), name: '<img src=x onerror=alert(1)>\u202e' };
  const door = { ...design.doors[0]!, name: '<u>', from: '"><script>' };
  const page = walkSheet({
    design,
    door,
    logic: '</style>',
    wait_s: 3,
    rows: [row({ who: '<i>' }), row({ direction: 'forward' })],
  });
  expect(page).not.toMatch(/<(?:img|u>|script|i>)|<\/style>(?!\n<\/head>)|\u202e/);
  expect(page).toContain('&lt;img src=x');
  expect(page).toContain('wait 3 seconds');
});

test('begins on the side one comes from', () => {
  const design = inventedDesign();
  const door = design.doors[0]!;
  const page = walkSheet({
    design,
    door,
    logic: 'four-level',
    wait_s: 3,
    rows: [row(), row({ number: 2, direction: 'forward' })],
  });
  const begins = [...page.matchAll(/<\/td><td>\u2068(\w+)\u2069<\/td><td>/g)].map(([, room]) => room);
  expect(begins).toEqual([door.to, door.from]);
});
