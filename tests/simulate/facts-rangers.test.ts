/** Facts about rangers: each warning comes with its cause and goes when it is mended, by numbers worked out by hand. */
import jstat from 'jstat';
import { describe, expect, test } from 'vitest';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import type { DoorFacts, FactCaution } from '../../src/simulate/fact-types.js';
import { deriveFacts } from '../../src/simulate/facts.js';
import { heightLadder } from '../../src/simulate/ladder.js';
import type { RangerFacts } from '../../src/simulate/ranger-fact-types.js';

interface Changes {
  /** Keys of the sensor, as YAML. */
  readonly ultrasonic?: string;
  readonly triangulation?: string;
  readonly mount?: string;
  readonly spacing_m?: number;
  readonly height_m?: number;
  readonly width_m?: number;
  /** Keys of the one controller, as YAML. */
  readonly controller?: string;
  readonly air?: string;
  readonly walkers?: string;
  readonly mix?: string;
  readonly doors?: number;
}

const RODS = {
  walkers: '{ rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 1 } }',
  mix: '[{ who: rod, kind: through, share: 1 }]',
};

function design(changes: Changes = {}): Design {
  const { mount = 'left-jamb', spacing_m = 0.1, width_m = 0.9, controller = '', air = '', doors = 1 } = changes;
  const { height_m = 0.95 } = changes;
  const { walkers = RODS.walkers, mix = RODS.mix } = changes;
  const keys = changes.triangulation === undefined ? (changes.ultrasonic ?? '') : changes.triangulation;
  const kind = changes.triangulation === undefined ? 'ultrasonic-ranger' : 'triangulation-ranger';
  const height = mount === 'lintel' ? '' : `height_m: ${height_m}, `;
  const one = (n: number): string => `
  - name: door${n}
    from: outside
    to: hall
    width_m: ${width_m}
    jamb_depth_m: 1
    pair: { sensor: own, mount: ${mount}, ${height}spacing_m: ${spacing_m} }
    traffic: { arrivals_per_hour: 20, mix: ${mix} }`;
  return parsed(`format: 1
name: Rangers
rooms: [{ name: hall }]
doors:${Array.from({ length: doors }, (_, n) => one(n + 1)).join('')}
sensors: { own: { kind: ${kind}${keys ? `, ${keys}` : ''} } }
controllers: [{ name: main${controller ? `, ${controller}` : ''} }]
surroundings: { ${air} }
walkers: ${walkers}
logics: [four-level]
`);
}

function parsed(text: string): Design {
  const { design: made, issues } = parseScenario(text, 'door.yaml');
  if (!made) throw new Error(issues.map(formatIssue).join('\n'));
  return made;
}

const known = new Map<string, DoorFacts>();
function factsOf(changes: Changes = {}): DoorFacts {
  const key = JSON.stringify(changes);
  const facts = known.get(key) ?? deriveFacts(design(changes), { drawn: 300, crossings: 40 })[0]!;
  known.set(key, facts);
  return facts;
}
const rangerOf = (changes: Changes = {}): RangerFacts => factsOf(changes).beams[0]!.ranger!;
const pairOf = (changes: Changes = {}) => factsOf(changes).spacings[0]!;
const codes = (changes: Changes = {}) => factsOf(changes).cautions.map(({ code }) => code);
function cautionOf<C extends FactCaution['code']>(code: C, changes: Changes): FactCaution & { code: C } {
  const found = factsOf(changes).cautions.find((one) => one.code === code);
  if (!found) throw new Error(`no caution ${code} among ${codes(changes).join(', ')}`);
  return found as FactCaution & { code: C };
}

