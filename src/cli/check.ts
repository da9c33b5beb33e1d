/** `jambeam check`: what follows from a scenario before anything is built or simulated at length. */
import { compileTable } from '../counter/table/compile.js';
import { tableAsText } from '../counter/table/text.js';
import { cabling } from '../effort/cables.js';
import { type Effort, effortOf } from '../effort/effort.js';
import { CAUTIONS } from '../report/cautions.js';
import { houseFile } from '../report/drawing/house-file.js';
import { storeyDrawings } from '../report/drawing/house-plan.js';
import { whyNoLengths } from '../report/effort-words.js';
import { bare, metres, plain, plural } from '../report/words.js';
import { explain, formatIssue } from '../scenario/explain.js';
import type { Issue } from '../scenario/issue.js';
import { planOf } from '../scenario/plan-of.js';
import type { Design, DesignDoor } from '../scenario/schema.js';
import { readYaml } from '../scenario/yaml-source.js';
import type { DoorFacts } from '../simulate/fact-types.js';
import type { LadderRow } from '../simulate/ladder.js';
import { LADDER_ROD } from '../simulate/ladder.js';
import { factIssues } from './caution-words.js';
import { type Findings, findingsOf } from './check-findings.js';
import type { CheckJob } from './check-worker.js';
import { factGroups } from './fact-words.js';
import { effortText, planText } from './effort-text.js';
import { replaceFile } from './files.js';
import { inWorker } from './in-worker.js';
import type { Io, Paint } from './io.js';
import { jsonText } from './io.js';
import { ladderSentences, ladderTable } from './ladder-words.js';
import { folded, indented } from './lines.js';
import type { LogicOptions } from './logic-options.js';
import { codeOf, givenLogics } from './logic-options.js';
import { UserProblem, pathText } from './problem.js';
import { isStudyFile, loadScenario } from './scenario-file.js';

const CHECK_WORKER = new URL('./check-worker.js', import.meta.url);

export interface CheckOptions extends LogicOptions {
  readonly set?: readonly string[];
  readonly json?: boolean;
  /** File for the drawing of the house. */
  readonly plan?: string;
}

/** @throws {UserProblem} with all that is wrong with the scenario */
export function checkCommand(file: string, options: CheckOptions, io: Io): void | Promise<void> {
  if (isStudyFile(file))
    return import('./study/check-study.js').then((study) => study.checkStudyCommand(file, options, io));
  const sets = options.set ?? [];
  const given = givenLogics(options);
  const { design, cautions, text } = loadScenario(file, sets, given);
  const effort = effortOf(design);
  if (options.plan !== undefined) writePlan(design, effort, options.plan, io);
  // What a set has changed no longer stands in the file.
  const source = sets.length === 0 ? readYaml(text.text, text.file).source : null;
  const tell = (found: Findings): void => {
    const all = [...cautions, ...factIssues(design, found.facts, source)];
    io.out(
      options.json === true
        ? jsonText(checkData(all, found, effort))
        : checkText(design, all, found, { file, paint: io.paint, effort }),
    );
  };
  const code = codeOf(design, given);
  if (!code) return tell(findingsOf(design));
  // Code of the user's own may never return: it goes on a thread that can be ended.
  const job: CheckJob = { design, code, what: 'the check' };
  return inWorker<Findings>(CHECK_WORKER, job, { io, doors: design.doors.map(({ name }) => name) }).then(tell);
}

/** The drawing, all storeys in one file. @throws {UserProblem} without a plan, or for a name that is no .svg */
function writePlan(design: Design, effort: Effort, file: string, io: Io): void {
  if (!/\.svg$/i.test(file)) throw new UserProblem(`${pathText(file)}: expected a file name that ends in .svg`);
  const { plan } = planOf(design);
  if (!plan) {
    const why = whyNoLengths(effort);
    throw new UserProblem(
      'there is no plan to draw: rooms need at_m and size_m, doors at_m',
      why === null ? undefined : bare(why),
    );
  }
  replaceFile(file, houseFile(plain(design.name), storeyDrawings(design, plan, cabling(design, plan, 'drilled'))));
  io.err(`the plan is in ${pathText(file)}\n`);
}

