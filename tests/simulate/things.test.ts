/** Doorways with things in them, counted by beams: what the trade knows of them, without a source. */
import { describe, expect, test } from 'vitest';
import type { Visit } from '../../src/agents/visit.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import { plainRun } from './plain-run.js';

interface Changes {
  readonly mix: string;
  readonly height_m?: number;
  readonly beams?: string;
  readonly door?: string;
  readonly per_hour?: number;
  readonly logic?: string;
  readonly hours?: number;
}

function textOf({
  mix,
  height_m = 0.9,
  beams,
  door = '',
  per_hour = 40,
  logic = 'four-level',
  hours = 8,
}: Changes): string {
  const sensors = beams ?? `pair: { sensor: barrier, height_m: ${height_m}, spacing_m: 0.1 }`;
  return `format: 1
name: Things
replicates: 2
hours: ${hours}
rooms: [{ name: hall }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    ${door}
    ${sensors}
    traffic: { arrivals_per_hour: ${per_hour}, one_way: true, mix: ${mix} }
sensors: { barrier: { kind: light-barrier, response_ms: 0 } }
logics: [${logic}]
`;
}

function run(changes: Changes) {
  const { design, issues } = parseScenario(textOf(changes), 'things.yaml');
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  const visits: Visit[] = [];
  const edges: { beam: number; time_us: number; level: 0 | 1 }[] = [];
  const tallies: number[] = [];
  const { metrics } = plainRun(design, {
    passage: (replicate, visit) => void (replicate === 1 && visits.push(visit)),
    edge: (replicate, edge) => void (replicate === 1 && edges.push(edge)),
    tally: (replicate, { time_us }) => void (replicate === 1 && tallies.push(time_us)),
  });
  return { metrics, visits, edges, tallies, door: metrics.doors[0]! };
}

describe('common practice, no source', () => {
  test('a wheelchair and who pushes it are two persons and count as one at 0.9 m', () => {
    const { door, visits, tallies } = run({ mix: '[{ who: wheelchair-pushed, kind: through, share: 1 }]' });
    expect(visits.length).toBeGreaterThan(200);
    expect(new Set(visits.map(({ persons }) => persons))).toEqual(new Set([2]));
    // One tally a passage, or hardly more: half of the persons are missed.
    expect(tallies.length / visits.length).toBeGreaterThan(0.9);
    expect(tallies.length / visits.length).toBeLessThan(1.2);
    expect(door.missed_per_100.value).toBeGreaterThan(40);
    expect(door.missed_per_100.value).toBeLessThan(55);
  });

  test('a robot vacuum passes under beams at 0.9 m; at 0.05 m it is counted, and it is nobody', () => {
    const mix = '[{ who: robot-vacuum, kind: through, share: 0.5 }, { who: adult, kind: through, share: 0.5 }]';
    const high = run({ mix });
    const robots = high.visits.filter(({ who }) => who === 'robot-vacuum');
    expect(robots.length).toBeGreaterThan(50);
    expect(robots.every(({ sort, persons }) => sort === 'thing' && persons === 0)).toBe(true);
    expect(high.tallies.length).toBe(high.visits.length - robots.length);
    const low = run({
      mix: '[{ who: robot-vacuum, kind: through, share: 1 }]',
      height_m: 0.05,
      per_hour: 4,
      hours: 24,
    });
    expect(low.tallies.length).toBe(low.visits.length);
  });
});

/** A pair of beams at two places along the walk, straight across. */
const beamsAt = (a: number, b: number): string =>
  `beams: [{ name: A, sensor: barrier, at_m: ${a}, height_m: 0.9 }, { name: B, sensor: barrier, at_m: ${b}, height_m: 0.9 }]`;
const ADULTS = '[{ who: adult, kind: through, share: 1 }]';
const SELF_CLOSING = 'leaf: { opens: forward, shut_share: 1 }';

