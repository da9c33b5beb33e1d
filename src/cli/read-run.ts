/** The folder of a finished run, read back as if a stranger had sent it. */
import { join } from 'node:path';
import type { z } from 'zod';
import { designFromJson } from '../scenario/design-json.js';
import { faultWords } from '../scenario/fault-words.js';
import { parsedJson } from '../engine/json.js';
import { printable } from '../engine/printable.js';
import { sha256 } from '../report/sha256.js';
import type { Design } from '../scenario/schema.js';
import type { Figures } from '../score/figures.js';
import { samplesFit } from '../score/replicate-sample.js';
import type { Metrics } from '../score/metrics-schema.js';
import { metricsSchema } from '../score/metrics-schema.js';
import { figuresSchema } from './figures-schema.js';
import { kindOf, readText } from './files.js';
import { issuesProblem } from './issues-problem.js';
import { UserProblem, pathText } from './problem.js';
import { readMarker } from './out-folder.js';
import { REPORT_INPUTS, RUN_FOLDER } from './run-folder.js';

const MAX_BYTES = 64 * 1_048_576;
/** More than these say nothing new about a broken file. */
const MAX_FAULTS = 5;
const AGAIN = 'run the scenario again';

export interface FinishedRun {
  readonly design: Design;
  readonly metrics: Metrics;
  readonly figures: Figures;
  /** Of the text of design.json. */
  readonly design_sha256: string;
}

/** @throws {UserProblem} when the folder is no finished run, or its files are not what the run wrote */
export function readRun(folder: string): FinishedRun {
  const name = pathText(folder);
  const kind = kindOf(folder);
  if (kind !== 'folder')
    throw new UserProblem(
      kind === 'nothing'
        ? `${name}: there is no such folder`
        : `${name}: expected the folder of a run, found a ${kind}`,
      '`jambeam run` makes one, NAME.run',
    );
  const marker = readMarker(RUN_FOLDER, folder);
  if (marker === undefined)
    throw new UserProblem(
      `${name} is no folder of a finished run: it has no valid ${RUN_FOLDER.marker}`,
      '`jambeam run` makes one',
    );
  if (marker.sha256['metrics.json'] === undefined)
    throw new UserProblem(
      `${name} holds a log replayed without truth: there is no score in it`,
      'replay it with --truth',
    );
  const texts = Object.fromEntries(
    REPORT_INPUTS.map((file) => [file, textOf(folder, file, marker.sha256[file])]),
  ) as Record<(typeof REPORT_INPUTS)[number], string>;

  const { design, issues } = designFromJson(texts['design.json'], join(folder, 'design.json'));
  if (design === null) throw issuesProblem(join(folder, 'design.json'), issues);
  const metrics = parsed(join(folder, 'metrics.json'), texts['metrics.json'], metricsSchema);
  const figures = parsed(join(folder, 'figures.json'), texts['figures.json'], figuresSchema);
  const stranger = strangerIn(design, metrics, figures);
  if (stranger !== undefined)
    throw new UserProblem(`${name}: ${printable(stranger)} is in the results but not in design.json`, AGAIN);
  if (figures.replicates && !samplesFit(figures.replicates, design, metrics.replicates))
    throw new UserProblem(
      `${name}: the replicates in figures.json are not those of design.json and metrics.json`,
      AGAIN,
    );
  return { design, metrics, figures, design_sha256: sha256(texts['design.json']) };
}

function textOf(folder: string, file: string, digest: string | undefined): string {
  const path = join(folder, file);
  const kind = kindOf(path);
  if (kind === 'link') throw new UserProblem(`${pathText(path)} is a link; links are not followed`, AGAIN);
  if (kind === 'nothing') throw new UserProblem(`${pathText(path)}: there is no such file`, AGAIN);
  const text = readText(path, 'a file of a run', MAX_BYTES);
  if (sha256(text) !== digest)
    throw new UserProblem(`${pathText(path)} is not as the run wrote it: a report of it would mislead`, AGAIN);
  return text;
}

function parsed<T>(file: string, text: string, schema: z.ZodType<T>): T {
  let value: unknown;
  try {
    value = parsedJson(text);
  } catch (error) {
    throw new UserProblem(`${pathText(file)}: expected JSON: ${printable((error as Error).message, 200)}`, AGAIN);
  }
  const { data, error } = schema.safeParse(value);
  if (data !== undefined) return data;
  const faults = error?.issues.slice(0, MAX_FAULTS) ?? [];
  const lines = faults.map((fault) => `${pathText(file)}: ${faultWords(fault)}`);
  throw new UserProblem(lines.join('\n'), AGAIN);
}

/** A name that results bear and the design doesn't, if there is one. */
function strangerIn(design: Design, metrics: Metrics, figures: Figures): string | undefined {
  const doors = new Set(design.doors.map(({ name }) => name));
  const rooms = new Set(design.rooms.map(({ name }) => name));
  const logics = new Set(design.logics.map(({ name }) => name));
  const strange = (known: ReadonlySet<string>, names: readonly string[]) => names.find((name) => !known.has(name));
  return (
    strange(
      doors,
      [...metrics.doors, ...figures.drift, ...figures.hourly, ...(figures.pictures ?? [])].map(({ door }) => door),
    ) ??
    strange(
      rooms,
      [...metrics.rooms, ...figures.rooms, ...figures.room_drift, ...figures.survival].map(({ room }) => room),
    ) ??
    strange(
      logics,
      [
        metrics.house,
        ...metrics.doors,
        ...metrics.rooms,
        ...metrics.houses,
        ...figures.drift,
        ...figures.rooms,
        ...figures.room_drift,
        ...figures.survival,
        ...metrics.ranking,
        ...metrics.why,
        ...(figures.pictures ?? []),
      ].map(({ logic }) => logic),
    )
  );
}
