/** Doors of every sort that source can be written for. */
import { readFileSync } from 'node:fs';
import { formatIssue } from '../../../src/scenario/explain.js';
import { parseScenario } from '../../../src/scenario/parse.js';
import type { Design } from '../../../src/scenario/schema.js';
import { tableOf } from '../../../src/counter/table-of.js';
import { type Firmware, firmwareOf } from '../../../src/simulate/firmware/firmware.js';

export interface DoorChoice {
  readonly scenario: string;
  readonly sets?: readonly string[];
  readonly door?: number;
  readonly logic?: number;
}

export const DOORS: Readonly<Record<string, DoorChoice>> = {
  'light barriers': { scenario: 'starter' },
  'light barriers under hold-off': { scenario: 'starter', logic: 2 },
  'light barriers under a table of one’s own': { scenario: 'starter', logic: 3 },
  'light barriers, polled': { scenario: 'polled-too-slowly' },
  'the second of two doors': { scenario: 'two-doors', door: 1 },
  'a ranger and a light barrier': { scenario: 'kinds-mixed' },
  'rangers among those of other doors': { scenario: 'turns-of-six', door: 1 },
  'rangers read together': { scenario: 'turns-fired-together' },
  'rangers with a median': { scenario: 'switch-median-too-long', sets: ['sensors.mine.switching.median_of=5'] },
  'rangers with a switch-off delay': { scenario: 'switch-off-slowly' },
  'rangers with a fixed switching point': { scenario: 'switch-on-a-hot-day' },
  'rangers that learn for long': { scenario: 'switch-on-strays', sets: ['sensors.*.switching.learn_readings=300'] },
  'rangers whose echo decides': {
    scenario: 'switch-on-strays',
    sets: ['controllers.*.wait_ms=5', 'controllers.*.per_round_ms=12'],
  },
};

export function designOf({ scenario, sets = [] }: DoorChoice): Design {
  const folder = new URL('../../../scenarios/', import.meta.url);
  const text = readFileSync(new URL(`${scenario}.yaml`, folder), 'utf8')
    // A pause instead of a cycle: the two exclude each other.
    .replace(/^( +)cycle_ms: .*$/m, sets.some((set) => set.includes('wait_ms')) ? '' : '$&');
  const { design, issues } = parseScenario(text, `${scenario}.yaml`, {
    sets: [...sets],
    readFile: (name) => readFileSync(new URL(name, folder), 'utf8'),
  });
  if (!design) throw new Error(issues.map(formatIssue).join('\n'));
  return design;
}

const made = new Map<DoorChoice, Firmware>();

/** With as many calls among its vectors as by default; made once for all tests. */
export function firmwareFor(choice: DoorChoice): Firmware {
  const firmware = made.get(choice) ?? newFirmwareFor(choice);
  made.set(choice, firmware);
  return firmware;
}

export function newFirmwareFor(choice: DoorChoice, calls?: number): Firmware {
  const design = designOf(choice);
  const table = tableOf(design.logics[choice.logic ?? 0]!, design.tables)!;
  return firmwareOf(design, design.doors[choice.door ?? 0]!, table, calls);
}

export function filesOf({ names, texts }: Firmware): Record<string, string> {
  return {
    [names.header]: texts.header,
    [names.source]: texts.source,
    [names.testProgram]: texts.testProgram,
    [names.vectors]: texts.vectors,
  };
}
