/** One passage traced, against times worked out by hand. */
import { describe, expect, test } from 'vitest';
import type { PassageChoice, PassageTrace } from '../../src/simulate/traced.js';
import { tracePassage } from '../../src/simulate/passage-trace.js';
import { NoSuchPassage } from '../../src/simulate/traced.js';
import { type DoorChanges, ROD, doorDesign } from './designs.js';

const rodDoor = (changes: DoorChanges = {}) =>
  doorDesign({ walkers: ROD, height_m: 1, logics: '[four-level, first-broken]', ...changes });
const traceRod = (changes: DoorChanges = {}, choice: Partial<PassageChoice> = {}) =>
  tracePassage(rodDoor(changes), { who: 'rod', kind: 'through', ...choice });
const bitsAt = (trace: PassageTrace) => trace.inputs.map((input) => `${input.time_us / 1000} ${input.levels.join('')}`);

describe('a rod 0.30 m thick at 1 m/s, beams at −0.05 m and +0.05 m, zone from −1 m to +1 m', () => {
  // Its front is at −0.05 m after 1 − 0.15 − 0.05 = 0.8 s, its back 0.3 s later; B follows 0.1 s behind A.
  test('breaks A from 800 to 1,100 ms and B from 900 to 1,200 ms, crosses at 1 s, leaves at 2 s', () => {
    const [visit] = traceRod().visits;
    const inMs = visit!.true_breaks_us.map((breaks) => breaks.map((time) => time / 1000));
    for (const [i, [start, end]] of (
      [
        [800, 1100],
        [900, 1200],
      ] as const
    ).entries()) {
      expect(inMs[i]).toHaveLength(2);
      expect(inMs[i]![0]).toBeCloseTo(start, 1);
      expect(inMs[i]![1]).toBeCloseTo(end, 1);
    }
    expect(visit).toMatchObject({ enter_us: 0, cross_us: 1_000_000, leave_us: 2_000_000, persons: 1, speed_mps: 1 });
  });

  test('shows 10, 11, 01, 00 a response time later, and each logic its way to one forward tally', () => {
    const trace = traceRod({ sensor: '{ kind: light-barrier, response_ms: 5 }' });
    expect(trace.edges.map(({ beam, level }) => `${'AB'[beam]}${level}`)).toEqual(['A1', 'B1', 'A0', 'B0']);
    expect(trace.edges.map(({ time_us }) => Math.round(time_us / 1000))).toEqual([805, 905, 1105, 1205]);
    expect(trace.inputs.map(({ levels }) => levels.join(''))).toEqual(['10', '11', '01', '00']);
    const [fourLevel, firstBroken] = trace.logics;
    expect(fourLevel).toMatchObject({ logic: 'four-level', start: 'rest', of_nobody: 0 });
    expect(fourLevel!.steps.map((step) => step.state)).toEqual(['forward 1/4', 'forward 2/4', 'forward 3/4', 'rest']);
    expect(fourLevel!.steps.map((step) => step.tallies.length)).toEqual([0, 0, 0, 1]);
    expect(firstBroken!.steps.at(-1)).toMatchObject({ state: 'rest', tallies: ['forward'], timeout: false });
    for (const logic of trace.logics)
      expect(logic.verdicts).toEqual([{ forward: 1, backward: 0, nothing: 0, extra: 0, net: 1 }]);
  });

  test('going backward is the same picture with A and B swapped', () => {
    const trace = traceRod({}, { direction: 'backward' });
    expect(trace.inputs.map(({ levels }) => levels.join(''))).toEqual(['01', '11', '10', '00']);
    expect(trace.inputs.map((input) => input.time_us)).toEqual(traceRod().inputs.map((input) => input.time_us));
    expect(trace.logics[0]!.verdicts[0]).toMatchObject({ backward: 1, net: -1 });
  });

  test('read every 40 ms, changes are seen at the next read, all reads on one grid', () => {
    const trace = traceRod({ poll_ms: 40 });
    expect(trace.poll_ms).toBe(40);
    expect(bitsAt(trace).map((text) => text.split(' ')[1])).toEqual(['10', '11', '01', '00']);
    const first = trace.inputs[0]!.time_us;
    for (const [i, { time_us }] of trace.inputs.entries()) {
      expect((time_us - first) % 40_000).toBe(0);
      const late = time_us - trace.edges[i]!.time_us;
      expect(late).toBeGreaterThanOrEqual(0);
      expect(late).toBeLessThan(40_000);
    }
  });

  test('thinner than the spacing, the four-level walk misses it and first-broken order counts it', () => {
    const walkers = '{ rod: { kind: test-rod, diameter_m: 0.08, speed_mps: 1 } }';
    const trace = traceRod({ walkers });
    expect(trace.inputs.map(({ levels }) => levels.join(''))).toEqual(['10', '00', '01', '00']);
    expect(trace.logics[0]!.verdicts[0]).toMatchObject({ nothing: 1, forward: 0 });
    expect(trace.logics[1]!.verdicts[0]).toMatchObject({ nothing: 0, forward: 1 });
  });
});