describe('a leaf that shuts by itself (common practice, no source)', () => {
  // The edge of the leaf meets A first: whoever judges by the first beam broken takes it for somebody.
  const swept = run({
    mix: ADULTS,
    door: SELF_CLOSING,
    beams: beamsAt(0.1, 0.2),
    per_hour: 15,
    logic: 'first-broken',
  });
  const behind = run({ mix: ADULTS, door: SELF_CLOSING, beams: beamsAt(-0.05, 0.01), per_hour: 15 });
  const swings = ({ visits }: typeof swept) => visits.filter(({ kind }) => kind === 'swing');

  test('swings past beams on its side, and each time they are counted it is a thing: nobody went through', () => {
    expect(swings(swept).length).toBeGreaterThan(80);
    for (const { who, sort, persons, cross_us, entry } of swings(swept))
      expect([who, sort, persons, cross_us, entry]).toEqual(['leaf', 'thing', 0, null, -1]);
    const kinds = swept.door.by_kind.filter(({ who }) => who === 'leaf');
    expect(kinds).toHaveLength(1);
    expect(kinds[0]!.invented).toBeGreaterThan(0);
    expect(kinds[0]!.person_crossings).toBe(0);
    const { rows, counts } = swept.door.confusion;
    const said = counts[rows.indexOf('thing')]!.map(Number);
    expect(said[0]! + said[1]! + said[3]!).toBe(kinds[0]!.invented);
  });

  test('leaves beams on the other side of it alone: everybody is counted once and nobody else', () => {
    expect(swings(behind).length).toBeGreaterThan(80);
    expect(behind.door.by_kind.find(({ who }) => who === 'leaf')).toMatchObject({ invented: 0 });
    expect(behind.door.wrong_per_100.value).toBeLessThan(2);
  });

  test('shut, it lets nobody through: beams behind it see nobody until it has swung open', () => {
    const spans = shutSpans(swings(behind));
    expect(spans.length).toBeGreaterThan(40);
    for (const [from, to] of spans) {
      expect(
        behind.visits.filter(({ kind, enter_us }) => kind !== 'swing' && enter_us > from && enter_us < to),
      ).toEqual([]);
      expect(behind.edges.filter(({ time_us }) => time_us > from && time_us < to)).toEqual([]);
    }
  });

  test('sends the same people through as an open doorway, a little later', () => {
    const open = run({ mix: ADULTS, beams: beamsAt(-0.05, 0.01), per_hour: 15 });
    const people = ({ visits }: typeof swept) => visits.filter(({ kind }) => kind !== 'swing');
    const statures = (one: typeof swept) =>
      people(one)
        .map(({ stature_m }) => stature_m)
        .toSorted((a, b) => a - b);
    expect(statures(behind)).toEqual(statures(open));
  });

  test('keeps out a robot vacuum while it is shut', () => {
    const mix = '[{ who: robot-vacuum, kind: through, share: 1 }]';
    const { visits, door } = run({ mix, door: SELF_CLOSING, beams: beamsAt(-0.05, 0.01) });
    expect(visits).toEqual([]);
    expect(door.unmet_parties).toBeGreaterThan(100);
  });
});

/** From when a leaf is shut, by its last swing, until it has swung open again. */
function shutSpans(swings: readonly Visit[]): [number, number][] {
  const spans: [number, number][] = [];
  swings.forEach((swing, i) => {
    const before = swings[i - 1];
    if (swing.direction === 'forward') spans.push([before?.leave_us ?? 0, swing.leave_us]);
  });
  return spans;
}

describe('air that moves things (common practice, no source)', () => {
  test('a draught stirs an open leaf, and a curtain is blown past the beams: things, counted by who sits too near', () => {
    const { visits, edges } = run({
      mix: ADULTS,
      per_hour: 0.01,
      door: 'leaf: { shut_share: 0, draught_per_hour: 6 }',
      beams: beamsAt(0.1, 0.2),
      hours: 48,
    });
    // A Poisson process of 6 an hour over 48 h: 288, standard deviation 17.
    expect(Math.abs(visits.length - 288)).toBeLessThan(4 * 17);
    expect(edges.length).toBeGreaterThan(0);
    const curtain = run({
      mix: ADULTS,
      per_hour: 0.01,
      door: 'curtain: { at_m: 0.3, swing_m: -0.5, per_hour: 6 }',
      beams: beamsAt(-0.05, 0.01),
      hours: 48,
    });
    const blown = curtain.visits.filter(({ who }) => who === 'curtain');
    expect(Math.abs(blown.length - 288)).toBeLessThan(4 * 17);
    expect(blown.every(({ sort, kind, persons }) => sort === 'thing' && kind === 'swing' && persons === 0)).toBe(true);
    expect(curtain.edges.length).toBeGreaterThan(2 * blown.length);
  });
});

describe('a check', () => {
  const codes = (text: string): string[] => parseScenario(text, 'x.yaml').cautions.map(({ problem }) => problem.code);

  test('tells which beams a leaf sweeps, and says nothing of those on its other side', () => {
    expect(codes(textOf({ mix: ADULTS, door: SELF_CLOSING, beams: beamsAt(-0.05, 0.05) }))).toContain('leaf_sweeps');
    expect(codes(textOf({ mix: ADULTS, door: SELF_CLOSING, beams: beamsAt(-0.05, 0.01) }))).not.toContain(
      'leaf_sweeps',
    );
    const backward = 'leaf: { opens: backward }';
    expect(codes(textOf({ mix: ADULTS, door: backward, beams: beamsAt(-0.05, 0.05) }))).toContain('leaf_sweeps');
    expect(codes(textOf({ mix: ADULTS, door: backward, beams: beamsAt(-0.01, 0.05) }))).not.toContain('leaf_sweeps');
  });
});

describe('what does not fit', () => {
  const told = (mix: string, door = ''): string[] =>
    parseScenario(textOf({ mix, door }).replace('width_m: 0.9', 'width_m: 0.62'), 'things.yaml').issues.map(
      formatIssue,
    );

  test('a wheelchair wider than the opening is refused, with both numbers', () => {
    for (const who of ['wheelchair-pushed', 'wheelchair-user']) {
      const [issue, ...more] = told(`[{ who: ${who}, kind: through, share: 1 }]`);
      expect(more).toEqual([]);
      expect(issue).toContain('0.65 m wide');
      expect(issue).toContain('0.62 m');
    }
    expect(told('[{ who: adult-with-pram, kind: through, share: 1 }]')).toEqual([]);
  });

  test('what rolls as one piece only goes through', () => {
    for (const who of ['wheelchair-user', 'robot-vacuum']) {
      const mix = `[{ who: ${who}, kind: linger, share: 1 }]`;
      const { issues } = parseScenario(textOf({ mix }), 'things.yaml');
      expect(issues.map(({ problem }) => problem.code)).toEqual(['through_only']);
    }
  });
});
