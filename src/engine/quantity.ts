/**
 * Numbers a user writes, each with a range and a unit: the one place where a key of the scenario gets its meaning.
 * The command that lists keys, the editor's JSON Schema and the error texts all read what is registered here.
 */
import { z } from 'zod';

/** What is registered with a key. */
interface KeyMeta {
  /** One sentence: what the key means. */
  readonly description: string;
  /** Unit as printed: `m`, `s`, `1/h`, `share`. Absent for names and choices. */
  readonly unit?: string;
  /** How a text must look, for error texts: a name of the user's own, or a clock time. */
  readonly form?: 'name' | 'clock';
}

/** Holds what is registered to its shape; zod itself takes anything. */
function key(meta: KeyMeta): KeyMeta & Record<string, unknown> {
  return { ...meta };
}

/** A number from `min` to `max`, both included. */
export function quantity(min: number, max: number, unit: string, description: string): z.ZodNumber {
  return z.number().min(min).max(max).meta(key({ description, unit }));
}

/** A whole number from `min` to `max`, both included. */
export function wholeNumber(min: number, max: number, unit: string, description: string): z.ZodNumber {
  return z.int().min(min).max(max).meta(key({ description, unit }));
}

/** A name a user gives: shown in reports, used in paths, so letters, digits, `-` and `_` only, spaces between them. */
export function name(description: string): z.ZodString {
  return z
    .string()
    .max(40)
    .regex(/^[\p{L}\p{N}](?:[\p{L}\p{N} _-]*[\p{L}\p{N}_-])?$/u)
    .meta(key({ description, form: 'name' }));
}

/** A clock time, HH:MM from 00:00 to 23:59. */
export function clockTime(description: string): z.ZodString {
  return z
    .string()
    .regex(/^([01]\d|2[0-3]):[0-5]\d$/)
    .meta(key({ description, form: 'clock' }));
}
