/** What a user writes about a controller: how it reads light barriers, and how it takes turns with rangers. */
import { z } from 'zod';
import { name, quantity, wholeNumber } from '../../engine/quantity.js';
import { powerSchema } from '../power.js';

export const controllerSchema = z.strictObject({
  name: name('Name of the controller.'),
  poll_ms: quantity(
    0.1,
    10000,
    'ms',
    'All light barriers are read together this often; leave it out when they are wired to interrupts.',
  ).optional(),
  turns: z
    .array(
      z
        .array(z.string().max(81).meta({ description: 'A beam as DOOR.BEAM.' }))
        .min(1)
        .max(50),
    )
    .min(1)
    .max(200)
    .optional()
    .meta({
      description:
        'Turns of a round, each a list of rangers (DOOR.BEAM) read together; rangers not named follow one after another, in order of doors and beams.',
    }),
  cycle_ms: quantity(
    0.05,
    10000,
    'ms',
    'From the start of one turn to the start of the next, reading and loop included; stretched when it is too short for them. Default 30 without wait_ms.',
  ).optional(),
  wait_ms: quantity(
    0,
    10000,
    'ms',
    'Instead of cycle_ms: pause after the echo or the time-out, before the next turn.',
  ).optional(),
  per_round_ms: quantity(0, 60_000, 'ms', 'What the controller does once after each round of turns.').default(0),
  loop_ms: quantity(0, 1000, 'ms', "The loop's own time in each turn.").default(0.1),
  serial_baud: wholeNumber(
    300,
    10_000_000,
    'Bd',
    'Rate of the serial line that the loop writes to, 10 bits a character.',
  ).default(115_200),
  serial_characters: wholeNumber(
    0,
    1000,
    'characters',
    'Characters written to the serial line for each reading; the loop waits until they are out.',
  ).default(0),
  digital_pins: wholeNumber(
    0,
    200,
    'pins',
    'Digital pins that are free for sensors; not counted when left out.',
  ).optional(),
  analogue_inputs: wholeNumber(
    0,
    100,
    'inputs',
    'Analogue inputs that are free for sensors; not counted when left out.',
  ).optional(),
  restarts_per_week: quantity(
    0,
    100_000,
    'per week',
    'How often it restarts, at chance: it is blind for a while, and its logics start anew with the beams as they are.',
  ).default(0),
  restart_s: quantity(0.001, 86_400, 's', 'How long a restart takes.').default(5),
  tallies_lost_share: quantity(
    0,
    1,
    'share',
    'Tallies of its doors that are lost on the way to the ledgers of rooms; what the logic said stays as it was.',
  ).default(0),
  tallies_twice_share: quantity(
    0,
    1,
    'share',
    'Of the tallies that arrive, those that arrive twice: a message sent again.',
  ).default(0),
  at_m: z
    .strictObject({
      x: quantity(-1000, 1000, 'm', "Place of the controller on the house's plan, to the right."),
      y: quantity(-1000, 1000, 'm', "Place of the controller on the house's plan, upwards."),
    })
    .optional()
    .meta({ description: 'Where the controller is on the plan, on the nearest wall of its room: cables lead there.' }),
  room: name('Room the controller is in, with at_m (default: the room on the ground floor around it).').optional(),
  power_mw: powerSchema('The power the controller takes').optional(),
});
export type Controller = z.infer<typeof controllerSchema>;
