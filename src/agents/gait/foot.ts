/** The foot's capsule, from heel to toe, lying on its sole. */
import { FOOT_RADIUS as FIGURE } from '../figures/proportions.js';
import type { Joint } from './leg-model.js';
import { LEG, pitched } from './leg-model.js';

/** Radius of the foot's capsule, G: its sole then touches the floor when the foot is flat. */
export const FOOT_RADIUS = FIGURE.value;

/** Ends of the capsule's axis: heel, then toe. */
export function footAxis(ankle: Joint, pitch: number): { heel: Joint; toe: Joint } {
  const down = FOOT_RADIUS - LEG.ankle_height;
  const heel = pitched(-LEG.ankle_to_heel + FOOT_RADIUS, down, pitch);
  const toe = pitched(LEG.ankle_to_toe - FOOT_RADIUS, down, pitch);
  return {
    heel: { w: ankle.w + heel.w, z: ankle.z + heel.z },
    toe: { w: ankle.w + toe.w, z: ankle.z + toe.z },
  };
}
