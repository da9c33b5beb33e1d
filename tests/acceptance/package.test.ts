/**
 * The package: packed, laid into a project elsewhere, and used there by someone who has nothing else of ours. The long run
 * installs it from the registry in earnest, with all that comes along.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { builtinModules } from 'node:module';
import { dirname, join, posix } from 'node:path';
import { build } from 'esbuild';
import { beforeAll, describe, expect, test } from 'vitest';
import { folder, jambeam, jambeamProcess } from '../cli/jambeam.js';
import { LONG } from '../how-many.js';
import { ROOT, anchorsOf, page } from './markdown.js';

interface Manifest {
  readonly version: string;
  readonly bin: Readonly<Record<string, string>>;
  readonly exports: Readonly<Record<string, string | Readonly<Record<string, string>>>>;
  readonly dependencies: Readonly<Record<string, string>>;
}

/** A project that has installed the package, and nothing but what the package asks for. */
const project = folder();
const installed = join(project, 'node_modules/jambeam');
const manifest = JSON.parse(page('package.json')) as Manifest;
/** Every file in the package. */
let files: readonly string[] = [];

beforeAll(() => {
  const made = folder();
  // Without scripts: they would build anew, and pull the compiled files from under the other tests.
  execFileSync('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', made], { cwd: ROOT });
  const tarball = join(made, `jambeam-${manifest.version}.tgz`);
  writeFileSync(join(project, 'package.json'), '{"private":true,"type":"module"}');
  if (!LONG) layOut(tarball, made);
  else execFileSync('npm', ['install', '--no-audit', '--no-fund', tarball], { cwd: project, stdio: 'ignore' });
  files = readdirSync(installed, { recursive: true, encoding: 'utf8' })
    .filter((path) => statSync(join(installed, path)).isFile() && !path.startsWith('node_modules'))
    .map((path) => path.replaceAll('\\', '/'));
}, 300_000);

/** As `npm install` would, from what this checkout has: only what the package itself asks for is within its reach. */
function layOut(tarball: string, made: string): void {
  execFileSync('tar', ['-xzf', tarball, '-C', made]);
  mkdirSync(dirname(installed), { recursive: true });
  renameSync(join(made, 'package'), installed);
  for (const name of Object.keys(manifest.dependencies)) {
    const place = join(project, 'node_modules', name);
    mkdirSync(dirname(place), { recursive: true });
    symlinkSync(join(ROOT, 'node_modules', name), place);
  }
}

describe('what is in it', () => {
  const NEEDED = [
    /^(package\.json|README\.md|CHANGELOG\.md|LICENSE)$/,
    /^bin\/jambeam\.js$/,
    /^dist\/(index|(agents|cli|counter|effort|engine|fitting|geometry|plugins|report|scenario|score|sensors|simulate|study)\/[\w/-]+)\.js$/,
    // What the library's types lead to.
    /^dist\/(index|(agents|counter|engine|geometry|report|scenario|score|sensors|simulate)\/[\w/-]+)\.d\.ts$/,
    /^dist\/(licences\.txt|page\/(scripts\.json|licences\.txt))$/,
    /^scenarios\/((studies|tables)\/)?[\w-]+\.yaml$/,
    // `jambeam new` copies it.
    /^scenarios\/my-logic\.ts$/,
    /^docs\/((api|tutorials)\/)?[\w-]+\.(md|schema\.json)$/,
    // The pages show them.
    /^docs\/(report\.png|passage\.svg)$/,
    /^docs\/examples\/(four-level\.(c|py|ts)|library\.ts)$/,
  ];

  test('nothing but what somebody needs', () => {
    expect(files.filter((file) => !NEEDED.some((pattern) => pattern.test(file)))).toEqual([]);
    expect(files).not.toContain('docs/mutation.md');
  });

  test('each kind of it', () => {
    expect(NEEDED.filter((pattern) => !files.some((file) => pattern.test(file)))).toEqual([]);
  });

  test('every lesson, every page for users, every picture of a page', () => {
    const kept = execFileSync('git', ['ls-files', 'scenarios', 'docs'], { cwd: ROOT, encoding: 'utf8' });
    const there = kept
      .trim()
      .split('\n')
      .filter((path) => path !== 'docs/mutation.md' && existsSync(join(ROOT, path)));
    expect(there.filter((path) => !files.includes(path))).toEqual([]);
  });

  test('a compiled file for each source, and none of a source that is gone', () => {
    const modules = (all: readonly string[], ending: string) =>
      all.filter((file) => file.endsWith(ending)).map((file) => file.slice(0, -ending.length).replaceAll('\\', '/'));
    const sources = modules(readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' }), '.ts');
    const compiled = modules(files, '.js').flatMap((file) => (file.startsWith('dist/') ? [file.slice(5)] : []));
    expect(compiled.sort()).toEqual(sources.filter((file) => !file.startsWith('page/')).sort());
  });

  test('every file that package.json names', () => {
    const named = Object.values(manifest.exports).flatMap((one) =>
      typeof one === 'string' ? one : Object.values(one),
    );
    for (const path of [...Object.values(manifest.bin), ...named]) expect(files).toContain(posix.normalize(path));
  });

  test('whatever its pages link to', () => {
    const pages = files.filter((file) => file.endsWith('.md'));
    const broken = pages.flatMap((file) =>
      [...readFileSync(join(installed, file), 'utf8').matchAll(/\]\(([^)\s]+)\)/g)]
        .map(([, link]) => link as string)
        .filter((link) => !/^https?:\/\//.test(link))
        .filter((link) => {
          const [path = '', anchor] = link.split('#');
          const target = join(installed, path === '' ? file : posix.join(posix.dirname(file), path));
          if (!existsSync(target)) return true;
          return anchor !== undefined && !anchorsOf(readFileSync(target, 'utf8')).has(anchor);
        })
        .map((link) => `${file}: ${link}`),
    );
    expect(pages.length).toBeGreaterThan(15);
    expect(broken).toEqual([]);
  });

  test('the README names the file it is packed into', () => {
    const named = [...page('README.md').matchAll(/jambeam-[\d.]+\d\.tgz/g)].map(([name]) => name);
    expect(new Set(named)).toEqual(new Set([`jambeam-${manifest.version}.tgz`]));
  });
});

