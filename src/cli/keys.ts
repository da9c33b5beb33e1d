/** `jambeam keys`: all that a scenario can say, and all that a result holds, with units and meanings. */
import type { PassageKind } from '../agents/schema.js';
import { PASSAGE_KINDS } from '../agents/schema.js';
import { ledgerInfo } from '../counter/ledger/ledger-info.js';
import { logicInfo } from '../counter/logic-info.js';
import type { KeyRow } from '../scenario/keys.js';
import { keysOf, listKeys } from '../scenario/keys.js';
import { studySchema } from '../study/plan/schema.js';
import { nearest } from '../engine/nearest.js';
import { literal } from '../engine/printable.js';
import { EDITOR_SCHEMAS, type WrittenFile, schemaText } from './editor-schemas.js';
import { type Io, jsonText } from './io.js';
import { listMetrics, type MetricRow } from './metric-rows.js';
import { folded } from './lines.js';
import { UserProblem } from './problem.js';

/** What the party does in the doorway. */
const PASSAGES: Readonly<Record<PassageKind, string>> = {
  through: 'goes through, alone',
  abreast: 'two at once, side by side; one a little behind the other where the opening is too narrow',
  'close-behind': 'two, one close behind the other',
  against: 'two, one from each side; one of them gives way',
  'turn-back': 'comes into the doorway, turns, and goes back',
  linger: 'stops in the doorway for a while, then goes on; some go back instead',
  reach: 'stands before the doorway and reaches through with an arm',
  'at-heel': 'somebody and the pet that goes beside them',
  swing: 'a leaf or a curtain moves past the beams',
};

interface Named {
  readonly name: string;
  readonly description: string;
}

export interface KeysOptions {
  readonly json?: boolean;
  /** Which file's schema is to be printed instead. */
  readonly schema?: string;
}

export function keysCommand({ json = false, schema }: KeysOptions, io: Io): void {
  if (schema !== undefined) return io.out(schemaText(writtenFile(schema)));
  const keys = listKeys();
  const everything = {
    keys,
    walkers: alternatives(keys, 'walkers.*.kind'),
    passages: PASSAGE_KINDS.map((name) => ({ name, description: PASSAGES[name] })),
    sensors: alternatives(keys, 'sensors.*.kind'),
    logics: logicInfo(),
    ledgers: ledgerInfo(),
    metrics: listMetrics(),
    study: keysOf(studySchema),
  };
  if (json) return io.out(jsonText(everything));
  const section = (title: string, entries: readonly string[]) => `${io.paint.bold(title)}\n\n${entries.join('\n')}\n`;
  const entry = (head: string, facts: string, text: string) =>
    `  ${io.paint.cyan(head)}${facts === '' ? '' : `  ${facts}`}\n${folded(text, '      ').trimEnd()}`;
  const named = (rows: readonly Named[]) => rows.map((row) => entry(row.name, '', row.description));
  io.out(
    [
      section(
        'Keys of a scenario (* stands for a name or a position)',
        keys.map((k) => entry(k.path, facts(k), k.description)),
      ),
      section('Kinds of walkers', named(everything.walkers)),
      section('Kinds of passages', named(everything.passages)),
      section('Kinds of sensors', named(everything.sensors)),
      section(
        'Logics',
        everything.logics.map((logic) =>
          entry(logic.use, '', `${logic.description} Defeated by: ${logic.defeated_by}`),
        ),
      ),
      section(
        'Ledgers',
        everything.ledgers.map((one) =>
          entry(one.use, '', `${one.description} Defeated by: ${one.defeated_by} Wise: ${one.wise}`),
        ),
      ),
      section(
        'Metrics, as paths in metrics.json',
        everything.metrics.map((row) => entry(row.path, metricFacts(row), row.description)),
      ),
      section(
        'What a study can say',
        everything.study.map((k) => entry(k.path, facts(k), k.description)),
      ),
    ].join('\n'),
  );
}

/** @throws {UserProblem} for a file that has no schema */
function writtenFile(text: string): WrittenFile {
  const known = Object.keys(EDITOR_SCHEMAS) as WrittenFile[];
  const found = known.find((one) => one === text);
  if (found !== undefined) return found;
  const near = nearest(text, known);
  throw new UserProblem(
    `--schema: expected ${known.slice(0, -1).join(', ')} or ${known.at(-1)}, found ${literal(text)}`,
    near && `did you mean ${near}?`,
  );
}

/** The choices of a `kind` key, each with the description of its own alternative. */
function alternatives(keys: readonly KeyRow[], path: string): Named[] {
  return keys
    .filter((row) => row.path === path)
    .flatMap(({ choices = [], description }) => choices.map((name) => ({ name, description })));
}

/** `0.4 to 10 m, default 0.9`, `through-beam | reflector, required`. */
function facts(row: KeyRow): string {
  const { min, max, unit, choices, only_for, required } = row;
  const range = min !== undefined && max !== undefined ? `${min} to ${max}` : undefined;
  const what = choices ? choices.join(' | ') : [range ?? row.type, unit].filter(Boolean).join(' ');
  const fallback = row.default === undefined ? (required ? 'required' : 'optional') : `default ${row.default}`;
  return [what, fallback, only_for && `only for ${only_for}`].filter(Boolean).join(', ');
}

function metricFacts({ type, unit }: MetricRow): string {
  return unit === undefined ? type : `${type}, ${unit}`;
}
