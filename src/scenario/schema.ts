/**
 * The scenario format, version 1: the folders' schema pieces joined.
 *
 * `scenarioSchema` is what a user writes, short forms included; {@link designSchema} is what is left when short forms
 * are resolved and defaults filled in: the one shape the simulation, `--set` paths and design.json know.
 */
import { z } from 'zod';
import { clockTime, name, quantity, wholeNumber } from '../engine/quantity.js';
import { beamLineSchema, openingSchema } from '../geometry/schema.js';
import { trafficSchema, walkerSchema } from '../agents/schema.js';
import { controllerSchema, sensorSchema } from '../sensors/schema.js';
import { ledgersSchema, logicSchema } from '../counter/schema.js';
import { targetSchema } from '../score/schema.js';

export const FORMAT = 1;

const room = z.strictObject({
  name: name('Name of the room. `outside` is no room: it is always there and has no count.'),
  people_at_start: wholeNumber(0, 10_000, 'persons', 'Persons in the room when the clock starts.').default(0),
});

const beam = z.strictObject({
  name: name('Name of the beam; A is met first going forward.'),
  sensor: name('A sensor: light-barrier, or one named under `sensors`.'),
  ...beamLineSchema,
});

/** Short form of two level beams A and B. */
const pair = z.strictObject({
  sensor: name('A sensor: light-barrier, or one named under `sensors`.').default('light-barrier'),
  height_m: beamLineSchema.height_m,
  spacing_m: quantity(0.01, 1, 'm', 'Distance from beam A to beam B along the walk; the door plane is half-way.'),
});

const doorCommon = {
  name: name('Name of the door.'),
  from: name('Room on the side a forward move comes from, or outside.'),
  to: name('Room a forward move leads to, or outside.'),
  ...openingSchema,
  controller: name("The controller that reads this door's beams (default: the first).").optional(),
  traffic: trafficSchema.meta({ description: 'Who comes, how often, and what they do in the doorway.' }),
};

const scenarioDoorSchema = z.strictObject({
  ...doorCommon,
  pair: pair.optional().meta({ description: 'Short form of two level beams A and B.' }),
  beams: z.array(beam).min(1).max(8).optional().meta({ description: "The door's beams, each by name." }),
});
const designDoorSchema = z.strictObject({
  ...doorCommon,
  controller: name("The controller that reads this door's beams."),
  beams: z
    .array(beam.required({ far_at_m: true, far_height_m: true }))
    .min(1)
    .max(8)
    .meta({ description: "The door's beams, each by name." }),
});

const common = {
  format: z.literal(FORMAT).meta({ description: 'Version of the scenario format.' }),
  name: z.string().min(1).max(80).meta({ description: 'What the report is titled with.' }),
  seed: z
    .union([z.string().min(1).max(200), z.int()])
    .meta({ description: 'Seed of all chance; same seed, same bytes.' })
    .default(1),
  replicates: wholeNumber(1, 100_000, 'runs', 'Independent repetitions, each with its own crowd.').default(20),
  hours: quantity(0.01, 8760, 'h', 'Simulated hours of each replicate.').default(8),
  starts_at: clockTime('Clock time at the start, HH:MM.').default('08:00'),
  rooms: z.array(room).max(200).meta({ description: 'The rooms that are counted.' }),
  controllers: z
    .array(controllerSchema)
    .min(1)
    .max(50)
    .meta({ description: 'What reads the sensors.' })
    .default(() => [{ name: 'main' }]),
  walkers: z
    .record(name('Name of the walker.'), walkerSchema)
    .meta({ description: 'People and test rods of your own, by name.' })
    .default(() => ({})),
  sensors: z
    .record(name('Name of the sensor.'), sensorSchema)
    .meta({ description: 'Sensors of your own, by name.' })
    .default(() => ({})),
  ledgers: ledgersSchema.default(() => ['raw', 'floor'] as ('raw' | 'floor')[]),
  targets: z
    .array(targetSchema)
    .max(100)
    .meta({ description: 'What is good enough; the verdict answers to these.' })
    .default(() => []),
};

/** A logic may be written as its bare name. */
const scenarioLogic = z.union([z.enum(['first-broken', 'four-level', 'hold-off']), logicSchema]);

export const scenarioSchema = z.strictObject({
  ...common,
  doors: z.array(scenarioDoorSchema).min(1).max(50).meta({ description: 'The doors.' }),
  logics: z
    .array(scenarioLogic)
    .min(1)
    .max(20)
    .meta({ description: 'Counting logics, each judged on the same crowds; the first gives the headline.' })
    .default(() => ['four-level' as const, 'first-broken' as const]),
});
export type ScenarioInput = z.input<typeof scenarioSchema>;

export const designSchema = z.strictObject({
  ...common,
  doors: z.array(designDoorSchema).min(1).max(50).meta({ description: 'The doors.' }),
  logics: z
    .array(logicSchema.and(z.object({ name: z.string() })))
    .min(1)
    .max(20)
    .meta({ description: 'Counting logics; the first gives the headline.' }),
  /** Texts of table logics by file name, so that a design is whole by itself. */
  tables: z.record(z.string(), z.string()).default(() => ({})),
});
export type Design = z.infer<typeof designSchema>;
export type DesignDoor = Design['doors'][number];
export type DesignBeam = DesignDoor['beams'][number];
