/** Pictures tell the truth: what crosses a beam's line on paper is what broke the beam. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Visit } from '../../../src/agents/visit.js';
import { sectionOf } from '../../../src/geometry/section.js';
import { breaksOf } from '../../../src/agents/motion/motion.js';
import type { Arrival } from '../../../src/simulate/parties.js';
import { bandsOf } from '../../../src/simulate/picture/bands.js';
import { mostTelling } from '../../../src/simulate/picture/choose.js';
import { pictureOfVisit, picturesOfWrong } from '../../../src/simulate/picture/look-closer.js';
import { NoSuchPassage } from '../../../src/simulate/traced.js';
import { mountedBeams } from '../../../src/simulate/plan.js';
import { runReplicate } from '../../../src/simulate/replicate.js';
import { axisPaths } from '../../../src/sensors/axis-paths.js';
import { doorDesign } from '../designs.js';

const MIX =
  '[{ who: adult, kind: through, share: 0.4 }, { who: child, kind: through, share: 0.2 }, { who: adult, kind: turn-back, share: 0.2 }, { who: adult, kind: reach, share: 0.2 }]';

function arrivedOf(design: ReturnType<typeof doorDesign>): Arrival[] {
  const all: Arrival[] = [];
  runReplicate(design, 1, {}, { watch: { visit: (visit, body, passage) => void all.push({ visit, body, passage }) } });
  return all;
}

describe('a section', () => {
  // A point of the line v = 0 is in it if and only if it is nearer to the capsule's axis than its radius.
  test('is where the line is nearer to the axis than the radius', () => {
    const coordinate = fc.double({ min: -1, max: 1, noNaN: true });
    const end = fc.record({ u: coordinate, v: coordinate });
    fc.assert(
      fc.property(end, end, fc.double({ min: 0.02, max: 0.5, noNaN: true }), coordinate, (a, b, reach, u) => {
        const along = { u: b.u - a.u, v: b.v - a.v };
        const square = along.u * along.u + along.v * along.v;
        const share = square === 0 ? 0 : Math.max(0, Math.min(1, ((u - a.u) * along.u - a.v * along.v) / square));
        const distance = Math.hypot(u - a.u - share * along.u, a.v + share * along.v);
        fc.pre(Math.abs(distance - reach) > 1e-9);
        const section = sectionOf(a, b, reach);
        const inside = section !== null && u > section[0] && u < section[1];
        expect(inside).toBe(distance < reach);
      }),
      { seed: 5, numRuns: 3000 },
    );
  });
});

describe('bands', () => {
  test.each([0.2, 0.95, 1.3])('at %s m cross a beam just when the beam is truly broken', (height_m) => {
    const design = { ...doorDesign({ mix: MIX, height_m }), hours: 0.5 };
    const door = design.doors[0]!;
    const mounted = mountedBeams(design, door);
    const paths = axisPaths(mounted);
    const step_us = 5000;
    let instants = 0;
    let apart = 0;
    for (const arrived of arrivedOf(design).slice(0, 25)) {
      const { visit, body, passage } = arrived;
      const steps = Math.floor((visit.leave_us - visit.enter_us) / step_us) + 1;
      const bands = bandsOf(arrived, paths[0]!, { start_us: visit.enter_us, step_us, steps });
      paths.forEach((path, b) => {
        const { line } = mounted[b]!;
        const at_mm = 500 * (line.from.y + line.to.y);
        const breaks: number[] = [];
        breaksOf(body, passage.motion, path.line, path.clearance, breaks);
        const broken = (seconds: number): boolean => {
          for (let i = 0; i < breaks.length; i += 2)
            if (seconds >= breaks[i]! && seconds <= breaks[i + 1]!) return true;
          return false;
        };
        for (let n = 0; n < steps; n++) {
          const crosses = bands.some(({ from, low_mm, high_mm }) => {
            const k = n - from;
            return k >= 0 && k < low_mm.length && low_mm[k]! <= at_mm && high_mm[k]! >= at_mm;
          });
          instants++;
          if (crosses !== broken((n * step_us) / 1e6)) apart++;
        }
      });
    }
    expect(instants).toBeGreaterThan(10_000);
    // Bands are in whole millimetres: at 1 m/s that is a millisecond at each end of a break.
    expect(apart / instants).toBeLessThan(0.003);
  });
});

describe('a picture of a visit', () => {
  const design = { ...doorDesign({ mix: MIX, logics: '[first-broken]' }), hours: 3, replicates: 2 };
  const tallies: { time_us: number; direction: string }[] = [];
  const visits: Visit[] = [];
  const edges: { time_us: number; beam: number }[] = [];
  const { wrong } = runReplicate(design, 2, {
    tally: (_, row) => void tallies.push(row),
    passage: (_, visit) => void visits.push(visit),
    edge: (_, row) => void edges.push(row),
  });
  const one = wrong.visits.find(({ kind }) => kind === 'turn-back')!;
  const picture = pictureOfVisit(design, { replicate: 2, number: one.number, logic: 0 });
  const start_us = one.enter_us - 150_000;

  test('shows the tallies and edges of the run at their times', () => {
    const end_us = start_us + picture.span_ms * 1000;
    const within = <T extends { time_us: number }>(rows: T[]): T[] =>
      rows.filter(({ time_us }) => time_us >= start_us && time_us <= end_us);
    const at = (time_us: number): number => Math.round((time_us - start_us) / 100) / 10;
    expect(picture.tallies).toEqual(
      within(tallies).map(({ time_us, direction }) => ({ at_ms: at(time_us), direction })),
    );
    for (const [b, { changes_ms }] of picture.beams.entries())
      expect(changes_ms).toEqual(
        within(edges)
          .filter(({ beam }) => beam === b)
          .map(({ time_us }) => at(time_us)),
      );
    expect(picture.tallies.length).toBeGreaterThan(0);
  });

  test('is about that visit, says what was wrong and why, and ends at rest', () => {
    expect(picture.bodies[0]).toMatchObject({ number: one.number, kind: 'turn-back', crosses: false });
    expect(picture).toMatchObject({ missed: one.missed, invented: one.invented, replicate: 2 });
    expect(picture.why?.how).toBeDefined();
    expect(picture.states.at(-1)?.label).toBe('rest');
  });

  test('can be of one that went right, and then has no cause', () => {
    const right = visits.find(({ number }) => wrong.visits.every((other) => other.number !== number))!;
    const shown = pictureOfVisit(design, { replicate: 2, number: right.number, logic: 0 });
    expect(shown).toMatchObject({ missed: 0, reversed: 0, extra: 0, invented: 0 });
    expect(shown.why).toBeUndefined();
  });

  test('of no visit is refused', () => {
    expect(() => pictureOfVisit(design, { replicate: 2, number: 99_999, logic: 0 })).toThrow(NoSuchPassage);
  });
});

describe('the most telling', () => {
  const design = { ...doorDesign({ mix: MIX, logics: '[first-broken]' }), hours: 6, replicates: 2 };

  test('are of different kinds first, and of the kinds there are', () => {
    const wrongs = [1, 2].map((number) => runReplicate(design, number, {}).wrong);
    const telling = mostTelling(wrongs, [], 4);
    const kinds = telling.map(({ like }) => like);
    expect(telling).toHaveLength(4);
    expect(kinds.slice(0, 2)).toEqual(kinds.slice(0, 2).toSorted((a, b) => b - a));
    expect(new Set(telling.slice(0, 2).map(({ number, replicate }) => `${replicate} ${number}`)).size).toBe(2);
    expect(mostTelling([{ visits: [], strays: [], all: [[0]] }], [], 12)).toEqual([]);
  });

  test('come out the same again, each with its cause', () => {
    const pictures = picturesOfWrong(design, 3);
    expect(pictures).toHaveLength(3);
    expect(picturesOfWrong(design, 3)).toEqual(pictures);
    for (const { why } of pictures) expect(why).toBeDefined();
  });
});