describe('how often a ranger is really read', () => {
  test('six, one after another, at a cycle of 60 ms: each every 360 ms, and what is done once a round on top', () => {
    const six = { doors: 3, controller: 'cycle_ms: 60' };
    expect(rangerOf(six).interval).toEqual({ idle_ms: 360, busiest_ms: 360 });
    expect(factsOf(six).rangers!.scan).toMatchObject({ rangers: 6, turns: 6, stretched: null });
    expect(rangerOf({ ...six, controller: 'cycle_ms: 60, per_round_ms: 40' }).interval.idle_ms).toBe(400);
  });

  test('with wait_ms it follows the echo: there and back over 0.9 m at 343.2 m/s is 5.245 ms', () => {
    const { idle_ms, busiest_ms } = rangerOf({ controller: 'wait_ms: 10, loop_ms: 0' }).interval;
    expect(idle_ms).toBeCloseTo(2 * (10 + (2000 * 0.9) / 343.2), 2);
    expect(busiest_ms).toBeCloseTo(2 * (10 + 38), 9);
  });

  test('a cycle is stretched by the serial line: 40 characters of 10 bits at 9600 Bd are 41.67 ms; and not without them', () => {
    const slow = { triangulation: '', controller: 'cycle_ms: 10, serial_characters: 40, serial_baud: 9600' };
    const caution = cautionOf('scan_stretched', slow);
    expect(caution.serial_ms).toBeCloseTo(41.667, 3);
    expect(caution.reading_ms + caution.loop_ms + caution.serial_ms).toBeCloseTo(caution.needs_ms, 9);
    expect(rangerOf(slow).interval.idle_ms).toBeCloseTo(2 * caution.needs_ms, 9);
    expect(codes({ triangulation: '', controller: 'cycle_ms: 10' })).not.toContain('scan_stretched');
  });

  test('a time-out longer than the cycle stretches it only when no echo comes: a fact, no caution', () => {
    const { scan } = factsOf().rangers!;
    expect(scan.stretched).toMatchObject({ always: false, needs_ms: 38.1, reading_ms: 38 });
    expect(scan.round).toEqual({ idle_ms: 60, busiest_ms: 76.2 });
    expect(codes()).not.toContain('scan_stretched');
    expect(factsOf({ ultrasonic: 'time_out_ms: 25' }).rangers!.scan.stretched).toBeNull();
  });
});

test('0.10 m read every 60 ms is sure up to 1.67 m/s: a third of speeds from 1 to 2 m/s; every 40 ms up to 2.5 m/s, all', () => {
  const walkers = '{ rod: { kind: test-rod, diameter_m: 0.3, speed_mps: 1, speed_to_mps: 2 } }';
  const { scan } = cautionOf('scan_slow', { walkers, controller: 'cycle_ms: 30' });
  expect(scan.sure_to_mps).toBeCloseTo(0.1 / 0.06, 9);
  expect(Math.abs(scan.unsure.value - 1 / 3)).toBeLessThan(4 * Math.sqrt(2 / 9 / scan.unsure.n));
  const quick = { walkers, controller: 'cycle_ms: 20', ultrasonic: 'time_out_ms: 25' };
  expect(pairOf(quick).scan).toMatchObject({ unsure: { value: 0 } });
  expect(codes(quick)).not.toContain('scan_slow');
});

