/** What installing takes, against houses worked out by hand. */
import { describe, expect, test } from 'vitest';
import { effortOf } from '../../src/effort/effort.js';
import { holesIn } from '../../src/effort/share.js';
import { house, twoStoreys } from './houses.js';
import { VALID, designOf } from '../scenario/helpers.js';

const lengths = (design: Parameters<typeof effortOf>[0], variant: 'drilled_m' | 'surface_m' = 'drilled_m') =>
  Object.fromEntries(
    effortOf(design).doors.flatMap(({ door, ends }) =>
      ends.map((end) => [`${door}.${end.beam}.${end.mount}`, end[variant]]),
    ),
  );

/** Prices and work of the worked example; invented. */
const MONEY = `currency: crowns
prices:
  - { part: light-barrier, price: 20 }
  - { part: cable-per-metre, price: 0.5 }
  - { part: raceway-per-metre, price: 3 }
  - { part: mounting, price: 1 }
  - { part: adhesive-mounting, price: 2 }
  - { part: controller, price: 25.5 }
  - { part: power-supply, price: 10 }
work: { hour_rate: 30, minutes_per_hole: 10, minutes_per_metre: 3, minutes_per_raceway_metre: 6, minutes_per_sensor: 15, minutes_per_controller: 40 }
rooms:`;
const paid = () => house(['rooms:', MONEY]);

describe('metres of cable', () => {
  test('within one room: up to the run, round the walls, down to the controller', () => {
    // Runs at 2.0 + 0.1 = 2.1 m: up from a beam at 0.9 m 1.2 m, down to the controller at 1.5 m 0.6 m: 1.8 m each.
    // Controller at (0, 2). Front: jambs at (1.55, 0) and (2.45, 0): 2 + 1.55 = 3.55, and 0.9 more over the lintel.
    // Inner: jambs at (4, 1.9) and (4, 1.1), over the top: 1 + 4 + 1.1 = 6.1, and 0.8 more (by the bottom: 7.1).
    const worked = {
      'front.A.left-jamb': 3.55 + 1.8,
      'front.A.right-jamb': 4.45 + 1.8,
      'front.B.left-jamb': 3.55 + 1.8,
      'front.B.right-jamb': 4.45 + 1.8,
      'inner.A.left-jamb': 6.1 + 1.8,
      'inner.A.right-jamb': 6.9 + 1.8,
      'inner.B.left-jamb': 6.1 + 1.8,
      'inner.B.right-jamb': 6.9 + 1.8,
    };
    // No doorway is passed: what sticks to the wall is as long.
    for (const variant of ['drilled_m', 'surface_m'] as const) {
      const found = lengths(house(), variant);
      expect(Object.keys(found)).toEqual(Object.keys(worked));
      for (const [end, length_m] of Object.entries(worked)) expect(found[end], end).toBeCloseTo(length_m, 9);
    }
  });

  test('from room to room: a hole over the doorway, or twice 0.1 m down to its lintel and up again', () => {
    // Controller at (7, 1.5), the far wall of the kitchen. From the front's right jamb (2.45, 0): 1.55 to the corner,
    // 1.1 up to the inner door's lower jamb, through, 1.1 down again, 3 along, 1.5 up: 8.25; + 1.8.
    const far = house(['{ x: 0, y: 2 }', '{ x: 7, y: 1.5 }']);
    expect(lengths(far)['front.A.right-jamb']).toBeCloseTo(8.25 + 1.8, 9);
    expect(lengths(far)['front.A.left-jamb']).toBeCloseTo(9.15 + 1.8, 9);
    expect(lengths(far, 'surface_m')['front.A.right-jamb']).toBeCloseTo(8.25 + 1.8 + 0.2, 9);
    const { shared, passed } = effortOf(far);
    expect(shared.drilled.holes).toEqual({ sensors: 0, outlets: 0, doorways: 1, ceilings: 0 });
    expect(holesIn(shared.surface.holes)).toBe(0);
    expect(passed).toEqual({ drilled: ['inner'], surface: ['inner'] });
  });

  test('a wall 0.2 m thick adds its thickness where a cable goes through, and half of it at a door in its middle', () => {
    const thick = house(
      ['{ x: 0, y: 2 }', '{ x: 7.2, y: 1.5 }'],
      ['{ name: kitchen, at_m: { x: 4, y: 0 }', '{ name: kitchen, at_m: { x: 4.2, y: 0 }'],
      ['{ x: 4, y: 1.5 }', '{ x: 4.1, y: 1.5 }'],
    );
    expect(lengths(thick)['front.A.right-jamb']).toBeCloseTo(8.25 + 0.2 + 1.8, 9);
    // Lower jamb of the inner door: 0.1 to the kitchen's wall, 1.1 + 3 + 1.5.
    expect(lengths(thick)['inner.A.right-jamb']).toBeCloseTo(0.1 + 5.6 + 1.8, 9);
  });

  test('upstairs: through the ceiling where walls stand above each other, or round by the stairs', () => {
    // Controller (0, 2) of the hall. Drilled: 1 to the corner (0, 3), 2.7 up, 4 + 1.1 to the bedroom door's upper jamb.
    expect(lengths(twoStoreys())['bed.A.left-jamb']).toBeCloseTo(1 + 2.7 + 5.1 + 1.8, 9);
    // By the stairs at (0, 1): 1 down the wall, 2.7 up; then by the bottom 1 + 4 + 1.9 (by the top 2 + 4 + 1.1).
    expect(lengths(twoStoreys(), 'surface_m')['bed.A.left-jamb']).toBeCloseTo(1 + 2.7 + 6.9 + 1.8, 9);
    expect(effortOf(twoStoreys()).shared.drilled.holes.ceilings).toBe(1);
    expect(effortOf({ ...twoStoreys(), storey_height_m: 3.7 }).doors[2]?.ends[0]?.drilled_m).toBeCloseTo(11.6, 9);
  });

  test('a room no higher than its lintels: runs under the ceiling', () => {
    // 2.05 − 0.9 up, 2.05 − 1.5 down: 1.7.
    expect(lengths({ ...house(), storey_height_m: 2.05 })['front.A.left-jamb']).toBeCloseTo(3.55 + 1.7, 9);
  });
});

