/** A tally that is late because the electronics are slow still belongs to whoever walked through. */
import { expect, test } from 'vitest';
import { parseScenario } from '../../src/scenario/parse.js';
import { plainRun } from './plain-run.js';

// A post 0.9 m thick at 1 m/s clears beam B at 0.5 m past the door plane; the sensor says so 0.9 s later, at 1.4 m. The
// zone ends at 0.8 m.
const slow = `format: 1
name: Slow electronics
hours: 0.5
replicates: 2
rooms: [{ name: hall }]
walkers: { post: { kind: test-rod, diameter_m: 0.9, speed_mps: 1 } }
sensors: { slow: { kind: light-barrier, response_ms: 900 } }
doors:
  - name: d
    from: outside
    to: hall
    width_m: 1
    zone_m: 0.8
    pair: { sensor: slow, height_m: 1, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 30, one_way: true, mix: [{ who: post, kind: through, share: 1 }] }
logics: [first-broken]
`;

test('a response time longer than the rest of the visit makes no tally nobody’s', () => {
  const { design } = parseScenario(slow, 'slow.yaml');
  const { metrics } = plainRun(design!);
  const door = metrics.doors[0]!;
  expect(door.tallies).toBeGreaterThan(10);
  const nobody = door.confusion.rows.indexOf('nobody');
  expect(door.confusion.counts[nobody]!.slice(0, 2)).toEqual([0, 0]);
});
