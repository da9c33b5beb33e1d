/**
 * Invented designs with rangers: every kind, and every place one can be mounted. The numbers beside them are those of
 * the other fixture, so no report made of these says anything about a sensor.
 */
import { designSchema, type Design, type DesignDoor } from '../../src/scenario/schema.js';
import { resolve } from '../../src/scenario/resolve.js';
import { scenarioSchema } from '../../src/scenario/schema.js';
import type { DoorMetrics } from '../../src/score/metrics-schema.js';
import { SENSOR_KINDS, type SensorKind } from '../../src/sensors/schema.js';
import { est, inventedInput } from './fixture.js';
import type { ReportInput } from '../../src/report/report-input.js';

export type RangerKind = Exclude<SensorKind, 'light-barrier'>;
export const RANGER_KINDS = SENSOR_KINDS.filter((kind): kind is RangerKind => kind !== 'light-barrier');

const TRAFFIC = { arrivals_per_hour: 12, mix: [{ who: 'adult', kind: 'through', share: 1 }] };

interface Pair {
  readonly mount: 'left-jamb' | 'right-jamb' | 'interleaved' | 'facing' | 'lintel';
  readonly height_m?: number;
  readonly tilt_deg?: number;
}
type Written = Readonly<Record<string, unknown>>;

/** Doors by the mount they show, each with a pair or with beams of its own. */
const DOORS: readonly (readonly [string, Pair | readonly Written[]])[] = [
  ['left', { mount: 'left-jamb', height_m: 0.95 }],
  ['right', { mount: 'right-jamb', height_m: 0.95 }],
  ['interleaved', { mount: 'interleaved', height_m: 0.95 }],
  ['facing', { mount: 'facing', height_m: 0.95 }],
  ['tilted', { mount: 'left-jamb', height_m: 1.2, tilt_deg: -25 }],
  ['lintel', { mount: 'lintel' }],
  [
    'many',
    [
      { name: 'low', mount: 'left-jamb', at_m: -0.05, height_m: 0.3, tilt_deg: 20 },
      { name: 'low too', mount: 'left-jamb', at_m: -0.05, height_m: 0.32 },
      { name: 'steep', mount: 'right-jamb', at_m: 0.05, height_m: 1.4, tilt_deg: -75, turn_deg: 12 },
      { name: 'eye', mount: 'right-jamb', at_m: 0, height_m: 1.45, tilt_deg: -5, turn_deg: -30 },
      { name: 'above', mount: 'lintel', at_m: 0.03, across_m: 0.25, tilt_deg: 15 },
      { name: 'above too', mount: 'lintel', at_m: -0.03, across_m: 0.55, tilt_deg: -15, turn_deg: 10 },
      { name: 'gate', sensor: 'light-barrier', mount: 'left-jamb', at_m: 0.04, height_m: 0.9, far_height_m: 1.0 },
    ],
  ],
];

/** A house of doors that differ in mount, all with rangers of one kind. */
export function rangerDesign(kind: RangerKind, controller: Written = {}): Design {
  const doors = DOORS.map(([name, what]) => ({
    name,
    from: 'outside',
    to: 'kitchen',
    width_m: 0.8,
    traffic: TRAFFIC,
    ...('mount' in what
      ? { pair: { sensor: kind, spacing_m: 0.08, ...what } }
      : { beams: what.map((beam) => ({ sensor: kind, ...beam })) }),
  }));
  const scenario = scenarioSchema.parse({
    format: 1,
    name: `Invented: ${kind}s`,
    rooms: [{ name: 'kitchen' }],
    controllers: [{ name: 'main', ...controller }],
    doors,
    logics: ['four-level'],
  });
  return designSchema.parse(resolve(scenario, new Map()));
}

/** One door of such a house, alone with its own controller. */
export function oneDoor(design: Design, name: string): Design {
  return { ...design, doors: design.doors.filter((door) => door.name === name) };
}

/** What a report is rendered from: the fixture's invented numbers under this design's names. */
export function rangerInput(kind: RangerKind, design: Design = rangerDesign(kind)): ReportInput {
  const input = inventedInput();
  const [first] = input.metrics.doors;
  if (first === undefined) throw new Error('the fixture has doors');
  const numbers = (door: DesignDoor): DoorMetrics => ({
    ...first,
    door: door.name,
    logic: 'four-level',
    breaks_per_crossing: door.beams.map(({ name }) => ({ beam: name, estimate: est(1.3, 0.04) })),
  });
  return {
    ...input,
    design,
    metrics: { ...input.metrics, scenario: design.name, doors: design.doors.map(numbers), rooms: [], targets: [] },
    figures: {
      ...input.figures,
      drift: [],
      rooms: [],
      clothing: [
        { what: 'least', replicates: 4, wrong_per_100: est(4.1, 0.9) },
        { what: 'as drawn', replicates: 4, wrong_per_100: est(9.2, 1.6) },
        { what: 'most', replicates: 4, wrong_per_100: est(21.7, 3.8) },
      ],
    },
  };
}