describe('holes', () => {
  test('a through-beam barrier has two ends, and each jamb an outlet', () => {
    const { doors, total } = effortOf(house());
    expect(doors.map(({ drilled }) => drilled.holes)).toEqual(
      ['front', 'inner'].map(() => ({ sensors: 4, outlets: 2, doorways: 0, ceilings: 0 })),
    );
    expect(holesIn(total.drilled.holes)).toBe(12);
    expect(holesIn(total.surface.holes)).toBe(0);
  });

  test.each([
    ['{ kind: light-barrier, layout: reflector }', 'left-jamb', 2, 1],
    ['{ kind: light-barrier, layout: reflector }', 'interleaved', 2, 2],
    ['{ kind: ultrasonic-ranger }', 'left-jamb', 2, 1],
    ['{ kind: time-of-flight-ranger }', 'lintel', 2, 1],
    ['{ kind: triangulation-ranger }', 'facing', 2, 2],
  ])('%s, %s: %i for sensors, %i outlets', (sensor, mount, sensors, outlets) => {
    const design = house(
      ['rooms:', `sensors: { eye: ${sensor} }\nrooms:`],
      ['{ height_m: 0.9, spacing_m: 0.1 }', `{ sensor: eye, mount: ${mount}, height_m: 1.9, spacing_m: 0.1 }`],
    );
    const door = effortOf(design).doors[0]!;
    expect(door.drilled.holes).toMatchObject({ sensors, outlets });
    expect(door.ends).toHaveLength(2);
  });
});

describe('money and hours', () => {
  const effort = effortOf(paid());
  const figures = (variant: 'drilled' | 'surface') =>
    [...effort.doors, effort].map((one) => {
      const { cable_m, raceway_m, parts_cents, minutes, work_cents } =
        'total' in one ? one.total[variant] : one[variant];
      return { cable_m, raceway_m, parts_cents, minutes, work_cents };
    });

  test('drilled, worked by hand', () => {
    // Front: cable 2 × (5.35 + 6.25) = 23.2 m at 0.50 = 11.60; two barriers 40, four mountings 4: 55.60.
    //   6 holes 60 min, 23.2 × 3 = 69.6, 2 × 15 = 30: 159.6 min at 30 an hour: 79.80.
    // Inner: 2 × (7.9 + 8.7) = 33.2 m: 16.60 + 44 = 60.60; 60 + 99.6 + 30 = 189.6 min: 94.80.
    // Shared: controller 25.50, supply 10; 40 min: 20. Together 151.70, 389.2 min, 194.60.
    expect(figures('drilled')).toEqual([
      { cable_m: 23.2, raceway_m: 0, parts_cents: 5560, minutes: 159.6, work_cents: 7980 },
      { cable_m: 33.2, raceway_m: 0, parts_cents: 6060, minutes: 189.6, work_cents: 9480 },
      { cable_m: 56.4, raceway_m: 0, parts_cents: 15170, minutes: 389.2, work_cents: 19460 },
    ]);
  });

  test('surface-mounted, worked by hand', () => {
    // Raceway: 2 + 1.55 + 0.9 towards the front, 1 + 4 + 1.1 + 0.8 towards the inner door: 11.35; up four jambs
    // 4 × 1.2, down to the controller 0.6: 16.75 m at 3 = 50.25, at 6 min = 100.5.
    // Front: 40 + 4 × 2 + 11.60 = 59.60, 69.6 + 30 = 99.6 min: 49.80. Inner: 40 + 8 + 16.60 = 64.60, 129.6 min: 64.80.
    // Shared: 35.50 + 50.25 = 85.75; 40 + 100.5 = 140.5 min: 70.25. Together 209.95, 369.7 min, 184.85.
    expect(figures('surface')).toEqual([
      { cable_m: 23.2, raceway_m: 0, parts_cents: 5960, minutes: 99.6, work_cents: 4980 },
      { cable_m: 33.2, raceway_m: 0, parts_cents: 6460, minutes: 129.6, work_cents: 6480 },
      { cable_m: 56.4, raceway_m: 16.75, parts_cents: 20995, minutes: 369.7, work_cents: 18485 },
    ]);
  });

  test('all lines add up to the cent, and none of them is made up', () => {
    for (const variant of ['drilled', 'surface'] as const) {
      const { lines, parts_cents } = effort.total[variant];
      expect(lines.reduce((sum, line) => sum + line.cents, 0)).toBe(parts_cents);
      expect(lines.filter(({ made_up }) => made_up)).toEqual([]);
    }
    expect(effort.currency).toBe('crowns');
  });

  test('without prices every line is marked as made up, and without a rate there is no cost of work', () => {
    const { total, currency } = effortOf(house());
    expect(total.drilled.lines.every(({ made_up }) => made_up)).toBe(true);
    expect([total.drilled.work_cents, currency]).toEqual([null, null]);
  });

  test('a price by the sensor’s own name goes before one by its kind', () => {
    const prices = '[{ part: light-barrier, price: 20 }, { part: eye, price: 7.35 }]';
    const design = house(
      ['rooms:', `sensors: { eye: { kind: light-barrier } }\nprices: ${prices}\nrooms:`],
      ['{ height_m: 0.9,', '{ sensor: eye, height_m: 0.9,'],
    );
    const line = (part: string) => effortOf(design).total.drilled.lines.find((one) => one.part === part);
    expect(line('eye')).toMatchObject({ quantity: 2, price_cents: 735, cents: 1470, made_up: false });
    expect(line('light-barrier')).toMatchObject({ quantity: 2, cents: 4000, made_up: false });
  });
});