describe('two cones that see the same', () => {
  const people = { walkers: '{}', mix: '[{ who: adult, kind: through, share: 1 }]' };

  test('overlap less the further apart they are, until it is no caution', () => {
    const overlaps = [0.1, 0.2, 0.3, 0.5].map((spacing_m) => pairOf({ ...people, spacing_m }).rangers!.overlap.value);
    expect(overlaps).toEqual(overlaps.toSorted((a, b) => b - a));
    expect(overlaps[0]!).toBeGreaterThan(0.5);
    expect(overlaps[3]!).toBeLessThan(overlaps[0]! / 2);
    expect(codes({ ...people, spacing_m: 0.1, controller: 'cycle_ms: 60' })).toContain('cones_overlap');
    expect(codes({ ...people, spacing_m: 0.5, controller: 'cycle_ms: 60' })).not.toContain('cones_overlap');
  });

  test('narrow spots share only what is thicker than their spacing: a rod of 0.04 m 1 cm from both, not 5 cm', () => {
    // Up to its switching point, 0.80 − 0.15 = 0.65 m to the rod's surface: 0.67 of 0.90 m.
    const near = pairOf({ triangulation: '', spacing_m: 0.02 }).rangers!;
    expect(near.overlap.value).toBeCloseTo(0.67 / 0.9, 1);
    expect(pairOf({ triangulation: '', spacing_m: 0.1 }).rangers!.overlap.value).toBe(0);
  });

  test('in one jamb the cones are the same, side by side: nobody breaks the further one first; across each other some do', () => {
    expect(pairOf(people).rangers!.wrong_order.value).toBe(0);
    expect(codes(people)).not.toContain('wrong_order');
    const across = { ...people, mount: 'interleaved' };
    expect(pairOf(across).rangers!.wrong_order.value).toBeGreaterThan(0.02);
    expect(codes(across)).toContain('wrong_order');
  });

  test('walkers of 1 m/s between thin axes 0.10 m apart begin 100 ms apart: within an interval of 120 ms, not of 60', () => {
    const at = (cycle_ms: number) =>
      pairOf({ triangulation: 'range_m: 2', controller: `cycle_ms: ${cycle_ms}` }).rangers!.same_scan.value;
    expect(at(60)).toBe(1);
    expect(at(30)).toBe(0);
  });
});

