/** What a controller reads: turns of its rangers, pins that serve one sensor each, and enough of them. */
import { describe, expect, test } from 'vitest';
import { designOf, messages } from './helpers.js';

/** A front door with rangers A and B, a back door with a ranger A and a light barrier B. `controllers` is line 6. */
const house = (controllers: string, { back = '', frontA = '', frontB = '', backA = '' } = {}) => `format: 1
name: House
rooms:
  - name: hall
  - name: kitchen
controllers: ${controllers}
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    beams:
      - { name: A, sensor: ultrasonic-ranger, at_m: -0.05, height_m: 0.9${frontA} }
      - { name: B, sensor: ultrasonic-ranger, at_m: 0.05, height_m: 0.9${frontB} }
    traffic: { arrivals_per_hour: 12 }
  - name: back
    from: outside
    to: kitchen
    width_m: 0.9${back}
    beams:
      - { name: A, sensor: triangulation-ranger, at_m: -0.05, height_m: 0.9${backA} }
      - { name: B, sensor: light-barrier, at_m: 0.05, height_m: 0.9 }
    traffic: { arrivals_per_hour: 12 }
`;
const OTHER = { back: '\n    controller: other' };

test('the house has nothing wrong with it', () => {
  expect(messages(house('[{ name: main, turns: [[front.A, back.A], [front.B], [front.A]] }]'))).toEqual([]);
});

describe('turns', () => {
  test.each([
    ['front.C', '6:38: controllers.main.turns.1.1: there is no beam "front.C"\n  hint: did you mean "front.A"?'],
    [
      'hall.X9',
      '6:38: controllers.main.turns.1.1: there is no beam "hall.X9"\n  hint: there is front.A, front.B, back.A and back.B',
    ],
    [
      'back.B',
      '6:38: controllers.main.turns.1.1: "back.B" is a light barrier: it takes no turns\n  hint: light barriers are read all the time, or by poll_ms',
    ],
    [
      'front.A, back.A, front.A',
      '6:55: controllers.main.turns.1.3: "front.A" is in this turn already\n  hint: a ranger is read once a turn; another turn of the round may have it again',
    ],
  ])('%s', (turn, expected) => {
    expect(messages(house(`[{ name: main, turns: [[${turn}]] }]`))).toEqual([`s.yaml:${expected}`]);
  });
  test("another controller's ranger", () => {
    expect(messages(house('[{ name: main, turns: [[back.A]] }, { name: other }]', OTHER))).toEqual([
      's.yaml:6:38: controllers.main.turns.1.1: "back.A" is read by the controller "other", not by "main"\n' +
        "  hint: the door's key controller says who reads its beams",
    ]);
    expect(messages(house('[{ name: main }, { name: other, turns: [[back.A]] }]', OTHER))).toEqual([]);
  });
  test('a door that cannot be read is not missed', () => {
    expect(messages(house('[{ name: main, turns: [[front.Z]] }]').replace('name: front', 'name: 5'))).toHaveLength(1);
  });
  test('a pair is A and B', () => {
    const text = (turn: string) =>
      house(`[{ name: main, turns: [[${turn}]] }]`).replace(
        / {4}beams:\n(?: {6}-.*\n){2}/,
        '    pair: { sensor: ultrasonic-ranger, height_m: 1, spacing_m: 0.1 }\n',
      );
    expect(messages(text('front.B'))).toEqual([]);
    expect(messages(text('front.C'))).toHaveLength(1);
  });
  test('either a cycle or a wait', () => {
    expect(messages(house('[{ name: main, cycle_ms: 30, wait_ms: 5 }]'))).toEqual([
      's.yaml:6:43: controllers.main.wait_ms: expected either cycle_ms or wait_ms, found both\n' +
        '  hint: cycle_ms is from start to start of turns, wait_ms a pause between them',
    ]);
  });
  test('a renamed door is missed after --set', () => {
    const sets = ['doors.front.name=main-door'];
    expect(messages(house('[{ name: main, turns: [[front.A]] }]'), { sets })).toEqual([
      'after --set: controllers.main.turns.1.1: there is no beam "front.A"\n' +
        '  hint: there is main-door.A, main-door.B, back.A and back.B',
    ]);
  });
});

describe('pins', () => {
  test('each serves one sensor', () => {
    const twice = { frontA: ', pins: [2, 3]', frontB: ', pins: [3, 4]' };
    expect(messages(house('[{ name: main }]', twice))).toEqual([
      's.yaml:14:81: doors.front.beams.B.pins.1: pin 3 of the controller "main" serves "front.A" already\n  hint: each pin serves one sensor',
    ]);
    expect(messages(house('[{ name: main }]', { frontA: ', pins: [2, 2]' }))).toHaveLength(1);
    expect(messages(house('[{ name: main }]', { frontA: ', pins: [2, 3]', frontB: ', pins: [4, 5]' }))).toEqual([]);
  });
  test('another controller has pins of its own', () => {
    const options = { ...OTHER, frontA: ', pins: [2, 3]', backA: ', pins: [2]' };
    expect(messages(house('[{ name: main }, { name: other }]', options))).toEqual([]);
    expect(messages(house('[{ name: main }, { name: other }]', { ...options, back: '' }))).toHaveLength(1);
  });
  test('as many as the kind takes', () => {
    expect(messages(house('[{ name: main }]', { frontA: ', pins: [2]', backA: ', pins: [7, 8]' }))).toEqual([
      's.yaml:13:81: doors.front.beams.A.pins: expected 2 pins for a sensor of kind ultrasonic-ranger, found 1\n' +
        '  hint: one starts the burst, one listens for the echo',
      's.yaml:21:84: doors.back.beams.A.pins: expected 1 pin for a sensor of kind triangulation-ranger, found 2',
    ]);
  });
});

describe('enough of them', () => {
  test('digital pins: two for each ultrasonic ranger, one for a light barrier', () => {
    expect(messages(house('[{ name: main, digital_pins: 4 }]'))).toEqual([
      's.yaml:6:43: controllers.main.digital_pins: the controller "main" needs 5 digital pins, found 4: ' +
        '2 of ultrasonic-ranger take 4 and 1 of light-barrier takes 1\n' +
        '  hint: take fewer sensors, or a second controller for some of the doors',
    ]);
    expect(messages(house('[{ name: main, digital_pins: 5 }]'))).toEqual([]);
    expect(messages(house('[{ name: main, digital_pins: 4 }, { name: other }]', OTHER))).toEqual([]);
  });
  test('analogue inputs: one for each triangulation ranger', () => {
    expect(messages(house('[{ name: main, analogue_inputs: 0 }]'))[0]).toBe(
      's.yaml:6:46: controllers.main.analogue_inputs: the controller "main" needs 1 analogue input, found 0: ' +
        '1 of triangulation-ranger takes 1\n' +
        '  hint: take fewer sensors, or a second controller for some of the doors',
    );
  });
  test('a sensor that is set counts', () => {
    const text = house('[{ name: main, digital_pins: 5 }]');
    expect(messages(text, { sets: ['doors.back.beams.A.sensor=ultrasonic-ranger'] })[0]).toContain(
      'after --set: controllers.main.digital_pins: the controller "main" needs 7 digital pins, found 5',
    );
    expect(designOf(text, { sets: ['doors.*.beams.*.sensor=light-barrier'] }).doors).toHaveLength(2);
  });
});
