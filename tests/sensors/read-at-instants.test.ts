/** Two ways to ask the same sensors: reading levels at every poll is what polled inputs report. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { Inputs } from '../../src/sensors/inputs.js';
import { Barriers } from '../../src/sensors/light-barrier/barriers.js';
import { lightBarrierSchema } from '../../src/sensors/light-barrier/schema.js';

const beam = (name: string, index: number, y: number, spurious_per_hour: number) => ({
  name,
  index,
  line: { from: { x: 0, y, z: 1 }, to: { x: 0.9, y, z: 1 } },
  mount: 'left-jamb' as const,
  sensor: lightBarrierSchema.parse({ kind: 'light-barrier', spurious_per_hour, spurious_ms: 35, response_ms: 2 }),
});

test('a read at every poll of an hour sees what polled inputs report, noise and response time included', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 5, max: 90 }),
      fc.array(fc.tuple(fc.nat(59_000), fc.integer({ min: 1, max: 800 })), { maxLength: 12 }),
      fc.nat(1000),
      (poll_ms, breaks, seed) => {
        const make = () => {
          const barriers = new Barriers(
            [beam('A', 0, -0.05, 400), beam('B', 1, 0.05, 700)],
            Stream.root(String(seed)).child('door'),
          );
          const episodes = breaks
            .map(([start_ms, length_ms]) => ({ start: start_ms * 1000, end: (start_ms + length_ms) * 1000 }))
            .sort((a, b) => a.start - b.start);
          return { barriers, episodes };
        };
        const hour = 60_000_000;
        const controller = { name: 'c', poll_ms };
        const stream = Stream.root('controller');
        const phase = Math.floor(stream.at(0) * poll_ms * 1000);

        // Each break darkens A, and B a little later; breaks that overlap belong to one episode.
        const feed = (barriers: Barriers, before: (time: number) => void): void => {
          const { episodes } = make();
          for (let i = 0; i < episodes.length; ) {
            const group = [episodes[i]!];
            let end = group[0]!.end + 50_000;
            while (++i < episodes.length && episodes[i]!.start <= end) {
              group.push(episodes[i]!);
              end = Math.max(end, episodes[i]!.end + 50_000);
            }
            before(group[0]!.start);
            barriers.episode(
              group.map((one, visit) => ({
                visit,
                body: visit,
                breaks: [
                  [one.start, one.end],
                  [one.start + 40_000, one.end + 50_000],
                ],
              })),
            );
          }
          before(hour);
        };

        const reported: [number, number][] = [];
        const inputs = new Inputs(controller, stream, (time, mask) => reported.push([time, mask]));
        const one = make().barriers;
        feed(one, (time) => {
          for (const edge of one.edgesUntil(time)) inputs.edge(edge);
          inputs.settle(time);
        });

        const seen: [number, number][] = [];
        const other = make().barriers;
        let poll = phase;
        let last = 0;
        feed(other, (time) => {
          for (; poll < time; poll += poll_ms * 1000) {
            const mask = other.read(poll);
            if (mask !== last) seen.push([poll, mask]);
            last = mask;
          }
        });
        expect(seen).toEqual(reported.filter(([time]) => time < hour));
      },
    ),
    { seed: 11, numRuns: 40 },
  );
});