describe('the idle door', () => {
  test('a frame beyond the range is no background, within it is', () => {
    const far = { ultrasonic: 'range_m: 1', width_m: 1.2 };
    expect(cautionOf('no_background', far)).toMatchObject({ background: 'beyond', axis_m: 1.2, range_m: 1 });
    expect(rangerOf({ ultrasonic: 'range_m: 1.5', width_m: 1.2 })).toMatchObject({ background: 'seen' });
    expect(codes({ ultrasonic: 'range_m: 1.5', width_m: 1.2 })).not.toContain('no_background');
  });

  test('nor is one within the fold', () => {
    expect(cautionOf('no_background', { triangulation: 'fold_m: 0.95, range_m: 2' })).toMatchObject({
      background: 'too-near',
    });
    expect(codes({ triangulation: 'fold_m: 0.1, range_m: 2' })).not.toContain('no_background');
  });

  test('a switching point beyond what it reads is broken all the time, a nearer one is not', () => {
    const point = (nearer_than_m: number) => ({ ultrasonic: `switching: { nearer_than_m: ${nearer_than_m} }` });
    expect(cautionOf('idle_broken', point(0.95)).reads_m).toBeCloseTo(0.9, 3);
    expect(pairOf(point(0.95)).rangers).toBeNull();
    expect(codes(point(0.8))).not.toContain('idle_broken');
  });

  test('who walks through a beam that is always broken changes nothing: no depth, no break cut off', () => {
    const point = (nearer_than_m: number) => ({ ultrasonic: `switching: { nearer_than_m: ${nearer_than_m} }` });
    expect(pairOf(point(0.95)).depth_m).toBeNull();
    expect(factsOf(point(0.95)).zone.cut.value).toBe(0);
    expect(pairOf(point(0.8)).depth_m).not.toBeNull();
  });

  test('so is an idle door without echo where that means broken', () => {
    const silent = (no_echo: string) => ({ ultrasonic: `range_m: 0.5, switching: { no_echo: ${no_echo} }` });
    expect(cautionOf('idle_broken', silent('broken')).reads_m).toBeNull();
    expect(codes(silent('clear'))).not.toContain('idle_broken');
  });

  test('a margin that leaves nothing but the blind zone never breaks', () => {
    expect(cautionOf('never_broken', { ultrasonic: 'switching: { margin_m: 0.89 }' }).point_m).toBeCloseTo(0.01, 3);
    expect(rangerOf({ ultrasonic: 'switching: { margin_m: 0.89 }' }).crossings.ever.value).toBe(0);
    expect(codes()).not.toContain('never_broken');
  });

  test('a margin of three standard deviations breaks as often as the normal tail says; more samples mend it, or less noise', () => {
    const noise = (noise_m: number, samples = 1) => ({
      ultrasonic: `noise_m: ${noise_m}, noise_per_m: 0, switching: { margin_m: 0.15, minimum_samples: ${samples} }`,
    });
    const loud = rangerOf(noise(0.05));
    const tail = jstat.normal.cdf(-3, 0, 1);
    // The clock's tick, 0.17 mm, moves the limit by at most 0.004 standard deviations.
    expect(loud.noise_m!).toBeCloseTo(0.15, 3);
    expect(Math.abs(loud.noise_breaks / tail - 1)).toBeLessThan(0.02);
    expect(cautionOf('margin_noise', noise(0.05)).per_hour).toBeCloseTo((loud.noise_breaks * 3_600_000) / 60, 6);
    expect(rangerOf(noise(0.05, 2)).noise_breaks_per_hour).toBeCloseTo((loud.noise_breaks ** 2 * 3_600_000) / 60, 6);
    expect(codes(noise(0.05, 3))).not.toContain('margin_noise');
    expect(codes(noise(0.02))).not.toContain('margin_noise');
  });

  test('the median of three is past a point with 3p² − 2p³', () => {
    const median = rangerOf({
      ultrasonic: 'noise_m: 0.05, noise_per_m: 0, switching: { margin_m: 0.15, median_of: 3 }',
    });
    const p = median.noise_breaks;
    expect(median.noise_breaks_per_hour).toBeCloseTo(((3 * p ** 2 - 2 * p ** 3) * 3_600_000) / 60, 6);
  });

  test('who brushes past within a blind zone of 0.10 m breaks nothing; of 0.02 m hardly matters', () => {
    expect(cautionOf('near_gap', { ultrasonic: 'blind_m: 0.1' }).gap_m).toBeCloseTo(0.1, 2);
    expect(codes({ ultrasonic: 'blind_m: 0.02' })).not.toContain('near_gap');
  });

  test('so does who is nearer than the fold: 5 cm before a fold of 0.30 m reads like far behind it', () => {
    const folded = (fold_m: number) => ({ triangulation: `fold_m: ${fold_m}, range_m: 2` });
    expect(cautionOf('near_gap', folded(0.3)).gap_m).toBeGreaterThan(0.05);
    expect(cautionOf('near_gap', folded(0.3)).gap_m).toBeLessThan(0.3);
    expect(codes(folded(0.05))).not.toContain('near_gap');
  });

  test('air of 40 °C taken for 20 °C: 1 m reads √(293.15 / 313.15) m; what is learnt is learnt with it', () => {
    const air = 'temperature_c: 40';
    const fixed = (keys: string) => ({ air, ultrasonic: `${keys}switching: { nearer_than_m: 0.85 }` });
    const off = Math.sqrt(293.15 / 313.15) - 1;
    expect(rangerOf(fixed('')).air!.off_per_m).toBeCloseTo(off, 3);
    // 29 mm of the 50 mm to the switching point.
    expect(cautionOf('temperature', fixed('')).off_m).toBeCloseTo(0.9 * off, 3);
    expect(codes(fixed('assumed_temperature_c: 40, '))).not.toContain('temperature');
    // Of 20 mm it takes all: the idle door is broken, and that is why.
    const tight = { air, ultrasonic: 'switching: { nearer_than_m: 0.88 }' };
    expect(cautionOf('temperature', tight).margin_m).toBeCloseTo(0.02, 3);
    expect(codes(tight)).toContain('idle_broken');
    // A point behind the frame is wrong in any air.
    expect(codes({ air, ultrasonic: 'switching: { nearer_than_m: 0.95 }' })).not.toContain('temperature');
    expect(rangerOf({ air }).air!.off_per_m).toBeCloseTo(off, 3);
    expect(codes({ air })).not.toContain('temperature');
  });
});

