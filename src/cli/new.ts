/** `jambeam new`: a folder with a scenario to start from. Nothing that is there already is ever overwritten. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { starterTable } from '../counter/table/starter.js';
import { formatIssue } from '../scenario/explain.js';
import { listKeys } from '../scenario/keys.js';
import { parseScenario } from '../scenario/parse.js';
import { nearest } from '../engine/nearest.js';
import { literal } from '../engine/printable.js';
import { starterScenario } from '../scenario/starter.js';
import { SENSOR_KINDS } from '../sensors/schema.js';
import { schemaText } from './editor-schemas.js';
import { kindOf, readText } from './files.js';
import type { Io } from './io.js';
import { kindForFolder, writeInto } from './new-places.js';
import { UserProblem, onDisk, pathText } from './problem.js';
import { shellWord } from '../report/shell-word.js';
import { typedNumber } from './typed-number.js';

export interface NewOptions {
  readonly width_m?: string;
  readonly sensor?: string;
  /** A whole house instead of one doorway. */
  readonly house?: boolean;
}

export function newCommand(folder: string, options: NewOptions, io: Io): void {
  if (folder === '') throw new UserProblem('expected a folder to make, found nothing');
  const files = starterFiles(options);
  const name = pathText(folder);
  const present = kindForFolder(folder) === 'folder' ? filesThere(resolve(folder), name, files) : [];
  const missing = Object.entries(files).filter(([file]) => !present.includes(file));
  writeInto(folder, Object.fromEntries(missing));
  const written = missing.map(([file]) => file).join(', ');
  const scenario = pathText(join(folder, 'scenario.yaml'));
  const command = commandName();
  io.out(
    `${missing.length > 0 ? `Wrote ${written} to ${name}.` : `${name} holds the starter already.`} Next:

  ${io.paint.bold(`${command} check ${shellWord(scenario)}`)}    what ${options.house ? 'each doorway' : 'this doorway'} can tell, at which height
  ${io.paint.bold(`${command} run ${shellWord(scenario)}`)}      simulate it and write a report
  ${io.paint.bold(`${command} run ${shellWord(scenario)} --logic ${shellWord(pathText(join(folder, 'my-logic.ts')))}`)}
      the same with a logic of your own

Describe your own ${options.house ? 'house' : 'doorway'} in ${scenario}; ${options.house ? `\`${command} keys\` says what each key means` : 'every line says what it means'}.
`,
  );
}

function starterFiles(options: NewOptions): Record<string, string> {
  if (options.house) return houseFiles(options);
  const { width_m, sensor = 'light-barrier' } = options;
  const kind = SENSOR_KINDS.find((one) => one === sensor);
  if (kind === undefined) {
    const near = nearest(sensor, SENSOR_KINDS);
    throw optionProblem('--sensor', {
      code: 'not_one_of',
      choices: SENSOR_KINDS,
      found: literal(sensor),
      nearest: near,
    });
  }
  const scenario = starterScenario({
    sensor: kind,
    ...(width_m === undefined ? {} : { width_m: widthOf(width_m) }),
  });
  const table = starterTable();
  const { issues } = parseScenario(scenario, 'scenario.yaml', { readFile: () => table });
  if (issues.length > 0) throw new Error(`the starter scenario is wrong: ${issues.map(formatIssue).join('; ')}`);
  return {
    'scenario.yaml': scenario,
    'my-logic.yaml': `# yaml-language-server: $schema=./table.schema.json\n${table}`,
    'my-logic.ts': ofScenarios('my-logic.ts'),
    'scenario.schema.json': schemaText('scenario'),
    'table.schema.json': schemaText('table'),
  };
}

/** The guesthouse that comes with the project: a plan, a household and its guests to change into one's own. */
function houseFiles({ width_m, sensor }: NewOptions): Record<string, string> {
  const other = width_m !== undefined ? '--width_m' : sensor !== undefined ? '--sensor' : undefined;
  if (other !== undefined)
    throw new UserProblem(
      `--house writes a whole house: ${other} is for one doorway`,
      `leave ${other} out, and change the scenario afterwards`,
    );
  return {
    'scenario.yaml': ofScenarios('guesthouse.yaml').replace(
      /^.*\n/,
      '# yaml-language-server: $schema=./scenario.schema.json\n',
    ),
    'my-logic.ts': ofScenarios('my-logic.ts'),
    'scenario.schema.json': schemaText('scenario'),
  };
}

/** A file that comes with the project, as it stands. */
function ofScenarios(name: string): string {
  return readText(fileURLToPath(new URL(`../../scenarios/${name}`, import.meta.url)), 'a file');
}

function widthOf(text: string): number {
  const row = listKeys().find(({ path }) => path === 'doors.*.width_m');
  const { min = 0, max = Infinity } = row ?? {};
  const width = typedNumber(text);
  const unit = 'm';
  if (!Number.isFinite(width))
    throw optionProblem('--width_m', { code: 'wrong_type', expected: 'number', found: literal(text), unit });
  if (width < min || width > max)
    throw optionProblem('--width_m', { code: 'out_of_range', min, max, unit, found: width });
  return width;
}

function optionProblem(option: string, problem: Parameters<typeof formatIssue>[0]['problem']): UserProblem {
  return new UserProblem(formatIssue({ place: null, path: option, problem }));
}

/** Which of our files are there, as we would write them; anything else in the folder is the user's. */
function filesThere(path: string, name: string, files: Readonly<Record<string, string>>): string[] {
  const entries = onDisk(`${name} can't be read`, () => readdirSync(path)).sort();
  const another = 'name a folder that does not exist yet';
  const [foreign] = entries.filter((entry) => !Object.hasOwn(files, entry));
  if (foreign !== undefined)
    throw new UserProblem(`${name} is there already, with other files in it: ${pathText(foreign)}`, another);
  const edited = entries.filter((entry) => {
    const file = join(path, entry);
    return kindOf(file) !== 'file' || readText(file, 'a file') !== files[entry];
  });
  if (edited.length > 0)
    throw new UserProblem(
      `${name} holds ${edited.join(', ')} already, and it may be your work: nothing was written`,
      `go on with it, ${another}, or move it away to get the starter again`,
    );
  return entries;
}

/** What the user has to type to get here again. */
function commandName(): string {
  const launcher = process.argv[1] ?? 'jambeam';
  if (process.env['npm_command'] === 'exec') return 'npx jambeam';
  if (basename(launcher) === 'jambeam') return 'jambeam';
  const path = relative(process.cwd(), launcher);
  return `node ${shellWord(path.startsWith('..') && dirname(path).length > 40 ? launcher : path)}`;
}
