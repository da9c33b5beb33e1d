/** The table of commands that are driven through faults leaves none out. */
import { expect, test } from 'vitest';
import { folder, jambeam } from '../cli/jambeam.js';
import { COMMANDS, ONLY_WORDS } from './commands.js';

test('names every command the program has', async () => {
  const { out } = await jambeam(['--help'], { cwd: folder() });
  const listed = [...out.matchAll(/^ {2}([a-z]+) (?:\[|<)/gm)].map(([, name]) => name!);
  expect(listed).toContain('run');
  const driven = new Set(COMMANDS.map(({ args }) => args[0]!));
  expect([...driven, ...ONLY_WORDS.filter((name) => listed.includes(name))].sort()).toEqual([...listed].sort());
});
