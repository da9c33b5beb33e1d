/** A metric measured from cells is the number that a run with the same replicates has in metrics.json. */
import { expect, test } from 'vitest';
import { DOOR_TARGETS, HOUSE_TARGETS, ROOM_TARGETS, findEstimate } from '../../../src/score/targets.js';
import { estimateOf, measureOf } from '../../../src/study/judge/measure.js';
import { cellOf } from '../../../src/study/cells/cell.js';
import { runReplicate } from '../../../src/simulate/replicate.js';
import { assemble } from '../../../src/simulate/simulate.js';
import { designOf } from '../studies.js';

const DESIGN = designOf(`format: 1
name: two doors
hours: 3
replicates: 4
rooms: [{ name: hall, people_at_start: 3 }, { name: kitchen }]
doors:
  - { name: front, from: outside, to: hall, width_m: 0.9, pair: { height_m: 0.9, spacing_m: 0.1 }, traffic: { arrivals_per_hour: 60 } }
  - { name: inner, from: hall, to: kitchen, width_m: 0.8, pair: { height_m: 0.4, spacing_m: 0.1 }, traffic: { arrivals_per_hour: 20 } }
`);
const RESULTS = [1, 2, 3, 4].map((number) => runReplicate(DESIGN, number, {}));
const METRICS = assemble(DESIGN, RESULTS, { closer: false }).metrics;
const CELLS = RESULTS.map(({ record }) => cellOf(record));
const NAMES = {
  doors: ['front', 'inner'],
  rooms: ['hall', 'kitchen'],
  logics: ['four-level', 'first-broken'],
  ledgers: ['raw', 'floor'],
  hours: 3,
};

/** Without a mean over replicates there is nothing to compare pair by pair. */
const NO_MEAN = ['first_wrong_h', 'drift_per_100.spread'];
const PATHS = [
  ...DOOR_TARGETS.flatMap((metric) => [
    `house.${metric}`,
    `doors.inner.${metric}`,
    `doors.front.first-broken.${metric}`,
  ]),
  ...HOUSE_TARGETS.flatMap((metric) => [`house.${metric}`, `house.first-broken.floor.${metric}`]),
  ...ROOM_TARGETS.flatMap((metric) => [`rooms.kitchen.${metric}`, `rooms.hall.first-broken.floor.${metric}`]),
];

test.each(PATHS.filter((path) => !NO_MEAN.some((end) => path.endsWith(end))))('%s', (path) => {
  const measure = measureOf(path, NAMES);
  if (typeof measure === 'string') throw new Error(measure);
  const found = estimateOf(
    measure,
    CELLS.map((cell) => measure.of(cell)),
  );
  expect(found).toEqual(findEstimate(METRICS, path));
});

test.each([
  ...PATHS.filter((path) => NO_MEAN.some((end) => path.endsWith(end))),
  'house.right',
  'rooms.*.exact_share',
  'rooms.attic.exact_share',
  'doors.inner.no-such.wrong_per_100',
])('%s is refused in words', (path) => {
  expect(typeof measureOf(path, NAMES)).toBe('string');
});
