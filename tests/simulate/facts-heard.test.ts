/** What facts say of bursts in the air against what the house's rangers really read, with nobody there. */
import { describe, expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { SECOND_US } from '../../src/engine/time.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import { deriveFacts } from '../../src/simulate/facts.js';
import { HouseRangers } from '../../src/simulate/house-rangers.js';

interface House {
  readonly mount: string;
  readonly controller: string;
  readonly spacing_m?: number;
}

function designOf({ mount, controller, spacing_m = 0.1 }: House): Design {
  const text = `format: 1
name: Idle
rooms: [{ name: hall }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair: { sensor: own, mount: ${mount}, height_m: 0.95, spacing_m: ${spacing_m} }
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }
sensors:
  own: { kind: ultrasonic-ranger, stray_share: 0, dropout_share: 0, switching: { nearer_than_m: 0.8 } }
controllers: [{ name: main, ${controller} }]
logics: [four-level]
`;
  const { design, issues } = parseScenario(text, 'idle.yaml');
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

interface Read {
  /** Micrometres. */
  last_um: number;
  /** Changes after the first second: an idle door's rounds are all alike by then. */
  changes: number;
}

/** What each beam reads in the end; readings are told when they differ from the one before. */
function readings(design: Design): Read[] {
  const read: Read[] = [0, 1].map(() => ({ last_um: NaN, changes: 0 }));
  const rangers = new HouseRangers(
    design,
    Stream.root('idle').child('replicate', '1'),
    {
      edge: () => {},
      reading: (_door, beam, time_us, distance_um) => {
        read[beam]!.last_um = distance_um;
        if (time_us > SECOND_US) read[beam]!.changes++;
      },
    },
    false,
  );
  rangers.until(5 * SECOND_US);
  return read;
}

const TOGETHER = 'turns: [[front.A, front.B]], cycle_ms: 60';
const APART = (cycle_ms: number) => `turns: [[front.A], [front.B]], cycle_ms: ${cycle_ms}`;

describe.each<House & { readonly title: string; readonly nearer: boolean }>([
  { title: 'face to face, one turn', mount: 'facing', controller: TOGETHER, nearer: true },
  { title: 'face to face, 0.5 m aside, one turn', mount: 'facing', spacing_m: 0.5, controller: TOGETHER, nearer: true },
  { title: 'side by side, one turn', mount: 'left-jamb', controller: TOGETHER, nearer: false },
  // 6 ms is a way of 2.06 m, and twice to and fro are 3.6 m: (3.6 − 2.06) / 2 = 0.77 m. It is heard: 37 dB over the
  // threshold at 1 m, less 20 lg 3.6 = 11 dB, three reflections of 6 dB and 1.3 dB/m of air, leave 3 dB.
  { title: 'side by side, turns of 6 ms', mount: 'left-jamb', controller: APART(6), nearer: true },
  // 8 ms is a way of 2.75 m: 2.7 m are past, and 4.5 m by four reflections, 13 + 24 + 6 dB, are too faint.
  { title: 'face to face, turns of 8 ms', mount: 'facing', controller: APART(8), nearer: false },
])('$title', ({ nearer, ...house }) => {
  const design = designOf(house);
  const facts = deriveFacts(design, { drawn: 20, crossings: 2 })[0]!;
  const read = readings(design);

  test.each([0, 1])('beam %i reads the nearest of its echo and what it hears', (beam) => {
    const name = `front.${facts.beams[beam]!.beam}`;
    const heard = facts.rangers!.heard.filter((one) => one.listener === name && one.nearer);
    const idle_m = facts.beams[beam]!.ranger!.idle!.reads_m;
    const expected_m = Math.min(idle_m, ...heard.map(({ reads_m }) => reads_m));
    const { last_um, changes } = read[beam]!;
    expect(changes).toBe(0);
    // Both are whole micrometres.
    expect(Math.abs(last_um / 1e6 - expected_m)).toBeLessThan(2e-6);
  });

  test(`${nearer ? 'a' : 'no'} caution`, () => {
    expect(facts.cautions.some(({ code }) => code === 'heard')).toBe(nearer);
  });
});
