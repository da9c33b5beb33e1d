/**
 * Numbers a user writes, each with a range and a unit: the one place where a key of the scenario gets its meaning.
 * The command that lists keys, the editor's JSON Schema and the error texts all read what is registered here.
 */
import { z } from 'zod';

export interface KeyMeta {
  /** One sentence: what the key means. */
  readonly description: string;
  /** Unit as printed: `m`, `s`, `1/h`, `share`. Absent for names and choices. */
  readonly unit?: string;
}

/** A number from `min` to `max`, both included. */
export function quantity(min: number, max: number, unit: string, description: string): z.ZodNumber {
  return z.number().min(min).max(max).meta({ description, unit });
}

/** A whole number from `min` to `max`, both included. */
export function wholeNumber(min: number, max: number, unit: string, description: string): z.ZodNumber {
  return z.int().min(min).max(max).meta({ description, unit });
}

/** A name a user gives: shown in reports, used in paths, so letters, digits, `-` and `_` only. */
export function name(description: string): z.ZodString {
  return z
    .string()
    .max(40)
    .regex(/^[\p{L}\p{N}](?:[\p{L}\p{N} _-]*[\p{L}\p{N}_-])?$/u)
    .meta({ description });
}
