/** All checks between keys, over a scenario or a design. */
import type { Finding } from '../issue.js';
import { checkControllers } from './controllers.js';
import { cautionDoors, checkDoors } from './doors.js';
import { cautionHousehold } from './household-cautions.js';
import { checkHousehold } from './household.js';
import { checkMounts } from './mounts.js';
import { cautionNames, checkNames } from './names.js';
import type { Outline } from './outline.js';
import { cautionPlan, checkPlan } from './plan.js';
import { checkPrices } from './prices.js';
import { cautionSensors, checkSensors } from './sensors.js';
import { cautionSwitching } from './switching.js';
import { checkTargets } from './targets.js';
import { cautionTraffic, checkTraffic } from './traffic.js';
import { checkWalkers } from './walkers.js';

/** What can't be simulated, or can't be meant. */
export function crossCheck(outline: Outline): Finding[] {
  return [
    checkNames,
    checkDoors,
    checkHousehold,
    checkMounts,
    checkControllers,
    checkTraffic,
    checkWalkers,
    checkSensors,
    checkTargets,
    checkPlan,
    checkPrices,
  ].flatMap((check) => check(outline));
}

/** What can be simulated but deserves a word. */
export function cautionsOf(outline: Outline): Finding[] {
  const checks = [
    cautionNames,
    cautionDoors,
    cautionTraffic,
    cautionSensors,
    cautionSwitching,
    cautionPlan,
    cautionHousehold,
  ];
  return checks.flatMap((check) => check(outline));
}
