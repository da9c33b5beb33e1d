/** Bursts across a room: two doors on the plan, and what a ranger in one takes from a ranger in the other. */
import { expect, test } from 'vitest';
import { Stream } from '../../src/engine/stream.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import { HouseRangers } from '../../src/simulate/house-rangers.js';

/** Where door two must be for its ranger to lie 2 m along the axis of door one's, which is turned by 50°. */
const ALONG = { x: -0.45 + 2 * Math.cos((50 * Math.PI) / 180) - 0.45, y: 2 * Math.sin((50 * Math.PI) / 180) };
const FACING = `at_m: { x: ${ALONG.x}, y: ${ALONG.y} }`;
const FAR_AWAY = 'at_m: { x: 900, y: 0 }';

/**
 * Two doors, each with one ranger turned out of its door plane by 50°, towards the other's; both fired in one turn. So
 * far out of the door plane the far jamb's echo is lost.
 */
function house(place: string, rooms = ['hall', 'outside']): Design {
  const door = (name: string, [from, to]: readonly string[], at: string): string => `
  - name: ${name}
    from: ${from}
    to: ${to}
    width_m: 0.9
    ${at}
    beams:
      - { name: A, sensor: sound, at_m: 0, height_m: 1, turn_deg: ${name === 'one' ? 50 : -50}, mount: ${name === 'one' ? 'left' : 'right'}-jamb }
      - { name: B, sensor: light-barrier, at_m: 0.05, height_m: 1 }
    traffic: { arrivals_per_hour: 0.1, one_way: true, forward_share: 0, mix: [{ who: adult, kind: through, share: 1 }] }`;
  const text = `format: 1
name: Two doors
hours: 0.1
rooms: [{ name: hall, people_at_start: 1 }, { name: yard, people_at_start: 1 }, { name: loft, people_at_start: 1 }]
doors:${door('one', ['hall', 'outside'], 'at_m: { x: 0, y: 0 }')}${door('two', rooms, place)}
sensors: { sound: { kind: ultrasonic-ranger } }
controllers: [{ name: main, cycle_ms: 100, turns: [[one.A, two.A]] }]
logics: [first-broken]
`;
  const { design, issues } = parseScenario(text, 'house.yaml');
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

/** First readings of door one's ranger and door two's, metres; null without echo. */
function idle(design: Design): (number | null)[] {
  const seen: (number | null | undefined)[] = [undefined, undefined];
  const rangers = new HouseRangers(design, Stream.root('idle').child('replicate', '1'), {
    edge: () => {},
    reading: (door, _beam, _time, distance_um) => (seen[door] ??= distance_um < 0 ? null : distance_um / 1e6),
  });
  rangers.until(2_000_000);
  return seen as (number | null)[];
}

test('a ranger in another door is heard over the straight way, half as far away as it is', () => {
  expect(idle(house(FAR_AWAY))).toEqual([null, null]);
  const [one, two] = idle(house(FACING));
  expect(one).toBeCloseTo(1, 3);
  expect(two).toBeCloseTo(1, 3);
});

test('not when the doors share no room, outside being one, nor without a place on the plan', () => {
  expect(idle(house(FACING, ['yard', 'loft']))).toEqual([null, null]);
  const { at_m: _, ...second } = house(FACING).doors[1]!;
  const nowhere = house(FACING);
  expect(idle({ ...nowhere, doors: [nowhere.doors[0]!, second] })).toEqual([null, null]);
});

test('facing_deg turns a door about its middle: the same two doors turned together hear the same', () => {
  // Turned by 90° to the right, what was ahead of door one is to the right of it, what was to the right is below.
  const design = house(FACING);
  const turned: Design = {
    ...design,
    doors: design.doors.map((door) => ({
      ...door,
      facing_deg: 90,
      at_m: { x: door.at_m!.y, y: -door.at_m!.x },
    })),
  };
  idle(turned).forEach((seen, i) => expect(seen).toBeCloseTo(idle(design)[i]!, 4));
  // One of them turned alone looks elsewhere.
  const one: Design = { ...design, doors: [design.doors[0]!, { ...design.doors[1]!, facing_deg: 90 }] };
  expect(idle(one)).not.toEqual(idle(design));
});
