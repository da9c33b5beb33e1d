/**
 * The scenario format, version 1: the folders' schema pieces joined.
 *
 * `scenarioSchema` is what a user writes, short forms included; {@link designSchema} is what is left when short forms
 * are resolved and defaults filled in: the one shape the simulation, `--set` paths and design.json know.
 */
import { z } from 'zod';
import { clockTime, name, quantity, wholeNumber } from '../engine/quantity.js';
import { beamLineSchema, curtainSchema, leafSchema, openingSchema, placeSchema } from '../geometry/schema.js';
import { ROOM_USES, trafficSchema, walkerSchema } from '../agents/schema.js';
import { controllerSchema } from '../sensors/controllers/schema.js';
import { sensorSchema } from '../sensors/schema.js';
import { surroundingsSchema } from '../sensors/surroundings.js';
import { ledgersSchema, logicSchema } from '../counter/schema.js';
import { targetSchema } from '../score/schema.js';

export const FORMAT = 1;

const room = z.strictObject({
  name: name('Name of the room. `outside` is no room: it is always there and has no count.'),
  people_at_start: wholeNumber(0, 10_000, 'persons', 'Persons in the room when the clock starts.').default(0),
  use: z.enum(ROOM_USES).optional().meta({
    description: 'What the room is for, where its name does not say it: households know rooms by their use.',
  }),
  ...placeSchema,
});

const SENSOR =
  'A sensor: light-barrier, ultrasonic-ranger, triangulation-ranger, time-of-flight-ranger, or one named under `sensors`.';

const beam = z.strictObject({
  name: name('Name of the beam; A is met first going forward.'),
  sensor: name(SENSOR),
  ...beamLineSchema,
  pins: z
    .array(wholeNumber(0, 999, 'pin', "One of the controller's pins."))
    .max(4)
    .optional()
    .meta({ description: "The controller's pins this sensor is wired to; no pin serves two." }),
});

/** Short form of two level beams A and B. */
const pair = z.strictObject({
  sensor: name(SENSOR).default('light-barrier'),
  mount: z
    .enum(['left-jamb', 'right-jamb', 'interleaved', 'facing', 'lintel'])
    .meta({
      description:
        'Both in one jamb; interleaved: A in the left jamb, B in the right one, each straight across; facing: so too, but each turned to look at the other; lintel: both look down from above.',
    })
    .default('left-jamb'),
  height_m: beamLineSchema.height_m.optional(),
  tilt_deg: beamLineSchema.tilt_deg,
  spacing_m: quantity(0.01, 1, 'm', 'Distance from beam A to beam B along the walk; the door plane is half-way.'),
});

const doorCommon = {
  name: name('Name of the door.'),
  from: name('Room on the side a forward move comes from, or outside.'),
  to: name('Room a forward move leads to, or outside.'),
  ...openingSchema,
  way: z
    .enum(['door', 'opening', 'stairs'])
    .meta({ description: 'A door frame, an opening without a leaf, or the head or foot of stairs.' })
    .default('door'),
  leaf: leafSchema.optional().meta({ description: 'The leaf in the frame; without it the way is always open.' }),
  curtain: curtainSchema.optional().meta({ description: 'A curtain beside the opening, blown into it by gusts.' }),
  controller: name("The controller that reads this door's beams (default: the first).").optional(),
  at_m: z
    .strictObject({
      x: quantity(-1000, 1000, 'm', "Place of the door's middle on the house's plan, to the right."),
      y: quantity(-1000, 1000, 'm', "Place of the door's middle on the house's plan, upwards."),
    })
    .optional()
    .meta({ description: 'Where the door is on the plan: bursts of rangers reach across rooms.' }),
  facing_deg: quantity(
    -360,
    360,
    'deg',
    'Which way forward points on the plan: 0 up, 90 to the right. With at_m.',
  ).default(0),
  traffic: trafficSchema.meta({ description: 'Who comes, how often, and what they do in the doorway.' }),
};

const scenarioDoorSchema = z.strictObject({
  ...doorCommon,
  pair: pair.optional().meta({ description: 'Short form of two level beams A and B.' }),
  beams: z
    .array(beam.partial({ height_m: true }))
    .min(1)
    .max(8)
    .optional()
    .meta({ description: "The door's beams, each by name." }),
});
const designDoorSchema = z.strictObject({
  ...doorCommon,
  controller: name("The controller that reads this door's beams."),
  beams: z.array(beam).min(1).max(8).meta({ description: "The door's beams, each by name." }),
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
    .default(() => [controllerSchema.parse({ name: 'main' })]),
  surroundings: surroundingsSchema
    .default(() => surroundingsSchema.parse({}))
    .meta({ description: 'Air and light in the house.' }),
  walkers: z
    .record(name('Name of the walker.'), walkerSchema)
    .meta({ description: 'People, what rolls and test rods of your own, by name.' })
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

/** A sensor by its profile: what the file says, and any key of its kind before that. */
const sensorByProfile = z
  .looseObject({
    profile: z.string().min(1).max(500).meta({
      description:
        "A file with the kind and the keys of this sensor, as `jambeam fit` writes it, in the scenario's folder or below; keys of its kind may stand beside it and go before those of the file.",
    }),
  })
  .meta({ only_for: 'profile: FILE' });

/** What a user writes, for editors and lists of keys; profiles are put in before `scenarioSchema` sees it. */
export const writtenSchema = scenarioSchema.extend({
  sensors: z
    .record(name('Name of the sensor.'), z.union([sensorSchema, sensorByProfile]))
    .meta({ description: 'Sensors of your own, by name.' })
    .default(() => ({})),
});
export type ScenarioInput = z.input<typeof writtenSchema>;

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
