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
import { SHORT_FORMS, habitsSchema, householdSchema, weekdaySchema } from '../agents/household/schema.js';
import { controllerSchema } from '../sensors/controllers/schema.js';
import { sensorSchema } from '../sensors/schema.js';
import { surroundingsSchema } from '../sensors/surroundings.js';
import { BARE_LEDGERS, calibrationSchema, ledgerSchema } from '../counter/ledger/schema.js';
import { BARE_LOGICS, learntSchema, logicSchema, outsideLogicSchema } from '../counter/schema.js';
import { presenceSchema } from '../sensors/presence/schema.js';
import { effortKeys } from './effort-schema.js';
import { headingKeys } from './heading.js';
import { targetSchema } from '../score/schema.js';

export const FORMAT = 1;

const room = z.strictObject({
  name: name('Name of the room. `outside` is no room: it is always there and has no count.'),
  people_at_start: wholeNumber(0, 10_000, 'persons', 'Persons in the room when the clock starts.').default(0),
  use: z.enum(ROOM_USES).optional().meta({
    description: 'What the room is for, where its name does not say it: households know rooms by their use.',
  }),
  presence: presenceSchema.optional().meta({ description: 'A sensor that says whether anybody is in the room.' }),
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
export const pairSchema = z.strictObject({
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
};

const scenarioDoorSchema = z.strictObject({
  ...doorCommon,
  traffic: trafficSchema.optional().meta({
    description:
      'Who comes, how often, and what they do in the doorway; left out where a household lives in the house.',
  }),
  pair: pairSchema.optional().meta({ description: 'Short form of two level beams A and B.' }),
  beams: z
    .array(beam.partial({ height_m: true }))
    .min(1)
    .max(8)
    .optional()
    .meta({ description: "The door's beams, each by name." }),
});
const designDoorSchema = z.strictObject({
  ...doorCommon,
  traffic: trafficSchema.meta({ description: 'Who comes, how often, and what they do in the doorway.' }),
  controller: name("The controller that reads this door's beams."),
  beams: z.array(beam).min(1).max(8).meta({ description: "The door's beams, each by name." }),
});

/** Rooms of a house, at most. */
export const MOST_ROOMS = 200;

const common = {
  format: z.literal(FORMAT).meta({ description: 'Version of the scenario format.' }),
  name: z
    .string()
    .min(1)
    .max(80)
    .meta({ description: 'Name of the scenario, and title of the report where there is no other.' }),
  ...headingKeys,
  seed: z
    .union([z.string().min(1).max(200), z.int()])
    .meta({ description: 'Seed of all chance; same seed, same bytes.' })
    .default(1),
  replicates: wholeNumber(1, 100_000, 'runs', 'Independent repetitions, each with its own crowd.').default(20),
  hours: quantity(0.01, 8760, 'h', 'Simulated hours of each replicate.').default(8),
  starts_on: weekdaySchema.meta({ description: 'Weekday at the start.' }).default('monday'),
  starts_at: clockTime('Clock time at the start, HH:MM.').default('08:00'),
  rooms: z.array(room).max(MOST_ROOMS).meta({ description: 'The rooms that are counted.' }),
  storey_height_m: quantity(2, 10, 'm', 'From floor to floor: how far cables go up from storey to storey.').default(
    2.7,
  ),
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
  habits: z
    .record(name('Name of the habits.'), habitsSchema)
    .meta({ description: 'Habits of your own, by name.' })
    .default(() => ({})),
  need: z
    .enum(['number', 'anyone'])
    .meta({ description: 'What the counts are for: how many are in a room, or only whether anyone is.' })
    .default('number'),
  sensors: z
    .record(name('Name of the sensor.'), sensorSchema)
    .meta({ description: 'Sensors of your own, by name.' })
    .default(() => ({})),
  targets: z
    .array(targetSchema)
    .max(100)
    .meta({ description: 'What is good enough; the verdict answers to these.' })
    .default(() => []),
  ...effortKeys,
};

/** A logic may be written as its bare name. */
const scenarioLogic = z.union([z.enum(BARE_LOGICS), logicSchema]);

/** The same where a run is started: there it may be code, too. */
const startedLogic = z.union([...scenarioLogic.options, outsideLogicSchema]);
export type StartedLogic = z.input<typeof startedLogic>;

/** So may a ledger whose keys all have defaults. */
const scenarioLedger = z.union([z.enum(BARE_LEDGERS), ledgerSchema]);

export const scenarioSchema = z.strictObject({
  ...common,
  household: z
    .union([z.enum(SHORT_FORMS), householdSchema])
    .optional()
    .meta({ description: 'Who lives in the house, by name or at length; then doors have no traffic of their own.' }),
  doors: z.array(scenarioDoorSchema).min(1).max(50).meta({ description: 'The doors.' }),
  logics: z
    .array(scenarioLogic)
    .min(1)
    .max(20)
    .meta({ description: 'Counting logics, each judged on the same crowds; the first gives the headline.' })
    .default(() => ['four-level' as const, 'first-broken' as const]),
  ledgers: z
    .array(scenarioLedger)
    .min(1)
    .max(20)
    .meta({ description: "How tallies become rooms' counts: ledgers side by side, kept for every logic." })
    .default(() => ['raw' as const, 'floor' as const]),
});

/** A scenario whose logics are named where a run is started, in place of its own: they may be code, too. */
export const startedSchema = scenarioSchema.extend({ logics: z.array(startedLogic).min(1).max(20) });

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
/** A scenario as it is written: what `parse` of YAML gives, before defaults. Its keys are those of `listKeys()`. */
export type ScenarioInput = z.input<typeof writtenSchema>;

export const designSchema = z.strictObject({
  ...common,
  household: householdSchema.optional().meta({ description: 'Who lives in the house.' }),
  doors: z.array(designDoorSchema).min(1).max(50).meta({ description: 'The doors.' }),
  logics: z
    .array(z.union([logicSchema, outsideLogicSchema]).and(z.object({ name: z.string() })))
    .min(1)
    .max(20)
    .meta({ description: 'Counting logics; the first gives the headline.' }),
  ledgers: z
    .array(ledgerSchema.and(z.object({ name: z.string() })))
    .min(1)
    .max(20)
    .meta({ description: "How tallies become rooms' counts: ledgers side by side." })
    .default(() => [
      { use: 'raw' as const, name: 'raw' },
      { use: 'floor' as const, name: 'floor' },
    ]),
  calibration: z
    .array(calibrationSchema)
    .max(1000)
    .optional()
    .meta({ description: 'Error rates that likelihood ledgers weigh by; a run learns them when they are not here.' }),
  learnt: z
    .array(learntSchema)
    .max(1000)
    .optional()
    .meta({ description: 'What hidden Markov logics know of their doorways; a run learns it when it is not here.' }),
  /** Texts of table logics by file name, so that a design is whole by itself. */
  tables: z.record(z.string(), z.string()).default(() => ({})),
});
/** A whole scenario: short forms spelt out, defaults filled in, texts of tables included. What design.json holds. */
export interface Design extends z.infer<typeof designSchema> {}
export type LearntDoorway = z.infer<typeof learntSchema>;
export type DesignDoor = Design['doors'][number];
export type DesignBeam = DesignDoor['beams'][number];
