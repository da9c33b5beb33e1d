/** Valid files to begin with: the project's own scenarios, and what a small invented run leaves. */
import { mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openEventFiles } from '../../src/cli/event-files.js';
import { serialiseDesign } from '../../src/scenario/design-json.js';
import type { Design } from '../../src/scenario/schema.js';
import { simulate } from '../../src/simulate/simulate.js';
import { designOf } from '../study/studies.js';

const HOME = join(import.meta.dirname, '../..');
const inFolder = (folder: string): readonly string[] =>
  readdirSync(join(HOME, folder)).filter((one) => one.endsWith('.yaml'));

export const read = (...way: readonly string[]): Buffer => readFileSync(join(HOME, ...way));
export const scenarioTexts = (): Buffer[] =>
  inFolder('scenarios')
    .filter((name) => name !== 'my-logic.yaml')
    .map((name) => read('scenarios', name));
export const tableTexts = (): Buffer[] => [
  read('scenarios/my-logic.yaml'),
  ...inFolder('scenarios/tables').map((name) => read('scenarios/tables', name)),
];
export const studyTexts = (): Buffer[] => inFolder('scenarios/studies').map((name) => read('scenarios/studies', name));

/** A door with barriers and one with rangers. */
export const SMALL = `format: 1
name: small
seed: 3
replicates: 2
hours: 1
rooms: [{ name: hall, people_at_start: 4 }, { name: attic }]
sensors:
  eye: { kind: light-barrier, beam_diameter_m: 0.01 }
  ear: { kind: ultrasonic-ranger }
controllers: [{ name: main }]
logics: [four-level, first-broken]
ledgers: [raw, floor]
doors:
  - name: front
    from: outside
    to: hall
    width_m: 0.9
    pair: { sensor: eye, height_m: 0.95, spacing_m: 0.1 }
    traffic: { arrivals_per_hour: 20 }
  - name: stairs
    from: hall
    to: attic
    width_m: 0.8
    pair: { sensor: ear, height_m: 1, spacing_m: 0.15 }
    traffic: { arrivals_per_hour: 5, forward_share: 1 }
`;

export const small = (): Design => designOf(SMALL, ['hours=0.25']);

export interface SmallRun {
  readonly design: Design;
  readonly texts: ReadonlyMap<string, Buffer>;
}

let made: SmallRun | undefined;
/** What a run of it leaves, by file name; made once. */
export function smallRun(): SmallRun {
  return (made ??= freshRun());
}

function freshRun(): SmallRun {
  const design = small();
  const folder = mkdtempSync(join(tmpdir(), 'jambeam-hostile-'));
  try {
    const files = openEventFiles(folder, design, true);
    const { metrics, figures } = simulate(design, files.sinks);
    files.close();
    const texts = new Map(readdirSync(folder).map((name) => [name, shortened(readFileSync(join(folder, name)))]));
    for (const [name, data] of Object.entries({ metrics, figures }))
      texts.set(`${name}.json`, Buffer.from(`${JSON.stringify(data, null, 2)}\n`));
    texts.set('design.json', Buffer.from(serialiseDesign(design)));
    return { design, texts };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The first rows of the first replicate are as good as all: a built door has one clock. */
function shortened(csv: Buffer): Buffer {
  const [header = '', ...rows] = csv.toString('utf8').split('\n');
  return Buffer.from(`${[header, ...rows.filter((row) => row.startsWith('1,')).slice(0, 60)].join('\n')}\n`);
}
