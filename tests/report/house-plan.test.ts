/** The drawing of a house: to scale, leaves that swing round their hinges, and words for who does not see it. */
import { describe, expect, test } from 'vitest';
import { cabling } from '../../src/effort/cables.js';
import { houseFile } from '../../src/report/drawing/house-file.js';
import { controllerLetter, storeyDrawings } from '../../src/report/drawing/house-plan.js';
import { planSection } from '../../src/report/sections/plan.js';
import { effortSection } from '../../src/report/sections/effort.js';
import { planOf } from '../../src/scenario/plan-of.js';
import type { Design } from '../../src/scenario/schema.js';
import { house, twoStoreys } from '../effort/houses.js';
import { VALID, designOf } from '../scenario/helpers.js';

function drawn(design: Design) {
  const { plan } = planOf(design);
  if (!plan) throw new Error('no plan');
  return storeyDrawings(design, plan, cabling(design, plan, 'drilled'));
}
const rects = (svg: string) =>
  [...svg.matchAll(/<rect class="room" x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)"/g)].map((m) =>
    m.slice(1).map(Number),
  ) as [number, number, number, number][];
const numbers = (path: string): number[] => [...path.matchAll(/-?\d+(?:\.\d+)?/g)].map(Number);
const paths = (svg: string, name: string): string[] =>
  [...svg.matchAll(new RegExp(`<path class="${name}" d="([^"]*)"`, 'g'))].map((m) => m[1] as string);
const leafed = (leaf: string, facing = '') =>
  house(['    at_m: { x: 2, y: 0 }\n', `    at_m: { x: 2, y: 0 }\n    leaf: ${leaf}\n${facing}`]);

/** From metres to pixels as the hall's rectangle, 4 m by 3 m from (0, 0), shows it. */
function scaleOf(svg: string) {
  const [[x, y, w, h]] = rects(svg) as [[number, number, number, number]];
  expect(w / 4).toBeCloseTo(h / 3, 1);
  return { scale: w / 4, x: (m: number) => x + (m * w) / 4, y: (m: number) => y + h - (m * h) / 3 };
}

describe('a storey', () => {
  const [ground] = drawn(house());
  const svg = ground!.content.text;

  test('rooms stand side by side to one scale', () => {
    const [hall, kitchen] = rects(svg);
    expect(kitchen![0]).toBeCloseTo(hall![0] + hall![2], 0);
    expect(kitchen![2] / hall![2]).toBeCloseTo(3 / 4, 2);
    expect(kitchen![3]).toBe(hall![3]);
  });

  test('the scale bar is as long as it says', () => {
    const [bar] = paths(svg, 'tick');
    const long = Number(/0 3h([\d.]+)m/.exec(bar!)![1]);
    const says = Number(/>([\d.]+) m<\/text>/.exec(svg)![1]);
    expect(long / scaleOf(svg).scale).toBeCloseTo(says, 1);
  });

  test('gaps in walls are where doors are: jambs at (1.55, 0) and (2.45, 0), and at (4, 1.9) and (4, 1.1)', () => {
    const { x, y } = scaleOf(svg);
    const expected = [
      [x(1.55), y(0), x(2.45), y(0)],
      [x(4), y(1.9), x(4), y(1.1)],
    ];
    for (const [i, gap] of paths(svg, 'gap').entries())
      for (const [k, v] of numbers(gap).entries()) expect(v).toBeCloseTo(expected[i]![k]!, 0);
  });

  test('cables, the controller and what they are called', () => {
    expect(numbers(paths(svg, 'cable')[0]!).length).toBeGreaterThan(20);
    for (const words of [
      '1\u2002\u2068front\u2069, \u2068outside\u2069 to \u2068hall\u2069',
      'A\u2002controller \u2068main\u2069',
    ])
      expect(svg).toContain(words);
    expect(ground!.title).toBe('Plan of the house, ground floor');
    expect(ground!.description).toContain(
      'Hall of 12\u00a0m² and kitchen of 9\u00a0m². 2 doors: front from outside to hall and inner from hall to kitchen.',
    );
    expect(svg).not.toMatch(/NaN|undefined|Infinity/);
  });
});

