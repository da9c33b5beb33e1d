/** What `jambeam check` says of a house: its plan, what installing takes, and the drawing as a file. */
import { existsSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import picocolors from 'picocolors';
import { describe, expect, test } from 'vitest';
import { checkCommand } from '../../src/cli/check.js';
import { effortText, planText } from '../../src/cli/effort-text.js';
import type { Io } from '../../src/cli/io.js';
import { UserProblem } from '../../src/cli/problem.js';
import { effortOf } from '../../src/effort/effort.js';
import { HOUSE, house } from '../effort/houses.js';
import { VALID, designOf } from '../scenario/helpers.js';
import { folder } from './jambeam.js';

const paint = picocolors.createColors(false);
const words = (text: string) => text.replaceAll('\u00a0', ' ').replace(/ +/g, ' ');

function check(text: string, options: { plan?: string; json?: boolean }) {
  const path = folder();
  writeFileSync(join(path, 'house.yaml'), text);
  const said = { out: '', err: '' };
  const io: Io = {
    out: (more) => void (said.out += more),
    err: (more) => void (said.err += more),
    colour: false,
    paint,
    errPaint: paint,
    errIsTerminal: false,
  };
  const plan = options.plan === undefined ? {} : { plan: join(path, options.plan) };
  const run = (): void => void checkCommand(join(path, 'house.yaml'), { ...options, ...plan }, io);
  return { path, said, run };
}

describe('the page', () => {
  const plan = words(planText(house(), effortOf(house()), paint));
  const effort = words(effortText(house(), effortOf(house()), paint));

  test('tells rooms with their areas, and each cable', () => {
    expect(plan).toContain('ground floor: hall 12 m² and kitchen 9 m². Cables run at 2.10 m.');
    expect(plan).toContain('front A left jamb main 5.35 m 5.35 m');
    expect(plan).toContain('inner B receiver right jamb main 8.7 m 8.7 m');
  });

  test('tells both ways of mounting, pins and watt-hours', () => {
    expect(effort).toMatch(/holes 12 0\n cable 56\.4 m 56\.4 m\n raceway none 16\.75 m\n/);
    expect(effort).toContain('parts (made-up prices)');
    expect(effort).toContain('main: 4 sensors, 4 digital pins, 0 analogue inputs.');
    expect(effort).toContain('26.4 watt-hours a day (assumed of light-barrier and main)');
  });

  test('without a plan there is no plan, and lengths are not known', () => {
    const design = designOf(VALID);
    expect(planText(design, effortOf(design), paint)).toBe('');
    expect(words(effortText(design, effortOf(design), paint))).toMatch(/cable not known not known\n/);
  });
});

describe('--plan', () => {
  test('writes the drawing, and again over the old one; --json has the effort', () => {
    const { path, said, run } = check(HOUSE, { plan: 'house.svg', json: true });
    writeFileSync(join(path, 'house.svg'), 'old');
    run();
    expect(readFileSync(join(path, 'house.svg'), 'utf8')).toContain('Plan of the house, ground floor');
    expect(readdirSync(path).toSorted()).toEqual(['house.svg', 'house.yaml']);
    expect(said.err).toContain('house.svg');
    const { effort } = JSON.parse(said.out) as { effort: unknown };
    expect(effort).toEqual(JSON.parse(JSON.stringify(effortOf(house()))));
  });

  test('refuses a name that is no .svg, so that no scenario is lost', () => {
    const { path, run } = check(HOUSE, { plan: 'house.yaml' });
    expect(run).toThrow(UserProblem);
    expect(readFileSync(join(path, 'house.yaml'), 'utf8')).toBe(HOUSE);
  });

  test('without a plan says what is missing, and writes nothing', () => {
    const { path, run } = check(VALID, { plan: 'house.svg' });
    expect(run).toThrow(/rooms need at_m and size_m, doors at_m/);
    expect(existsSync(join(path, 'house.svg'))).toBe(false);
  });
});
