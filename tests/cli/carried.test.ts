/** A report alone: the scenario it carries runs again, to the same bytes, whatever was done to the file on its way. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import { folder, folderWithDoor, jambeam } from './jambeam.js';

const NUMBERS = ['passages.csv', 'tallies.csv', 'metrics.json', 'design.json', 'figures.json'];

/** Runs a scenario, takes its report elsewhere, runs that, and gives the folder of the report. */
async function twice(cwd: string, file: string, ...options: readonly string[]): Promise<string> {
  const first = await jambeam(['run', file, '--out', 'first.run', ...options], { cwd });
  expect(first).toMatchObject({ code: 0 });
  const elsewhere = folder();
  writeFileSync(join(elsewhere, 'report.html'), readFileSync(join(cwd, 'first.run/report.html')));
  const again = await jambeam(['run', 'report.html', '--out', 'again.run'], { cwd: elsewhere });
  expect(again).toMatchObject({ code: 0, out: first.out.replace('first.run', 'again.run') });
  for (const name of [...NUMBERS, 'report.html'])
    expect(read(elsewhere, 'again.run', name), name).toBe(read(cwd, 'first.run', name));
  return elsewhere;
}

const read = (...parts: readonly string[]): string => readFileSync(join(...parts), 'utf8');
/** The scenario with these logics in place of its own. */
const logics =
  (list: string) =>
  (text: string): string =>
    text.replace(/^logics:\n(?:[ #\n].*\n|\n)*/m, `logics: ${list}\n\n`);
const TABLE = logics('[{ use: table, file: my-logic.yaml }]');
const SHORT = ['--hours', '1', '--replicates', '2'];

describe('the same bytes from the report alone', () => {
  test('of a door with light barriers, under a heading that was given on the command line', async () => {
    await twice(folderWithDoor(), 'door.yaml', '--title', 'Way in', '--prepared-by', 'A. Builder');
  });

  test('of doors with distance sensors', async () => {
    await twice(folder(), resolve('scenarios/kinds-mixed.yaml'), ...SHORT);
  });

  test('of a house with a household and a table logic', async () => {
    const cwd = folder();
    await jambeam(['new', 'house', '--house'], { cwd });
    const file = join(cwd, 'house/scenario.yaml');
    const text = logics('[{ use: table, file: my-logic.yaml }, first-broken]')(readFileSync(file, 'utf8'));
    expect(text).toContain('household');
    writeFileSync(file, text);
    await twice(cwd, 'house/scenario.yaml', ...SHORT);
  });

  test('where a ledger learns before the run', async () => {
    const cwd = folderWithDoor((text) => text.replace('ledgers: [raw, floor]', 'ledgers: [raw, { use: likelihood }]'));
    const elsewhere = await twice(cwd, 'door.yaml');
    expect(read(elsewhere, 'again.run/design.json')).toContain('"calibration"');
  });

  test('where a sensor comes from a profile: the report holds its keys', async () => {
    const cwd = folderWithDoor((text) =>
      text.replace(/^sensors:\n(?: .*\n)*/m, 'sensors: { my-barrier: { profile: mine.yaml } }\n'),
    );
    writeFileSync(join(cwd, 'mine.yaml'), 'kind: light-barrier\nresponse_ms: 7\n');
    const elsewhere = await twice(cwd, 'door.yaml');
    expect(JSON.parse(read(elsewhere, 'again.run/design.json'))).toMatchObject({
      sensors: { 'my-barrier': { response_ms: 7 } },
    });
  });

  // A name holds 80 characters at most, a seed 200; a table is a text of its own, and anything may stand in its comments.
  const EVIL = `</script><script>alert(1)</script>"'&amp;--> <!-- ]]> שלום 🚪`;
  // What a scenario refuses in names a table may have in its comments.
  const WORSE = `${EVIL}\u202e\u2028\u2029\ufeff`;
  test('where names, seeds and tables mean harm', async () => {
    const cwd = folderWithDoor((text) =>
      text
        .replace(/^name: .*/m, `name: ${JSON.stringify(EVIL.slice(0, 80))}`)
        .replace(/^seed: .*/m, `seed: ${JSON.stringify(EVIL.repeat(2).slice(0, 200))}`)
        .replace(/^logics:\n(?:[ #\n].*\n|\n)*/m, 'logics: [{ use: table, file: "</script>.yaml" }]\n\n'),
    );
    mkdirSync(join(cwd, '<'), { recursive: true });
    writeFileSync(join(cwd, '<', 'script>.yaml'), `${read(cwd, 'my-logic.yaml')}\n# ${WORSE.repeat(200)}\n`);
    const elsewhere = await twice(cwd, 'door.yaml');
    const page = read(elsewhere, 'report.html');
    expect(WORSE.repeat(200).length).toBeGreaterThan(10_000);
    const packed = ['data', 'alive', 'ask'].map((what) => `<script type="text/plain" id="packed-${what}">`);
    const own = ['<script type="application/json" id="jambeam-scenario">', ...packed, '<script>'];
    expect(page.match(/<script[^>]*>/g)).toEqual(own);
    expect(page.match(/<\/script/g)).toHaveLength(own.length);
  });
});

describe('every command that takes a scenario takes a report', () => {
  const cwd = folderWithDoor(TABLE);
  const at = (name: string): string => join(cwd, name);
  beforeAll(async () => {
    expect(await jambeam(['run', 'door.yaml', '--edges'], { cwd })).toMatchObject({ code: 0 });
    writeFileSync(at('door.html'), read(cwd, 'door.run/report.html'));
    // Nothing beside it is needed.
    writeFileSync(at('my-logic.yaml'), 'no table: at all\n');
  });

  test('check', async () => {
    const { code, out } = await jambeam(['check', 'door.html'], { cwd });
    expect({ code, out }).toMatchObject({ code: 0 });
    expect(out).toContain('door.html can be simulated');
  });

  test('run, into a folder named after it', async () => {
    const { code, out } = await jambeam(['run', 'door.run/report.html'], { cwd });
    expect(code).toBe(0);
    expect(out).toContain('report.run/report.html');
  });

  test('passage', async () => {
    expect((await jambeam(['passage', 'door.html', '--who', 'child'], { cwd })).code).toBe(0);
  });

  test('replay: the log of the run, by the scenario of its report', async () => {
    const truth = ['--truth', 'door.run/passages.csv', '--out', 'log.run'];
    const said = await jambeam(['replay', 'door.run/edges.csv', '--scenario', 'door.html', ...truth], { cwd });
    expect(said).toMatchObject({ code: 0, err: '' });
    const page = read(cwd, 'log.run/report.html');
    expect(page).toContain('jambeam replay LOG.csv --scenario report.html --truth TRUTH.csv');
    expect(page).toContain('but not the log');
  });

  test('firmware: the table is the carried one', async () => {
    expect(await jambeam(['firmware', 'door.html', '--out', 'source'], { cwd })).toMatchObject({ code: 0, err: '' });
  });

  test('study: as the scenario that designs vary', async () => {
    writeFileSync(
      at('s.yaml'),
      'format: 1\nname: s\nscenario: door.html\nreplicates: 2\nfactors:\n  - { name: height_m, key: doors.front.beams.*.height_m, values: [0.9, 1.2] }\n',
    );
    const said = await jambeam(['study', 's.yaml', '--quiet', '--workers', '1'], { cwd });
    expect(said).toMatchObject({ code: 0 });
    const page = await jambeam(['run', 's.study/report.html'], { cwd });
    expect(page).toMatchObject({ code: 2, out: '' });
    expect(page.err).toContain('s.study/report.html: it is the report of a study');
    expect(page.err).toContain('--set KEY=LEVEL');
    const notAStudy = await jambeam(['study', 'door.html'], { cwd });
    expect(notAStudy.err).toContain('expected a study in YAML, found a web page');
  });

  test('with --set and --logic as with any scenario', async () => {
    const options = ['--set', 'doors.front.beams.*.height_m=1.3', '--logic', 'four-level', '--out', 'set.run'];
    expect((await jambeam(['run', 'door.html', ...options], { cwd })).code).toBe(0);
    expect(JSON.parse(read(cwd, 'set.run/design.json'))).toMatchObject({ logics: [{ use: 'four-level' }] });
  });
});

describe('files that went through other hands', () => {
  const cwd = folderWithDoor(TABLE);
  let page = '';
  beforeAll(async () => {
    expect(await jambeam(['run', 'door.yaml'], { cwd })).toMatchObject({ code: 0 });
    page = read(cwd, 'door.run/report.html');
  });
  const OPENING = '<script type="application/json" id="jambeam-scenario">';

  async function checked(edit: (page: string) => string): Promise<{ code: number | null; err: string }> {
    writeFileSync(join(cwd, 'page.html'), edit(page));
    return jambeam(['check', 'page.html'], { cwd });
  }
  const block = (page: string): string => /<script.*?<\/script>/s.exec(page)![0];
  /** The data changed, and written as JSON again. */
  const forged = (edit: (data: Record<string, unknown>) => unknown) => (page: string) =>
    page.replace(block(page), () => {
      const data = JSON.parse(block(page).slice(OPENING.length, -'</script>'.length)) as Record<string, unknown>;
      return `${OPENING}${JSON.stringify(edit(data)).replace(/</g, '\\u003c')}</script>`;
    });
  const scenario = (edit: (text: string) => string) => forged((d) => ({ ...d, scenario: edit(String(d['scenario'])) }));

  test.each<[string, (page: string) => string]>([
    [
      'attributes the other way round',
      (p) => p.replace(OPENING, '<script id="jambeam-scenario" type="application/json">'),
    ],
    ['single quotes and capitals', (p) => p.replace(OPENING, "<SCRIPT ID='jambeam-scenario' TYPE='application/json'>")],
    [
      'no quotes, more attributes',
      (p) => p.replace(OPENING, '<script\n data-x="a > b"  id = jambeam-scenario type=application/json >'),
    ],
    [
      'a note of the browser, lines ended otherwise',
      (p) =>
        p
          .replace('<!doctype html>', '<!DOCTYPE html>\r\n<!-- saved from url=(0018)file:///report.html -->')
          .replaceAll('\n', '\r\n'),
    ],
    ['a byte-order mark', (p) => `\ufeff${p}`],
    ['no doctype', (p) => p.replace('<!doctype html>\n', '')],
  ])('saved again with %s', async (_, edit) => {
    expect(edit(page)).not.toBe(page);
    expect(await checked(edit)).toMatchObject({ code: 0, err: '' });
  });

  test.each<[string, (page: string) => string, string]>([
    ['cut off within the data', (p) => p.slice(0, p.indexOf(OPENING) + 900), 'the scenario in it is cut off'],
    ['cut off within the tag', (p) => p.slice(0, p.indexOf(OPENING) + 20), 'no report of a single run'],
    [
      'ended within the data',
      (p) => p.slice(0, p.indexOf(OPENING) + 900) + '</script></body></html>',
      'cut off or broken',
    ],
    ['with two scenarios', (p) => p.replace(block(p), (b) => b + b), 'expected one scenario in it, found 2'],
    [
      'in another format',
      forged((d) => ({ ...d, format: 2 })),
      'its scenario is in format 2; this version of jambeam reads format 1',
    ],
    ['in no format', forged(() => null), 'format'],
    ['with a list', forged(() => [1]), 'format nothing'],
    ['with another key', forged((d) => ({ ...d, path: '/etc' })), 'path'],
    ['without its tables', forged((d) => ({ ...d, tables: undefined })), 'tables'],
    ['with a table that is none', forged((d) => ({ ...d, tables: { 'my-logic.yaml': 7 } })), 'tables.my-logic.yaml'],
    [
      'with very many tables',
      forged((d) => ({ ...d, tables: Object.fromEntries(Array.from({ length: 21 }, (_, i) => [`${i}`, ''])) })),
      'more than 20 tables',
    ],
    ['with a huge scenario', scenario((t) => t + '#'.repeat(1_100_000)), 'scenario'],
    ['with NUL in the data', (p) => p.replace('"format":1', '"format":1\u0000'), 'expected JSON'],
    [
      'with NUL in the scenario',
      scenario((t) => `\u0000${t}`),
      'page.html: its scenario:1:1: expected a text file, found binary data',
    ],
    ['with an empty scenario', scenario(() => ''), 'the file is empty'],
    ['with very many scripts', (p) => p + '<script "'.repeat(200_000), 'this is no report of ours'],
    ['without the data', (p) => p.replace(block(p), ''), 'it is a page of ours but carries no scenario'],
    [
      'that is any page',
      () => '<!doctype html><title>Bread</title>',
      'page.html: it is a web page but no report of a run',
    ],
    ['with markup in the data', (p) => p.replace('"format":1', '"format":1,"x":"<b>"'), 'cut off'],
  ])('a page %s is refused in words', async (_, edit, words) => {
    const said = await checked(edit);
    expect(said).toMatchObject({ code: 2 });
    expect(said.err).toContain(words);
    expect(said.err).not.toMatch(/\n\s+at |undefined/);
  });

  test('what is wrong with the scenario and its table is told at its place', async () => {
    const both = forged(({ scenario: text, tables, ...rest }) => ({
      ...rest,
      scenario: String(text).replace(/width_m: [\d.]+/, 'width_m: 90'),
      tables: {
        'my-logic.yaml': String((tables as Record<string, string>)['my-logic.yaml']).replace('states:', 'stats:'),
      },
    }));
    const { err } = await checked(both);
    expect(err).toMatch(/^page\.html: its scenario:\d+:\d+: doors\.front\.width_m: /m);
    expect(err).toMatch(/^page\.html: its my-logic\.yaml:\d+:\d+: /m);
    expect(err).toContain('problems with page.html; nothing was done');
  });

  test('names that reach into objects are names like others', async () => {
    const evil = (p: string): string =>
      p.replace('"tables":{', '"tables":{"__proto__":"format: 1","constructor":"format: 1",');
    expect((await checked(evil)).code).toBe(0);
    const asks = scenario((t) => t.replace('file: my-logic.yaml', 'file: constructor'));
    expect((await checked(asks)).err).toContain('there is no such file');
  });

  test('files outside its folder are out of reach', async () => {
    const asks = scenario((t) => t.replace('file: my-logic.yaml', 'file: ../../secret.yaml'));
    expect((await checked(asks)).err).toContain("must not lead out of the scenario's folder");
  });

  test('another version is said', async () => {
    const said = await checked(forged((d) => ({ ...d, jambeam: '0.0.1\u001b[2J' })));
    expect(said.code).toBe(0);
    expect(JSON.stringify(said)).toContain(String.raw`was made by jambeam 0.0.1\\u{1b}[2J`);
  });
});