describe('leaves', () => {
  test.each([
    ['{ hinge: left, opens: forward, opens_deg: 90 }', [1.55, 0, 1.55, 0.9]],
    ['{ hinge: right, opens: forward, opens_deg: 90 }', [2.45, 0, 2.45, 0.9]],
    ['{ hinge: left, opens: backward, opens_deg: 90 }', [1.55, 0, 1.55, -0.9]],
    ['{ hinge: right, opens: backward, opens_deg: 90 }', [2.45, 0, 2.45, -0.9]],
    ['{ hinge: left, opens: forward, opens_deg: 180 }', [1.55, 0, 0.65, 0]],
  ])('%s stands from hinge to edge at %j m', (leaf, [x0, y0, x1, y1]) => {
    const svg = drawn(leafed(leaf))[0]!.content.text;
    const { x, y } = scaleOf(svg);
    const found = numbers(paths(svg, 'leaf')[0]!);
    for (const [k, v] of [x(x0!), y(y0!), x(x1!), y(y1!)].entries()) expect(found[k]).toBeCloseTo(v, 0);
  });

  test('the arc has its middle at the hinge, whichever way a leaf opens', () => {
    for (const hinge of ['left', 'right'])
      for (const opens of ['forward', 'backward'])
        for (const deg of [60, 90, 120]) {
          const svg = drawn(leafed(`{ hinge: ${hinge}, opens: ${opens}, opens_deg: ${deg} }`))[0]!.content.text;
          const [hx, hy] = numbers(paths(svg, 'leaf')[0]!);
          const [ax, ay, r, , , large, sweep, bx, by] = numbers(paths(svg, 'arc')[0]!) as [
            number,
            number,
            number,
            number,
            number,
            number,
            number,
            number,
            number,
          ];
          expect(large).toBe(0);
          // Travelling with the clock (sweep 1, y downwards) the middle is to the right, else to the left.
          const [dx, dy] = [bx - ax, by - ay];
          const chord = Math.hypot(dx, dy);
          const off = Math.sqrt(Math.max(0, r * r - (chord * chord) / 4)) * (sweep === 1 ? 1 : -1);
          expect((ax + bx) / 2 - (off * dy) / chord, `${hinge} ${opens} ${deg}`).toBeCloseTo(hx!, -0.3);
          expect((ay + by) / 2 + (off * dx) / chord, `${hinge} ${opens} ${deg}`).toBeCloseTo(hy!, -0.3);
        }
  });
});

describe('storeys', () => {
  const both = drawn(twoStoreys());

  test('the lowest first, to one scale; stairs are on both, the cable’s way up is ringed on both', () => {
    expect(both.map(({ storey }) => storey)).toEqual([0, 1]);
    const [a, b] = both.map(({ content }) => content.text) as [string, string];
    expect(scaleOf(a).scale).toBe(scaleOf(b).scale);
    for (const svg of [a, b]) {
      expect(paths(svg, 'tread')).toHaveLength(1);
      expect(svg.match(/class="riser"/g)).toHaveLength(1);
    }
    expect(b).toContain('see the other storey');
  });

  test('as a file: whole by itself, and a name is never markup', () => {
    const file = houseFile('</title><script>alert(1)</script>', both);
    expect(file).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    expect(file).not.toContain('<script');
    expect(file).toContain('&lt;script&gt;');
    expect(file).toMatch(/--good:#\w+/);
    expect(file).toContain('prefers-color-scheme:dark');
    for (const used of file.match(/var\(--\w+\)/g)!) expect(file).toContain(`${used.slice(4, -1)}:`);
    expect(file).not.toMatch(/href|url\(|NaN|undefined/);
  });
});

test('fifty controllers each have a letter of their own', () => {
  expect(new Set(Array.from({ length: 50 }, (_, i) => controllerLetter(i))).size).toBe(50);
});

describe('sections of the report', () => {
  const words = (text: string) =>
    text
      .replace(/<[^>]*>/g, ' ')
      .replace(/[\u2068\u2069]/g, '')
      .replace(/\s+/g, ' ');

  test('without a plan there is no drawing, and the section on installing says what is missing', () => {
    expect(planSection(designOf(VALID))).toBeNull();
    const text = words(effortSection(designOf(VALID)).text);
    expect(text).toContain(
      'Lengths of cables are not known: 1 room (hall) without at_m and size_m, 1 door (back) without at_m and 1 controller (main) without at_m.',
    );
    expect(text).toContain('All prices are made up');
    expect(text).toMatch(/Cable not known not known/);
  });

  test('with one, both ways of mounting stand side by side, with what to mind before drilling', () => {
    const text = words(effortSection(house()).text);
    expect(text).toMatch(
      /Holes 12: 8 for sensors, 4 where cables leave frames none Cable 56\.4 m 56\.4 m Raceway none 16\.75 m/,
    );
    expect(text).toContain('never drill a fire door');
    expect(words(planSection(house())!.text)).toContain('front A, receiver Right jamb 0.90 m main 6.25 m 6.25 m');
  });

  test('a raceway in a frame with a leaf is told', () => {
    const far = house(['{ x: 0, y: 2 }', '{ x: 7, y: 1.5 }'], ['facing_deg: 90', 'facing_deg: 90\n    leaf: {}']);
    expect(words(effortSection(far).text)).toContain('pass the frame of inner, where a leaf shuts');
    expect(words(effortSection(house()).text)).not.toContain('where a leaf shuts');
  });
});
