/** Every built-in figure of every room, in the order of the way through. */
import { agentFigures } from '../agents/figures/index.js';
import { effortFigures } from '../effort/figures.js';
import type { Figure } from '../engine/figure.js';
import { sensorFigures } from '../sensors/figures.js';

export function allFigures(): Figure[] {
  return [...agentFigures(), ...sensorFigures(), ...effortFigures()];
}