test('its modules import each other, Node’s, and the packages it asks for: all of these, and no other', async () => {
  const modules = files.filter((file) => file.endsWith('.js'));
  const { metafile } = await build({
    stdin: { contents: modules.map((file) => `import './${file}';`).join('\n'), resolveDir: installed },
    absWorkingDir: installed,
    bundle: true,
    packages: 'external',
    platform: 'node',
    format: 'esm',
    write: false,
    metafile: true,
  });
  const outside = Object.values(metafile.inputs).flatMap(({ imports }) =>
    imports.flatMap(({ path, external }) => (external ? [path] : [])),
  );
  const packages = outside
    .filter((path) => !path.startsWith('node:') && !builtinModules.includes(path))
    .map((path) => /^(?:@[^/]+\/)?[^/]+/.exec(path)?.[0] ?? path);
  expect([...new Set(packages)].sort()).toEqual(Object.keys(manifest.dependencies).sort());
}, 60_000);

describe('its command, in an empty folder elsewhere', () => {
  // The starter is for thousands of passages; here a few will do.
  const run =
    'run door/scenario.yaml --logic door/my-logic.ts --logic four-level --replicates 1 --hours 0.2 --out door.run';
  const [here, there] = [folder(), folder()];
  const launcher = () => join(installed, manifest.bin['jambeam'] as string);
  const filesOf = (path: string) =>
    readdirSync(path, { recursive: true, encoding: 'utf8' })
      .filter((one) => statSync(join(path, one)).isFile())
      .sort();

  test.each(['new door --width_m 0.85', run])('%s', async (line) => {
    const args = line.split(' ');
    const said = jambeamProcess(args, { cwd: there, launcher: launcher() });
    const expected = await jambeam(args, { cwd: here });
    expect(said).toMatchObject({ code: 0 });
    // `new` says what to type next, and both can be typed.
    const commands = /\S*\bnode \S+bin\/jambeam\.js/g;
    expect(said.out.replace(commands, 'jambeam')).toBe(expected.out.replace(commands, 'jambeam'));
  });

  test('check door/scenario.yaml', () => {
    const said = jambeamProcess(['check', 'door/scenario.yaml'], { cwd: there, launcher: launcher() });
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out).toMatch(/height/i);
  });

  test('report door.run: after all, the same bytes as the checkout’s', () => {
    rmSync(join(there, 'door.run/report.html'));
    expect(jambeamProcess(['report', 'door.run'], { cwd: there, launcher: launcher() })).toMatchObject({ code: 0 });
    expect(filesOf(there)).toEqual(expect.arrayContaining(['door/my-logic.ts', 'door.run/report.html']));
    expect(filesOf(there)).toEqual(filesOf(here));
    for (const path of filesOf(there))
      expect({ path, same: readFileSync(join(there, path)).equals(readFileSync(join(here, path))) }).toEqual({
        path,
        same: true,
      });
  });
});

