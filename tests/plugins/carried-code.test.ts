/** A report of a run whose logics are code: it names the code and its SHA-256, and runs none that nobody names. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { folder, folderWithDoor, jambeam } from '../cli/jambeam.js';

const cwd = folderWithDoor();
const module_ = (defeated: string) =>
  `export default { beams: 2, defeated_by: '${defeated}', initial: () => 0, step: (state) => ({ state, tallies: [] }) };\n`;
const read = (...parts: readonly string[]): string => readFileSync(join(...parts), 'utf8');

describe('the report of a run with a module among its logics', () => {
  const elsewhere = folder();
  beforeAll(async () => {
    writeFileSync(join(cwd, 'still.mjs'), module_('Everybody.'));
    const logics = ['--logic', 'hold-off', '--logic', 'still.mjs', '--logic', 'my-logic.yaml'];
    expect(await jambeam(['run', 'door.yaml', ...logics], { cwd })).toMatchObject({ code: 0 });
    writeFileSync(join(elsewhere, 'report.html'), read(cwd, 'door.run/report.html'));
  });

  test('says the command, and the SHA-256 of the code', () => {
    const page = read(elsewhere, 'report.html');
    expect(page).toContain('>jambeam run report.html --logic still.mjs<');
    expect(page).toContain('SHA-256 of the code of the logic \u2068still\u2069');
    // Copied by hand it would lack the code.
    expect(page).not.toContain('By hand, without this file');
  });

  test('runs nothing that is not named, though a file of that name lies beside it', async () => {
    writeFileSync(join(elsewhere, 'still.mjs'), "throw new Error('it ran');\n");
    const { code, out, err } = await jambeam(['run', 'report.html'], { cwd: elsewhere });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(
      /the logic "still" is code of your own, still\.mjs with the SHA-256 [0-9a-f]{64}, and code is never taken/,
    );
    expect(err).toContain('name it again with --logic');
  });

  test('with the same code named, all its logics run again, to the same bytes', async () => {
    writeFileSync(join(elsewhere, 'still.mjs'), module_('Everybody.'));
    const said = await jambeam(['run', 'report.html', '--logic', 'still.mjs', '--out', 'a.run'], { cwd: elsewhere });
    expect(said).toMatchObject({ code: 0, err: '' });
    for (const name of ['passages.csv', 'tallies.csv', 'metrics.json', 'design.json', 'report.html'])
      expect(read(elsewhere, 'a.run', name), name).toBe(read(cwd, 'door.run', name));
  });

  test('with other code of that name it runs, with a caution and the new code on record', async () => {
    writeFileSync(join(elsewhere, 'still.mjs'), module_('Nobody.'));
    const said = await jambeam(['run', 'report.html', '--logic', 'still.mjs', '--out', 'b.run'], { cwd: elsewhere });
    expect(said.code).toBe(0);
    expect(said.err).toMatch(/caution: still\.mjs is not the code of the logic "still" that the report was made with/);
    expect(said.err).toMatch(/its SHA-256 is [0-9a-f]{64}, not [0-9a-f]{64}: its counts may differ/);
    const { logics } = JSON.parse(read(elsewhere, 'b.run/design.json')) as { logics: { name: string }[] };
    expect(logics.map(({ name }) => name)).toEqual(['hold-off', 'still', 'my-table']);
    expect(logics[1]).toMatchObject({ defeated_by: 'Nobody.' });
  });

  test('code that is not there is told by name', async () => {
    const { code, err } = await jambeam(['run', 'report.html', '--logic', 'gone/still.mjs'], { cwd: elsewhere });
    expect(code).toBe(2);
    expect(err).toContain('gone/still.mjs: there is no such file');
  });

  test('other logics take the place of its own, as ever', async () => {
    const said = await jambeam(['run', 'report.html', '--logic', 'four-level', '--out', 'c.run'], { cwd: elsewhere });
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(JSON.parse(read(elsewhere, 'c.run/design.json'))).toMatchObject({ logics: [{ use: 'four-level' }] });
  });
});
