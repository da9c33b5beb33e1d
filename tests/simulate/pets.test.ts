/** Pets in a whole run: which beams they break, what is tallied for them, and that nobody is owed for them. */
import { describe, expect, test } from 'vitest';
import { deriveFacts } from '../../src/simulate/facts.js';
import { silhouettes } from '../../src/simulate/silhouettes.js';
import { doorDesign } from './designs.js';
import { plainRun } from './plain-run.js';

const designOf = (who: string, height_m: number, kind: string) => ({
  ...doorDesign({ height_m, mix: `[{ who: ${who}, kind: ${kind}, share: 1 }]`, logics: '[first-broken]' }),
  replicates: 1,
});

/** What is tallied for pets, and how often each of both beams is broken for every pet that comes. */
function run(who: string, height_m: number, kind = 'through') {
  let visits = 0;
  let breaks = 0;
  const { metrics } = plainRun(designOf(who, height_m, kind), {
    passage: () => visits++,
    edge: (_, { level }) => (breaks += level === 1 ? 1 : 0),
  });
  const { confusion, ...door } = metrics.doors[0]!;
  const row = confusion.counts[confusion.rows.indexOf('pet')]!;
  const of = (column: string) => row[confusion.columns.indexOf(column as 'forward')] ?? 0;
  return {
    visits,
    breaks,
    door,
    invented: of('forward') + of('backward') + of('extra'),
    unseen: of('nothing'),
    others:
      confusion.counts.flat().reduce((sum: number, n) => sum + (n ?? 0), 0) -
      row.reduce((s: number, n) => s + (n ?? 0), 0),
  };
}

// common practice, no source: beams low in the frame count pets, beams at hip height see no cat, and a giant dog is as
// high as a child.
describe('a pair of beams', () => {
  test('at 0.15 m counts cats: tallies invented for a pet', () => {
    const { visits, invented, others } = run('cat', 0.15);
    expect(visits).toBeGreaterThan(100);
    expect(invented).toBeGreaterThan(0.5 * visits);
    expect(others).toBe(0);
  });

  test.each(['through', 'turn-back', 'linger'])('at 0.90 m sees no cat: %s', (kind) => {
    const { visits, breaks, invented, unseen } = run('cat', 0.9, kind);
    expect(visits).toBeGreaterThan(50);
    expect({ breaks, invented, unseen }).toEqual({ breaks: 0, invented: 0, unseen: visits });
  });

  test('at 0.60 m is broken by every giant dog, and by no small one', () => {
    const giants = run('dog-giant', 0.6);
    expect(giants.breaks).toBeGreaterThanOrEqual(2 * giants.visits);
    expect(giants.invented).toBeGreaterThan(0.5 * giants.visits);
    expect(run('dog-small', 0.6)).toMatchObject({ breaks: 0, invented: 0 });
  });

  test('a dog that sits in the doorway keeps a low beam broken for longer than one that passes', () => {
    const broken_s = (kind: string) => {
      let since = 0;
      let sum = 0;
      let visits = 0;
      plainRun(designOf('dog-large', 0.2, kind), {
        passage: () => visits++,
        edge: (_, { beam, level, time_us }) => {
          if (beam !== 0) return;
          if (level === 1) since = time_us;
          else sum += time_us - since;
        },
      });
      return sum / 1e6 / visits;
    };
    expect(broken_s('linger')).toBeGreaterThan(1.5 * broken_s('through'));
  });
});

test('nobody is owed for pets: a house with nothing but pets has no person-crossing', () => {
  const { door } = run('dog-large', 0.3);
  expect(JSON.stringify(door)).not.toContain('NaN');
  expect(door.person_crossings).toBe(0);
});

test('facts and pictures of a doorway know pets', () => {
  const design = designOf('dog-giant', 0.6, 'through');
  const [facts] = deriveFacts(design, { drawn: 100, crossings: 20 });
  const reach = facts!.beams[0]!.reach.find(({ who }) => who === 'dog-giant');
  expect(reach?.above).toEqual({ value: 1, n: 100 });
  const [picture] = silhouettes(design);
  expect(picture!.who).toBe('dog-giant');
  expect(picture!.is).toBe('pet');
  expect(Math.max(...picture!.capsules.map((c) => c.z1 + c.radius))).toBeGreaterThan(picture!.stature_m - 0.01);
});
