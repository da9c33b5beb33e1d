/** What somebody sees who doesn't know the commands yet. */
import { cpSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { spawnSync } from 'node:child_process';
import { expect, test } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { VERSION } from '../../src/simulate/version.js';
import { LAUNCHER, folder, jambeam, jambeamProcess } from './jambeam.js';

const cwd = folder();

test('--version tells the version of package.json', async () => {
  expect(VERSION).toBe(packageJson.version);
  expect(jambeamProcess(['--version'], { cwd })).toEqual({ code: 0, out: `jambeam ${packageJson.version}\n`, err: '' });
});

test('help teaches by example; no command at all gives the same help', async () => {
  const help = jambeamProcess(['--help'], { cwd });
  expect(help).toMatchObject({ code: 0, err: '' });
  for (const command of ['new', 'check', 'run', 'report', 'passage', 'walktest', 'fit', 'firmware', 'keys', 'sources'])
    expect(help.out).toMatch(new RegExp(`^  ${command} `, 'm'));
  expect(help.out).toContain('jambeam run my-door/scenario.yaml');
  expect(await jambeam([], { cwd })).toEqual(help);
});

test.each(['new', 'check', 'run', 'report', 'passage', 'walktest', 'fit', 'firmware', 'keys', 'sources'])(
  '%s --help has an example',
  async (command) => {
    const { code, out } = await jambeam([command, '--help'], { cwd });
    expect(code).toBe(0);
    expect(out).toMatch(new RegExp(`Examples?:\\n  jambeam ${command}`));
  },
);

// A time would depend on the machine. The library of schemas alone took as long as Node itself.
test('help comes at once: before a command is known, only the libraries of words and colours are loaded', () => {
  const packages = new Set<string>();
  const seen = new Set<string>();
  const follow = (file: string): void => {
    if (seen.has(file)) return;
    seen.add(file);
    for (const [, from] of readFileSync(file, 'utf8').matchAll(/^import .*?['"]([^'"]+)['"];$/gm)) {
      if (from!.startsWith('.')) follow(resolve(dirname(file), from!));
      else packages.add(from!);
    }
  };
  follow(resolve('dist/cli/main.js'));
  expect(seen.size).toBeGreaterThan(5);
  expect([...packages].sort()).toEqual(['commander', 'picocolors']);
});

test.each([
  ['a command that does not exist', ['rum'], "unknown command 'rum'", 'Did you mean run?'],
  ['an option that does not exist', ['run', 'x.yaml', '--sed', '1'], "unknown option '--sed'", 'Did you mean'],
  ['no scenario', ['run'], "missing required argument 'scenario'", '--help'],
  ['an option without its value', ['run', 'x.yaml', '--out'], 'argument missing', '--help'],
])('%s: one message, a hint, exit code 2', async (_, args, message, hint) => {
  const said = await jambeam(args, { cwd });
  expect(said).toMatchObject({ code: 2, out: '' });
  expect(said.err).toContain(message);
  expect(said.err).toContain(hint);
});

test('what is typed comes back without terminal escapes', async () => {
  const { err } = await jambeam(['\u001b[2Jrum\u0007'], { cwd });
  // oxlint-disable-next-line no-control-regex -- they are what is looked for
  expect(err).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
  expect(err).toContain('\\u{1b}[2Jrum\\u{7}');
});

test('colours show on terminals only, and NO_COLOR is kept', async () => {
  // Output is piped here, so there is no terminal.
  expect(jambeamProcess(['keys'], { cwd }).out).not.toContain('\u001b');
});

test('the launcher says what to do when the project is not built', () => {
  const clone = folder();
  mkdirSync(join(clone, 'bin'));
  cpSync(LAUNCHER, join(clone, 'bin/jambeam.js'));
  writeFileSync(join(clone, 'package.json'), '{"type":"module"}');
  const { status, stderr } = spawnSync(process.execPath, [join(clone, 'bin/jambeam.js'), 'keys'], { encoding: 'utf8' });
  expect(stderr).toContain('npm run build');
  expect(status).toBe(2);
});

test('the launcher says which Node it needs', async () => {
  const old = `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '18.19.0' } })`;
  const { code, err } = jambeamProcess(['keys'], {
    cwd,
    env: { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(old)}` },
  });
  expect(err).toBe('jambeam needs Node 20 or later; this is Node 18.19.0\n');
  expect(code).toBe(2);
});

test('a failure of ours says so, with the version and a line that repeats it, and no stack unless asked', async () => {
  const broken = `JSON.stringify = () => { throw new TypeError('broken for this test'); }`;
  const env = { NODE_OPTIONS: `--import=data:text/javascript,${encodeURIComponent(broken)}` };
  const said = jambeamProcess(['keys', '--json'], { cwd, env });
  expect(said).toMatchObject({ code: 1, out: '' });
  expect(said.err).toContain('the fault is ours, not yours: broken for this test');
  expect(said.err).toContain(VERSION);
  expect(said.err).toContain('  jambeam keys --json\n');
  expect(said.err).not.toMatch(/^\s+at /m);
  expect(jambeamProcess(['keys', '--json'], { cwd, env: { ...env, JAMBEAM_DEBUG: '1' } }).err).toMatch(/^\s+at /m);
});
