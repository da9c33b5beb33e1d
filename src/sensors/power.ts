/** What a user writes about the power of a sensor or a controller. */
import type { z } from 'zod';
import { quantity } from '../engine/quantity.js';

/** @param what the power of what, in words */
export function powerSchema(what: string): z.ZodNumber {
  return quantity(0, 1e6, 'mW', `${what}, for watt-hours a day; an assumption stands in when left out.`);
}
