/** `jambeam passage DIR`: pictures of visits of a finished run. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { folderWithDoor, jambeam } from './jambeam.js';

const cwd = folderWithDoor((text) => text);
const at = (name: string): string => join(cwd, name);
const passage = (...args: readonly string[]) => jambeam(['passage', 'door.run', ...args], { cwd });

beforeAll(async () =>
  expect((await jambeam(['run', 'door.yaml', '--hours', '4', '--replicates', '2'], { cwd })).code).toBe(0),
);

describe('visits of a run', () => {
  test('the most telling wrong ones go to a folder of pictures, each with its caption', async () => {
    const { code, out } = await passage('--only', 'wrong', '--limit', '3');
    expect(code).toBe(0);
    expect(readdirSync(at('pictures')).sort()).toEqual(['picture-01.svg', 'picture-02.svg', 'picture-03.svg']);
    expect(out.match(/replicate \d, visit \d+/g)).toHaveLength(3);
    const svg = readFileSync(at('pictures/picture-01.svg'), 'utf8');
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    // What is told on the terminal stands in the picture.
    const told = /visit (\d+)/.exec(out)![1];
    expect(svg).toContain(`visit ${told}`);
  });

  test('one of passages.csv is drawn by its number', async () => {
    const [head = '', first = ''] = readFileSync(at('door.run/passages.csv'), 'utf8').split('\n');
    const row = Object.fromEntries(head.split(',').map((key, i) => [key, first.split(',')[i]]));
    const { code, out } = await passage('--door', row['door']!, '--number', row['number']!, '--out', 'one.svg');
    expect(code).toBe(0);
    expect(out).toContain(row['direction']);
    expect(existsSync(at('one.svg'))).toBe(true);
  });

  test.each([
    [['--number', '999999'], /has no visit number 999999[\s\S]*its visits go from 1 to \d+/],
    [['--number', '1', '--replicate', '3'], /--replicate: expected a whole number from 1 to 2/],
    [['--number', '1', '--door', 'fron'], /--door: there is no "fron"[\s\S]*did you mean "front"/],
    [['--number', '1', '--out', 'one.png'], /ends in \.svg/],
    [[], /which visit of the run\?[\s\S]*--only wrong/],
    [['--only', 'right'], /--only: expected wrong, found "right"/],
    [['--only', 'wrong', '--door', 'front'], /--only and --door: [\s\S]*leave --door out/],
    [['--only', 'wrong', '--replicate', '1'], /--only and --replicate: [\s\S]*leave --replicate out/],
    [['--only', 'wrong', '--of', 'first-broken'], /--only and --of: [\s\S]*leave --of out/],
    [['--number', '1', '--who', 'adult'], /--who is for a walk made up from a scenario/],
  ])('%s is refused in words', async (args, words) => {
    const { code, err } = await passage(...args);
    expect(code).toBe(2);
    expect(err).toMatch(words);
  });

  test('what is for runs is refused for a scenario', async () => {
    const { code, err } = await jambeam(['passage', 'door.yaml', '--only', 'wrong'], { cwd });
    expect(code).toBe(2);
    expect(err).toMatch(/--only is for visits of a finished run/);
  });
});
