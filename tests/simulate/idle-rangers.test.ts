/** A day in which every scan is read, against the same day with its quiet time jumped: the same readings, the same edges. */
import { describe, expect, test } from 'vitest';
import { Crowd } from '../../src/agents/crowd.js';
import { Stream } from '../../src/engine/stream.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import { HouseRangers, LAST_US } from '../../src/simulate/house-rangers.js';
import { clockOf, crowdPlan } from '../../src/simulate/plan.js';
import { howMany } from '../how-many.js';

const HOURS = howMany(0.5, 4);

interface House {
  readonly sensors: string;
  readonly controllers: string;
  /** Beams of the front and of the back door, as YAML. */
  readonly front: string;
  readonly back?: string;
}

function design({ sensors, controllers, front, back }: House): Design {
  const door = (name: string, controller: string, x: number, beams: string): string => `
  - name: ${name}
    from: outside
    to: hall
    width_m: 0.9
    at_m: { x: ${x}, y: 0 }
    controller: ${controller}
    ${beams}
    traffic:
      arrivals_per_hour: 30
      stay_mean_min: 3
      mix:
        - { who: adult, kind: through, share: 0.6 }
        - { who: child, kind: turn-back, share: 0.2 }
        - { who: adult, kind: linger, share: 0.2 }`;
  const text = `format: 1
name: Rangers all day
hours: ${HOURS}
rooms: [{ name: hall }]
doors:${door('front', 'one', 0, front)}${back ? door('back', back.includes('#other') ? 'two' : 'one', 1.2, back) : ''}
sensors: ${sensors}
controllers: ${controllers}
logics: [four-level]
`;
  const { design: parsed, issues } = parseScenario(text, 'day.yaml');
  if (!parsed) throw new Error(issues.map(formatIssue).join('\n'));
  return parsed;
}

/** Everything that is told of one replicate, as lines of CSV, and how many readings were taken for it. */
function day(house: Design, jumps: boolean): { text: string; edges: number } {
  const stream = Stream.root('a day').child('replicate', '1');
  const lines: string[] = [];
  let edges = 0;
  const rangers = new HouseRangers(
    house,
    stream,
    {
      edge: (door, beam, time_us, level) => {
        edges++;
        lines.push(`edge,${door},${beam},${time_us},${level}`);
      },
      reading: (door, beam, time_us, distance_um) => lines.push(`reading,${door},${beam},${time_us},${distance_um}`),
    },
    jumps,
  );
  const crowd = new Crowd(crowdPlan(house), stream.child('crowd'));
  crowd.run((visit, body, passage) => {
    rangers.until(visit.enter_us);
    rangers.visit(visit.door, visit, body, passage);
  });
  rangers.until(clockOf(house) + 60_000_000 + LAST_US);
  return { text: lines.join('\n'), edges };
}

const ULTRASONIC = '{ kind: ultrasonic-ranger, stray_share: 0.001, dropout_share: 0.0005 }';
const FAINT = '{ kind: ultrasonic-ranger, noise_m: 0.045, switching: { median_of: 3, off_delay_ms: 200 } }';
const INFRARED = '{ kind: triangulation-ranger, range_m: 1.2, stray_share: 0.0005 }';
const LIGHT = '{ kind: time-of-flight-ranger, timing_budget_ms: 20, switching: { minimum_samples: 2, no_echo: keep } }';
const ALL = `{ sound: ${ULTRASONIC}, faint: ${FAINT}, infrared: ${INFRARED}, light: ${LIGHT} }`;
const pair = (sensor: string, more = '') => `pair: { sensor: ${sensor}, height_m: 0.95, spacing_m: 0.1${more} }`;

const HOUSES: readonly (readonly [string, House])[] = [
  [
    'two ultrasonic doors on one controller, turn by turn',
    {
      sensors: ALL,
      controllers: '[{ name: one, cycle_ms: 20 }]',
      front: pair('sound'),
      back: pair('sound', ', mount: interleaved'),
    },
  ],
  [
    'noise that breaks an idle beam now and then, at a pace that follows the echo',
    { sensors: ALL, controllers: '[{ name: one, wait_ms: 12, per_round_ms: 4 }]', front: pair('faint') },
  ],
  [
    'bursts fired together, which hear each other',
    {
      sensors: ALL,
      controllers: '[{ name: one, cycle_ms: 25, turns: [[front.A, front.B]] }]',
      front: pair('sound', ', mount: facing'),
    },
  ],
  [
    'two controllers out of step, whose doors share a room',
    {
      sensors: ALL,
      controllers: '[{ name: one, cycle_ms: 31 }, { name: two, cycle_ms: 23 }]',
      front: pair('sound'),
      back: `${pair('sound')} #other`,
    },
  ],
  [
    'a triangulation pair, and a time-of-flight pair under the lintel',
    {
      sensors: ALL,
      controllers: '[{ name: one, cycle_ms: 17, serial_characters: 8 }]',
      front: pair('infrared'),
      back: 'pair: { sensor: light, spacing_m: 0.2, mount: lintel }',
    },
  ],
  [
    'two kinds in one pair',
    {
      sensors: ALL,
      controllers: '[{ name: one, cycle_ms: 30 }]',
      front:
        'beams: [{ name: A, sensor: sound, at_m: -0.05, height_m: 0.95 }, { name: B, sensor: infrared, at_m: 0.05, height_m: 1.1, tilt_deg: -8 }]',
    },
  ],
];

describe('quiet time is jumped over whole rounds', () => {
  test.each(HOUSES)('%s: byte for byte what reading every scan gives', (_, house) => {
    const one = design(house);
    const jumped = day(one, true);
    expect(jumped.edges).toBeGreaterThan(10);
    expect(jumped.text).toBe(day(one, false).text);
  });
});