describe('people', () => {
  const trace = (choice: Partial<PassageChoice>, changes: DoorChanges = {}) =>
    tracePassage(doorDesign({ height_m: 1.1, ...changes }), { who: 'adult', kind: 'through', ...choice });

  test('who turns back crosses nothing, and the four-level walk ends where it began', () => {
    for (let number = 1; number <= 10; number++) {
      const turned = trace({ kind: 'turn-back', number });
      expect(turned.visits[0]!.cross_us).toBeNull();
      // Deep enough beyond both beams it has counted one forward, and takes it back.
      const said = turned.logics[0]!.steps.flatMap((step) => step.tallies);
      expect([[], ['forward', 'backward']]).toContainEqual(said);
    }
  });

  test('an adult with an infant is two persons and one tally: one is missed', () => {
    const carrying = trace({ who: 'adult-with-infant' });
    expect(carrying.visits[0]!.persons).toBe(2);
    expect(carrying.logics[0]!.verdicts[0]).toMatchObject({ forward: 1, nothing: 1 });
  });

  test('two abreast are two visits under one clock', () => {
    const { visits } = trace({ kind: 'abreast' }, { width_m: 1.6 });
    expect(visits.map((visit) => visit.number)).toEqual([1, 2]);
    expect(visits[0]!.enter_us).toBe(0);
    expect(visits[1]!.enter_us).toBeLessThanOrEqual(300_000);
  });

  test('a number is always the same person, another number another one, whatever the beams', () => {
    expect(trace({ number: 7 })).toEqual(trace({ number: 7 }));
    const statures = [1, 2, 3, 4].map((number) => trace({ number }).visits[0]!.stature_m);
    expect(new Set(statures).size).toBe(4);
    const low = trace({ number: 3 }, { height_m: 0.2, poll_ms: 5 }).visits[0]!;
    expect({ ...low, true_breaks_us: [] }).toEqual({ ...trace({ number: 3 }).visits[0], true_breaks_us: [] });
  });
});

describe('what is not there is refused with a hint', () => {
  const refusal = (choice: Partial<PassageChoice>) => {
    try {
      tracePassage(rodDoor(), { who: 'rod', kind: 'through', ...choice });
    } catch (error) {
      if (error instanceof NoSuchPassage) return `${error.message}; ${error.hint}`;
    }
    return 'nothing was refused';
  };

  test.each([
    [{ door: 'frnt' }, 'there is no door "frnt"; did you mean "front"?'],
    [{ who: 'chidl' }, 'there is no walker "chidl"; did you mean "child"?'],
    [{ kind: 'linger' }, '"rod" is a test rod: it can only go through; kind: through'],
    [{ number: 0 }, 'there is no passage number 0; numbers go from 1 to 10000'],
    [{ number: 1.5 }, 'there is no passage number 1.5; numbers go from 1 to 10000'],
  ] as const)('%o', (choice, words) => {
    expect(refusal(choice)).toBe(words);
  });
});
