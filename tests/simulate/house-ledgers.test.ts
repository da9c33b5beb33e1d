/** Ledgers in a whole run: what reaches them, when they wake, what they have learnt. */
import { describe, expect, test } from 'vitest';
import { designFromJson, serialiseDesign } from '../../src/scenario/design-json.js';
import { formatIssue } from '../../src/scenario/explain.js';
import { parseScenario } from '../../src/scenario/parse.js';
import type { Design } from '../../src/scenario/schema.js';
import { calibrated, ratesOfDoors } from '../../src/simulate/calibration.js';
import type { TallyRow } from '../../src/simulate/outcome.js';
import { runReplicate } from '../../src/simulate/replicate.js';
import { plainRun } from './plain-run.js';

interface Changes {
  readonly ledgers?: string;
  readonly controller?: string;
  readonly presence?: string;
  readonly hours?: number;
  readonly starts_at?: string;
}

/** A hall and a kitchen behind it, with rods that the four-level walk always counts right unless they turn back. */
function homeOf({
  ledgers = '[raw, floor]',
  controller = '',
  presence = '',
  hours = 20,
  starts_at = '08:00',
}: Changes = {}): Design {
  const text = `format: 1
name: home
replicates: 2
hours: ${hours}
starts_at: "${starts_at}"
rooms: [{ name: hall, people_at_start: 2 }, { name: kitchen, people_at_start: 1${presence} }]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair: { height_m: 0.95, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 20, stay_mean_min: 5, mix: [{ who: adult, kind: through, share: 0.8 }, { who: adult, kind: close-behind, share: 0.2 }] }
  - name: kitchen-door
    from: hall
    to: kitchen
    width_m: 0.9
    pair: { height_m: 0.95, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 20, stay_mean_min: 5, mix: [{ who: adult, kind: through, share: 0.8 }, { who: adult, kind: close-behind, share: 0.2 }] }
controllers: [{ name: main${controller} }]
ledgers: ${ledgers}
`;
  const { design, issues } = parseScenario(text, 'home.yaml');
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

const traceOf = (design: Design, ledger: string, room = 'kitchen') =>
  runReplicate(design, 1, {}).traces.find(
    (trace) => trace.ledger === ledger && trace.room === room && trace.logic === design.logics[0]!.name,
  )!;

describe('names of ledgers', () => {
  test('a design holds whole ledgers, each by a name of its own', () => {
    const { ledgers } = homeOf({
      ledgers: '[raw, { use: cap, at_most: 3 }, { use: cap, at_most: 4 }, { use: reset, name: night }]',
    });
    expect(ledgers).toEqual([
      { use: 'raw', name: 'raw' },
      { use: 'cap', name: 'cap', at_most: 3 },
      { use: 'cap', name: 'cap-2', at_most: 4 },
      { use: 'reset', name: 'night', at: '04:00', to: 'zero' },
    ]);
  });

  test('two of one name, and a target on one that is not there, are told', () => {
    expect(() => homeOf({ ledgers: '[{ use: raw, name: a }, { use: floor, name: a }]' })).toThrow(/ledger/);
    expect(() => homeOf({ ledgers: '[cap]' })).toThrow();
  });
});

describe('the clock', () => {
  test('a reset empties the count at its time, and the truth goes on', () => {
    const { time_h, counted } = traceOf(
      homeOf({ ledgers: '[{ use: reset, at: "04:00" }]', starts_at: '02:00', hours: 4 }),
      'reset',
    );
    const at = time_h.indexOf(2);
    expect(at).toBeGreaterThan(0);
    expect(counted[at]).toBe(0);
  });

  test('a perfect presence sensor is never empty on somebody, nor occupied for longer than its hold', () => {
    const design = homeOf({ ledgers: '[presence]', presence: ', presence: { miss_share: 0, hold_min: 2 }' });
    const { record } = runReplicate(design, 1, {});
    expect(record.rooms[1]![0]![0]!.empty_while_occupied_us).toBe(0);
    const { time_h, truth, counted } = traceOf(design, 'presence');
    let empty_h = 0;
    time_h.forEach((h, i) => {
      if (truth[i]! > 0) empty_h = Infinity;
      else if (empty_h === Infinity) empty_h = h;
      // Two minutes after it was left, whatever doors say, it has fallen to empty; invented tallies come later.
      if (truth[i] === 0 && counted[i]! > 0) expect(h - empty_h).toBeLessThan(2 / 60 + 1e-9);
    });
  });

  test('without somebody to miss, rooms without a sensor count as floor does', () => {
    const design = homeOf({ ledgers: '[floor, presence]' });
    const { rooms } = runReplicate(design, 1, {}).record;
    for (const ofRoom of rooms) for (const [floor, presence] of ofRoom) expect(presence).toEqual(floor);
  });
});

describe('on the way to the ledgers', () => {
  const rows = (design: Design) => {
    const tallies: TallyRow[] = [];
    const result = runReplicate(design, 1, { tally: (_, row) => tallies.push(row) });
    return { tallies, ...result };
  };

  test('lost tallies leave the doors as the logic said, and only rooms go wrong', () => {
    const good = rows(homeOf());
    const bad = rows(homeOf({ controller: ', tallies_lost_share: 0.2, tallies_twice_share: 0.1' }));
    expect(bad.tallies).toEqual(good.tallies);
    expect(bad.record.doors).toEqual(good.record.doors);
    expect(bad.record.rooms[0]![0]![0]!.absolute_error_us).toBeGreaterThan(
      good.record.rooms[0]![0]![0]!.absolute_error_us,
    );
  });

  test('with all of them lost no count ever changes', () => {
    expect(new Set(traceOf(homeOf({ controller: ', tallies_lost_share: 1' }), 'raw').counted)).toEqual(new Set([1]));
  });

  test('with all of them doubled the raw sum changes by twos', () => {
    const { counted } = traceOf(homeOf({ controller: ', tallies_twice_share: 1' }), 'raw');
    expect(new Set(counted.map((count) => Math.abs(count - 1) % 2))).toEqual(new Set([0]));
    expect(new Set(counted).size).toBeGreaterThan(1);
  });
});

describe('a controller that restarts', () => {
  test('sees fewer edges the longer it is down, and otherwise the same ones', () => {
    const edges = (controller: string) => {
      const list: string[] = [];
      runReplicate(homeOf({ controller }), 1, {
        edge: (_, { door, beam, time_us, level }) => list.push(`${door} ${beam} ${time_us} ${level}`),
      });
      return list;
    };
    const whole = edges('');
    const broken = edges(', restarts_per_week: 1000, restart_s: 200');
    const share = broken.length / whole.length;
    // Down for 200 s of every 604.8 + 200 s on average: a quarter of the time.
    const up = 604.8 / 804.8;
    expect(Math.abs(share - up)).toBeLessThan(0.15);
    // An edge of its own is one found at the end of a restart.
    const own = broken.filter((edge) => !whole.includes(edge));
    expect(own.length).toBeLessThan(broken.length / 20);
  });

  test('whose restarts never end counts nothing after the first', () => {
    const { record } = runReplicate(homeOf({ controller: ', restarts_per_week: 100000, restart_s: 86400' }), 1, {});
    const { total, tallies } = record.doors[0]!.logics[0]!;
    expect(tallies).toBe(0);
    expect(total.missed).toBe(total.crossings);
    expect(total.crossings).toBeGreaterThan(0);
  });
});

describe('what likelihood ledgers weigh by', () => {
  const design = homeOf({ ledgers: '[raw, { use: likelihood, household: 400 }]', hours: 10 });

  test('is learnt before the run, kept in the design, and changes nothing that is judged', () => {
    const learnt = calibrated(design);
    expect(learnt.calibration?.map(({ door, logic }) => `${door} ${logic}`)).toEqual([
      'front four-level',
      'kitchen-door four-level',
      'front first-broken',
      'kitchen-door first-broken',
    ]);
    expect(calibrated(learnt)).toBe(learnt);
    expect(calibrated(homeOf())).not.toHaveProperty('calibration');
    expect(designFromJson(serialiseDesign(learnt)).design).toEqual(learnt);
    const { metrics } = plainRun(design);
    expect(plainRun(learnt).metrics).toEqual(metrics);
    const plain = plainRun(homeOf({ ledgers: '[raw]', hours: 10 })).metrics;
    expect(metrics.doors).toEqual(plain.doors);
    expect(metrics.rooms.filter(({ ledger }) => ledger === 'raw')).toEqual(plain.rooms);
  });

  test('are the rates of the replicates learnt from: (k + ½)/(n + 1)', () => {
    const net = { missed: 4, reversed: 1, invented: 5 };
    const none = { missed: 0, reversed: 0, invented: 0 };
    const [busy, idle] = ratesOfDoors([
      [{ total: { crossings: 49 }, net, tallies: 50 }],
      [{ total: { crossings: 0 }, net: none, tallies: 0 }],
    ]);
    expect(busy).toEqual({ missed: 0.09, reversed: 0.03, invented: 0.11, crossings_per_tally: 49.5 / 51 });
    // A door nobody used is like the others, and used hardly ever.
    expect(idle).toEqual({ missed: 0.09, reversed: 0.03, invented: 0.11, crossings_per_tally: 0.5 / 51 });
  });
});