describe('bursts that another ranger hears', () => {
  // Straight from jamb to jamb, 0.10 m aside: √(0.9² + 0.1²), taken for half of it.
  const way_m = Math.sqrt(0.9 ** 2 + 0.1 ** 2);
  const facing = (more: Changes = {}): Changes => ({ mount: 'facing', ...more });
  const together = 'turns: [[door1.A, door1.B]], cycle_ms: 60';
  const fixed = 'switching: { nearer_than_m: 0.8 }';

  test('face to face in one turn each takes the other for somebody half-way', () => {
    const { heard, others } = cautionOf('heard', facing({ controller: together, ultrasonic: fixed }));
    // And the other way round.
    expect(others).toBe(1);
    expect(heard).toMatchObject({ listener: 'door1.A', source: 'door1.B', when: 'same turn', breaks: true, share: 1 });
    expect(heard.way_m).toBeCloseTo(way_m, 6);
    expect(heard.reads_m).toBeCloseTo(way_m / 2, 3);
  });

  test('a learnt background is then that', () => {
    expect(cautionOf('heard', facing({ controller: together })).heard).toMatchObject({
      breaks: false,
      background: true,
    });
  });

  test('turns apart mend it, and so do frequencies apart', () => {
    expect(factsOf(facing({ controller: 'cycle_ms: 60', ultrasonic: fixed })).rangers!.heard).toEqual([]);
    const text = (b: string) => `format: 1
name: Frequencies
rooms: [{ name: hall }]
doors:
  - name: door1
    from: outside
    to: hall
    width_m: 0.9
    beams:
      - { name: A, sensor: low, at_m: -0.05, height_m: 0.95 }
      - { name: B, sensor: ${b}, at_m: 0.05, height_m: 0.95, mount: right-jamb }
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }
sensors: { low: { kind: ultrasonic-ranger }, high: { kind: ultrasonic-ranger, frequency_khz: 58 } }
controllers: [{ name: main, ${together} }]
logics: [four-level]
`;
    const heardWith = (b: string) => deriveFacts(parsed(text(b)), { drawn: 50, crossings: 5 })[0]!.rangers!.heard;
    expect(heardWith('low')).toHaveLength(2);
    expect(heardWith('high')).toEqual([]);
  });

  test('side by side in one jamb the other comes after one’s own echo: told, no caution', () => {
    const side: Changes = { controller: together };
    const { heard } = factsOf(side).rangers!;
    // There and back by the other jamb: √(1.8² + 0.1²).
    expect(heard[0]).toMatchObject({ nearer: false, breaks: false });
    expect(heard[0]!.way_m).toBeCloseTo(Math.sqrt(1.8 ** 2 + 0.1 ** 2), 6);
    expect(codes(side)).not.toContain('heard');
  });

  test('an earlier turn so short that its burst is still on the way', () => {
    // 6 ms is a way of 2.06 m: what goes twice to and fro, 3.6 m, comes 4.5 ms after the next turn's start.
    const hasty = { controller: 'turns: [[door1.A], [door1.B]], cycle_ms: 6', ultrasonic: `${fixed}` };
    const { heard } = factsOf(hasty).rangers!;
    for (const one of heard) expect(one.reads_m).toBeCloseTo((one.way_m - 0.3432 * one.earlier_ms!) / 2, 3);
    expect(heard.some(({ when, nearer }) => when === 'earlier turn' && nearer)).toBe(true);
    expect(factsOf({ ...hasty, controller: 'cycle_ms: 60' }).rangers!.heard).toEqual([]);
  });

  test('two doors side by side with a controller each drift: heard now and then', () => {
    const text = (second: string) => `format: 1
name: Two doors
rooms: [{ name: hall }]
doors:${['one', 'two']
      .map(
        (name, n) => `
  - name: ${name}
    from: outside
    to: hall
    width_m: 0.9
    at_m: { x: ${n * 1.2}, y: 0 }
    controller: ${name}
    beams:
      - { name: A, sensor: ${n === 0 ? 'own' : second}, at_m: 0, height_m: 0.95, mount: ${n === 0 ? 'left-jamb' : 'right-jamb'} }
      - { name: B, sensor: light-barrier, at_m: 0.05, height_m: 0.95 }
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }`,
      )
      .join('')}
sensors:
  own: { kind: ultrasonic-ranger, switching: { nearer_than_m: 0.8 } }
  other: { kind: ultrasonic-ranger, frequency_khz: 58 }
controllers: [{ name: one, cycle_ms: 60 }, { name: two, cycle_ms: 60 }]
logics: [four-level]
`;
    const heardWith = (second: string) =>
      deriveFacts(parsed(text(second)), { drawn: 50, crossings: 5 })[0]!.rangers!.heard;
    const [heard] = heardWith('own');
    expect(heard).toMatchObject({ source: 'two.A', when: 'other controller', nearer: true, breaks: true });
    // One way of 1.2 + 0.9 m: it breaks from the end of the ringing, 0.02 m, to 0.8 m; 2 · 0.78 / 343.2 s of every 60 ms.
    expect(heard!.way_m).toBeCloseTo(2.1, 6);
    expect(heard!.share).toBeCloseTo((2 * 0.78) / 343.2 / 0.06, 2);
    expect(heardWith('other')).toEqual([]);
  });
});