/** The same for programs. */
function checkData(cautions: readonly Issue[], found: Findings, effort: Effort): object {
  return {
    ok: true,
    cautions: cautions.map((issue) => ({ place: issue.place, path: issue.path, ...explain(issue) })),
    doors: found.facts.map((facts, i) => ({ ...facts, ladder: found.ladders[i] })),
    effort,
  };
}

/** The whole page for a terminal. `file` is the scenario as the user named it. */
export function checkText(
  design: Design,
  cautions: readonly Issue[],
  found: Findings,
  {
    file,
    paint,
    effort = effortOf(design),
  }: { readonly file: string; readonly paint: Paint; readonly effort?: Effort },
): string {
  const many = cautions.length === 0 ? 'no cautions' : plural(cautions.length, 'caution');
  return [
    `${paint.bold(paint.green('OK'))}  ${pathText(file)} can be simulated; ${many}\n` +
      cautions.map((caution) => `${paint.yellow('caution:')} ${formatIssue(caution)}\n`).join(''),
    ...design.doors.map(
      (door, i) =>
        doorText(door, found.facts[i]!, paint) + ladderText(design, found.facts[i]!, found.ladders[i]!, paint),
    ),
    ...[planText(design, effort, paint)].filter((text) => text !== ''),
    effortText(design, effort, paint),
    logicsText(design, found, paint),
    beforeBuilding(paint),
  ].join('\n');
}

function doorText(door: DesignDoor, facts: DoorFacts, paint: Paint): string {
  const title = `Door ${plain(door.name)}: ${plain(door.from)} to ${plain(door.to)}, ${metres(door.width_m)} wide, ${metres(door.height_m)} high`;
  const groups = factGroups(facts).map(
    (group) => `  ${paint.bold(group.title)}\n${group.sentences.map((one) => folded(one, '    ')).join('')}`,
  );
  return `${paint.bold(paint.cyan(title))}\n${groups.join('')}`;
}

function ladderText(design: Design, { rangers }: DoorFacts, rows: readonly LadderRow[], paint: Paint): string {
  const logic = plain(design.logics[0]?.name ?? '');
  const crossings = rows[0]?.cells[0]?.crossings ?? 0;
  // What looks down from the lintel has one height only.
  const one = rows.length === 1;
  const past = one ? 'the beams as they are' : 'level beams at every height';
  const about =
    `The same ${crossings} adults, ${crossings} children and ${crossings} passes of a test rod (${metres(LADDER_ROD.diameter_m)} thick, ` +
    `${metres(LADDER_ROD.height_m)} tall, ${LADDER_ROD.speed_mps}\u00a0m/s), each alone, past ${past}, counted by ${logic}. Under each name: breaks per crossing and beam, then missed ` +
    'and false counts (extra, reversed, invented) per 100 crossings.' +
    (rangers?.heard.some(({ when }) => when === 'other controller') === true
      ? " Bursts of other controllers' rangers are left out."
      : '');
  return (
    `  ${paint.bold(one ? 'Counted' : 'Height ladder')}\n${folded(about, '    ')}\n` +
    `${indented(ladderTable(rows, paint), '    ')}\n` +
    ladderSentences(rows)
      .map((one) => folded(one, '    '))
      .join('')
  );
}

function logicsText(design: Design, { defeated_by }: Findings, paint: Paint): string {
  const defeats = design.logics.map(({ name }, l) => {
    const words = defeated_by[l] || 'it does not say.';
    return folded(`${plain(name)}: ${plain(words)}`, '  ');
  });
  const tables = design.logics.flatMap((choice) => {
    if (choice.use !== 'table') return [];
    const { table } = compileTable(design.tables[choice.file] ?? '', choice.file, choice.name);
    return table ? [`${paint.dim(pathText(choice.file))}\n${tableAsText({ ...table, name: choice.name })}`] : [];
  });
  const title = paint.bold(paint.cyan('Logics, and what defeats them'));
  return [`${title}\n${defeats.join('')}`, ...tables].join('\n');
}

function beforeBuilding(paint: Paint): string {
  return `${paint.bold(paint.cyan('Mind'))}\n${CAUTIONS.map(({ title, text }) => folded(`${title}. ${text}`, '  ')).join('')}`;
}