describe('its library', () => {
  test('works in plain Node, by its name', () => {
    const program = `
      import { readFileSync } from 'node:fs';
      import { VERSION, parseScenario, simulate } from 'jambeam';
      import manifest from 'jambeam/package.json' with { type: 'json' };
      const text = readFileSync('node_modules/jambeam/scenarios/shin-height.yaml', 'utf8');
      const { design, issues } = parseScenario(text, 'shin-height.yaml', { sets: ['replicates=2', 'hours=1'] });
      const { metrics } = simulate(design);
      console.log(JSON.stringify([issues.length, VERSION, manifest.version, metrics.house.wrong_per_100.value]));`;
    const out = execFileSync(process.execPath, ['--no-warnings', '--input-type=module', '-e', program], {
      cwd: project,
      encoding: 'utf8',
    });
    const [issues, version, said, wrong] = JSON.parse(out) as [number, string, string, number];
    expect({ issues, version, said }).toEqual({ issues: 0, version: manifest.version, said: manifest.version });
    expect(wrong).toBeGreaterThan(0);
  });

  test('nothing within can be got at but what it gives', () => {
    const inner = "import('jambeam/dist/cli/main.js').catch(({ code }) => console.log(code))";
    const out = execFileSync(process.execPath, ['-e', inner], { cwd: project, encoding: 'utf8' });
    expect(out).toBe('ERR_PACKAGE_PATH_NOT_EXPORTED\n');
  });

  test('every declaration that another one leads to is there', () => {
    const declared = files.filter((file) => file.endsWith('.d.ts'));
    const led = declared.flatMap((file) =>
      [...readFileSync(join(installed, file), 'utf8').matchAll(/\b(?:from |import\()['"](\.[^'"]+)\.js['"]/g)].map(
        ([, path]) => posix.join(posix.dirname(file), `${path as string}.d.ts`),
      ),
    );
    expect(led.length).toBeGreaterThan(declared.length);
    expect(led.filter((path) => !files.includes(path))).toEqual([]);
  });

  // Each line marked as an error must be one: else the types would be `any`, which is what types that don't resolve are.
  const PROGRAM = `
import { type Design, type Issue, type Metrics, VERSION, defineLogic, formatIssue, heightLadder, parseScenario, simulate } from 'jambeam';
import { reportOf } from 'jambeam/report';
const { design, issues }: { design: Design | null; issues: readonly Issue[] } = parseScenario('format: 1', 'door.yaml');
export const words: string[] = issues.map(formatIssue);
// @ts-expect-error: it may be null
simulate(design);
if (design !== null) {
  const { metrics }: { metrics: Metrics } = simulate(design);
  export_(metrics.house.wrong_per_100.value, design.doors[0]?.width_m, heightLadder);
  export_(reportOf(design, simulate(design)).then((text: string) => text.length));
  // @ts-expect-error: there is no report without numbers
  export_(reportOf(design));
  // @ts-expect-error: no such metric
  metrics.house.right_per_100;
}
function export_(...all: unknown[]): void { void all; }
// @ts-expect-error: a text
export const version: number = VERSION;
// @ts-expect-error: a logic has a step
defineLogic({});
`;

  test.each([
    { module: 'nodenext', resolution: 'nodenext' },
    { module: 'esnext', resolution: 'bundler' },
  ])('its types resolve: $resolution', ({ module, resolution }) => {
    const file = `program-${resolution}.ts`;
    writeFileSync(join(project, file), PROGRAM);
    cpSync(join(installed, 'scenarios/my-logic.ts'), join(project, 'my-logic.ts'));
    // No types of Node's are at hand. Before a release what is declared is checked, too; zod's types need `URL` then.
    const [lib, skip] = LONG ? ['es2023,dom', 'false'] : ['es2023', 'true'];
    const options = ['--module', module, '--moduleResolution', resolution, '--target', 'es2022', '--lib', lib];
    const strict = ['--strict', '--noEmit', '--types', '', '--skipLibCheck', skip, '--ignoreConfig'];
    const tsc = join(ROOT, 'node_modules/typescript/bin/tsc');
    const { stdout, status } = spawnSync(process.execPath, [tsc, ...options, ...strict, file, 'my-logic.ts'], {
      cwd: project,
      encoding: 'utf8',
    });
    expect({ stdout, status }).toEqual({ stdout: '', status: 0 });
  });
});
