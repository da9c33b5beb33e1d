/** The process that takes one measurement: `measure.mjs KIND WHAT REPEATS`; prints JSON. */
import { againstStepper } from './against-stepper.js';
import { houseMemory, houseWeek } from './house.js';
import { limit } from './limit.js';
import { logics } from './logics.js';
import type { Measured } from './measured.js';
import { memory } from './memory.js';
import { forReport, pipeline } from './pipeline.js';
import { stages } from './stages.js';

const KINDS: Readonly<Record<string, (what: string, repeats: number) => Measured[] | Promise<Measured[]>>> = {
  pipeline,
  'for report': forReport,
  stages,
  stepper: againstStepper,
  limit,
  memory: (what) => memory(Number(what)),
  house: houseWeek,
  logics,
  'house memory': (what) => houseMemory(Number(what)),
};

const [kind = '', what = '', repeats = '5'] = process.argv.slice(2);
process.stdout.write(JSON.stringify(await KINDS[kind]!(what, Number(repeats))));
