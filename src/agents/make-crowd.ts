/** Who passes through a house: a household if one lives there, otherwise whoever each door's traffic brings. */
import type { Stream } from '../engine/stream.js';
import { Crowd } from './crowd.js';
import type { CrowdPlan } from './crowd-plan.js';
import { HouseCrowd } from './household/house-crowd.js';
import type { VisitSink } from './visit.js';

export interface AnyCrowd {
  /** Persons in each room when the clock starts. */
  readonly peopleAtStart: readonly number[];
  /** Per door: parties that found too few people in the room they were to set out from. */
  readonly unmet: readonly number[];
  /** Runs the clock to its end. No new visit starts after it; visits under way are given out whole. */
  run(sink: VisitSink): void;
}

/** @param stream the replicate's crowd stream */
export function makeCrowd(plan: CrowdPlan, stream: Stream): AnyCrowd {
  return plan.household ? new HouseCrowd(plan, plan.household, stream) : new Crowd(plan, stream);
}
