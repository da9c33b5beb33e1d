/** How leaves and curtains are handled and move: judgement, and said to be. */
import type { Figure } from '../../engine/figure.js';
import { NO_SOURCE } from './sources.js';

export const LEAF_HELD: Figure<number> = {
  id: 'leaf.held',
  value: 2,
  unit: 's after the last has left the doorway zone',
  used_in: 'when a leaf is shut: whoever comes before finds it held open',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const LEAF_STIR: Figure<{ readonly by_deg: number; readonly duration_s: number }> = {
  id: 'leaf.stir',
  value: { by_deg: 15, duration_s: 3 },
  unit: 'deg, s',
  used_in: 'how far a draught moves an open leaf towards the frame, and how long that takes, there and back',
  citation: NO_SOURCE,
  status: 'assumption',
};

export const CURTAIN_SHAPE: Figure<{ readonly thickness: number; readonly breadth: number; readonly floor: number }> = {
  id: 'curtain.shape',
  value: { thickness: 0.02, breadth: 0.4, floor: 0.03 },
  unit: 'm; breadth: from the left jamb across; floor: how far the hem is above it',
  used_in: 'a curtain beside the opening, hung as high as the opening',
  citation: NO_SOURCE,
  status: 'assumption',
};
