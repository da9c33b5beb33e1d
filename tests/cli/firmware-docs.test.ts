/** docs/firmware.md says what the command does. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { blocks, codes, page, rowsOf } from '../acceptance/markdown.js';
import { folder, jambeam } from './jambeam.js';

const text = page('docs/firmware.md');

test('its command works in a folder made by `jambeam new`, and writes the files it lists, all of them', async () => {
  const cwd = folder();
  expect((await jambeam(['new', 'my-door'], { cwd })).code).toBe(0);
  const [command = ''] = blocks(text, '');
  expect(await jambeam(command.trim().split(' ').slice(1), { cwd })).toMatchObject({ code: 0, err: '' });
  const listed = rowsOf(text).flatMap(([first = '']) => [...codes(first)]);
  expect(listed.sort()).toEqual(readdirSync(join(cwd, 'firmware')).sort());
});

test('every option it shows is one', async () => {
  const { out } = await jambeam(['help', 'firmware'], { cwd: '.' });
  for (const [option] of text.matchAll(/--[a-z][a-z-]*/g)) expect(out).toContain(option);
});