describe('who is seen', () => {
  const spot = 'range_m: 2, switching: { margin_m: 0.05 }';

  test('a rod of 0.3 m at 1 m/s stays 0.3 s in a thin axis: half are caught every 0.6 s, all every 60 ms', () => {
    const slow = { triangulation: spot, controller: 'cycle_ms: 300' };
    const { ever, read } = rangerOf(slow).crossings;
    expect(ever.value).toBe(1);
    // The spot adds at most its own width, 8 + 2 · 20 mm; steps of 10 ms a step.
    expect(read.value).toBeGreaterThan(0.3 / 0.6 - 0.02);
    expect(read.value).toBeLessThan(0.348 / 0.6 + 0.02);
    expect(codes(slow)).toContain('unseen');
    expect(rangerOf({ triangulation: spot }).crossings.read.value).toBe(1);
    expect(codes({ triangulation: spot })).not.toContain('unseen');
  });

  test('eight samples in a row at 60 ms are more than 0.3 s: caught by readings, never switched; two are not', () => {
    const samples = (n: number) => ({
      triangulation: `range_m: 2, switching: { margin_m: 0.05, minimum_samples: ${n} }`,
    });
    expect(rangerOf(samples(8)).crossings).toMatchObject({ read: { value: 1 }, broken: { value: 0 } });
    expect(codes(samples(8))).toContain('unseen');
    expect(factsOf(samples(2)).beams[0]).toMatchObject({ broken: { value: 1 }, breaks_per_crossing: 1 });
  });

  test('at the shin legs come one by one; a switch-off delay bridges them, and at the chest there is nothing to bridge', () => {
    const at = (height_m: number, off_delay_ms = 0): Changes => ({
      walkers: '{}',
      mix: '[{ who: adult, kind: through, share: 1 }]',
      triangulation: `range_m: 2, switching: { margin_m: 0.05, off_delay_ms: ${off_delay_ms} }`,
      height_m,
    });
    expect(cautionOf('flicker', at(0.2)).breaks).toBeGreaterThan(1.2);
    expect(codes(at(0.2, 600))).not.toContain('flicker');
    expect(codes(at(1.2))).not.toContain('flicker');
  });

  test('clothes that swallow 60 dB give no echo back, bare rods all of them', () => {
    // At 0.1 m: 105 − 68 dB over the threshold at 1 m, + 40 lg 10 = 40 dB nearer by, − 26 dB as even a wall has σ = R²/4
    // there: 51 dB. Further away it is less.
    const clothes = (db: number) => ({ ultrasonic: `clothing_least_db: ${db}, clothing_most_db: ${db}` });
    expect(cautionOf('echo_lost', clothes(60)).lost.value).toBeGreaterThan(0.99);
    expect(rangerOf(clothes(0)).crossings.lost.value).toBe(0);
    expect(codes(clothes(0))).not.toContain('echo_lost');
  });

  test('under the lintel heights of people are no fact of an axis, and what is seen agrees with what the ladder counts', () => {
    const children = { walkers: '{}', mix: '[{ who: child, kind: through, share: 1 }]', mount: 'lintel' };
    const made = design(children);
    const [beam] = deriveFacts(made, { drawn: 50, crossings: 200 })[0]!.beams;
    expect(beam).toMatchObject({ mount: 'lintel', reach: [], met: [], response: null });
    const [rung] = heightLadder(made, made.doors[0]!, { crossings: 200 });
    const counted = rung!.cells.find(({ who }) => who === 'child')!.breaks_per_crossing;
    const seen = beam!.broken.value;
    // Two samples of 200, of other children; the ladder's readings are noisy.
    expect(seen).toBeGreaterThan(0.5);
    expect(Math.abs(seen - counted)).toBeLessThan(4 * Math.sqrt((2 * seen * (1 - seen)) / 200) + 0.02);
  });

  test('nobody climbs the ladder before backgrounds are learnt: a rod that every reading catches is never missed', () => {
    // 100 readings of 120 ms are 12 s; without a rest the first of 20 rods would be taken for the frame.
    const made = design({ ultrasonic: 'switching: { learn_readings: 100 }', controller: 'cycle_ms: 60' });
    const [rung] = heightLadder(made, made.doors[0]!, { crossings: 20, heights_m: [0.95] });
    expect(rung!.cells.find(({ who }) => who === 'test rod')!.breaks_per_crossing).toBe(1);
  });
});