test('watt-hours a day: milliwatts times 24 hours', () => {
  // Own numbers: 4 barriers of 200 mW and a controller of 1200 mW take 2 W: 48 Wh.
  const design = house(
    ['rooms:', 'sensors: { eye: { kind: light-barrier, power_mw: 200 } }\nrooms:'],
    ['at_m: { x: 0, y: 2 }', 'at_m: { x: 0, y: 2 }, power_mw: 1200'],
    ['{ height_m: 0.9,', '{ sensor: eye, height_m: 0.9,'],
  );
  const all = { ...design, doors: design.doors.map((d) => ({ ...d, beams: design.doors[0]!.beams })) };
  expect(effortOf(all).watt_hours_a_day).toBe(48);
  expect(effortOf(all).power.map(({ assumed }) => assumed)).toEqual([false, false]);
});

describe('without a plan', () => {
  const effort = effortOf(designOf(VALID));

  test('holes, pins, parts and hours are counted all the same, and what is missing is named', () => {
    expect(effort.planned).toBe(false);
    expect(effort.missing).toEqual({ rooms: ['hall'], doors: ['back'] });
    expect(effort.placeless).toEqual(['main']);
    expect(holesIn(effort.total.drilled.holes)).toBe(6);
    expect(effort.controllers).toMatchObject([{ controller: 'main', sensors: 2, digital_pins: 2, analogue_inputs: 0 }]);
    expect(effort.total.drilled.parts_cents).toBeGreaterThan(0);
    expect(effort.total.drilled.minutes).toBeGreaterThan(0);
  });

  test('lengths are unknown, not 0', () => {
    expect(effort.doors[0]?.ends.map(({ drilled_m, surface_m }) => [drilled_m, surface_m])).toEqual(
      Array.from({ length: 4 }, () => [null, null]),
    );
    expect([effort.total.drilled.cable_m, effort.total.surface.cable_m, effort.total.surface.raceway_m]).toEqual([
      null,
      null,
      null,
    ]);
    expect(effort.total.drilled.lines.map(({ part }) => part)).not.toContain('cable-per-metre');
  });

  test('a plan without the controller’s place: so too', () => {
    const { planned, total, placeless } = effortOf(house([', at_m: { x: 0, y: 2 }', '']));
    expect([planned, total.drilled.cable_m, placeless]).toEqual([true, null, ['main']]);
  });

  test('a controller where no door leads: no way, no length', () => {
    const shed = house(
      ['controllers:', '  - { name: shed, at_m: { x: 20, y: 0 }, size_m: { x: 2, y: 2 } }\ncontrollers:'],
      ['{ x: 0, y: 2 }', '{ x: 20, y: 1 }, room: shed'],
    );
    expect(lengths(shed)['front.A.left-jamb']).toBeNull();
    expect(effortOf(shed).total.surface.raceway_m).toBeNull();
  });
});
