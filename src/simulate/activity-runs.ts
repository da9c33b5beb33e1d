/**
 * What the headline would be in a calmer or a busier house: the first replicates run again with traffic at half and at
 * double what is assumed. The same seed, but other crowds: who comes more often meets others.
 */
import type { Traffic } from '../agents/schema.js';
import { DAY_H } from '../engine/time.js';
import type { Design } from '../scenario/schema.js';
import type { ActivityRun } from '../score/figures.js';

/** How many replicates are run again, for each. */
export const ACTIVE_AGAIN = 4;

const FACTORS = { half: 0.5, double: 2 } as const satisfies Record<Exclude<ActivityRun['what'], 'as assumed'>, number>;

/** Whether a design is worth it: it costs two and a half times as much as the replicates that are run again. */
export function activityAsked({ replicates, hours, household }: Design): boolean {
  // Over a clock shorter than a day what is rare in a day doesn't show.
  return replicates >= ACTIVE_AGAIN && (hours >= DAY_H || household !== undefined);
}

/** The design with traffic at half and at double. */
export function activityDesigns(design: Design): Readonly<Record<keyof typeof FACTORS, Design>> {
  return { half: busier(design, FACTORS.half), double: busier(design, FACTORS.double) };
}

function busier(design: Design, factor: number): Design {
  const { household } = design;
  if (household) return { ...design, household: { ...household, activity: factor * household.activity } };
  const doors = design.doors.map((door) => ({ ...door, traffic: busierTraffic(door.traffic, factor) }));
  return { ...design, doors };
}

function busierTraffic(traffic: Traffic, factor: number): Traffic {
  const { arrivals_per_hour: rate } = traffic;
  const arrivals_per_hour =
    typeof rate === 'number' ? factor * rate : rate.map((row) => ({ ...row, per_hour: factor * row.per_hour }));
  return { ...traffic, arrivals_per_hour };
}