test.each(
  ['ultrasonic-ranger', 'triangulation-ranger', 'time-of-flight-ranger'].flatMap((kind) =>
    ['left-jamb', 'interleaved', 'facing', 'lintel'].map((mount) => [kind, mount] as const),
  ),
)('%s, %s: every number is one, every share lies between nothing and all', (kind, mount) => {
  const made = parsed(`format: 1
name: Kinds
rooms: [{ name: hall }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair: { sensor: ${kind}, mount: ${mount}, ${mount === 'lintel' ? '' : 'height_m: 0.95, '}spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }
logics: [four-level]
`);
  const facts = deriveFacts(made, { drawn: 20, crossings: 3 })[0]!;
  const numbers: number[] = [];
  const shares: number[] = [];
  JSON.stringify(facts, (key, value: unknown) => {
    if (typeof value === 'number') numbers.push(value);
    if (typeof value === 'number' && key === 'value') shares.push(value);
    return value;
  });
  expect(numbers.every(Number.isFinite)).toBe(true);
  expect(shares.every((share) => share >= 0 && share <= 1 + 1e-9)).toBe(true);
  for (const { ranger } of facts.beams) {
    const { ever, read, broken } = ranger!.crossings;
    expect(read.value).toBeLessThanOrEqual(ever.value + 1e-9);
    if (broken.value > 0) expect(ever.value).toBeGreaterThan(0);
  }
  expect(facts.spacings.map(({ spacing_m }) => spacing_m)).toEqual([0.1]);
});

test('barriers know nothing of all this', () => {
  const facts = deriveFacts(
    parsed(`format: 1
name: Barriers
rooms: [{ name: hall }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair: { height_m: 0.95, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 20, mix: [{ who: adult, kind: through, share: 1 }] }
logics: [four-level]
`),
    { drawn: 50, crossings: 5 },
  )[0]!;
  expect(facts.rangers).toBeNull();
  expect(facts.beams.map(({ ranger }) => ranger)).toEqual([null, null]);
  expect(facts.spacings[0]).toMatchObject({ scan: null, rangers: null });
});
