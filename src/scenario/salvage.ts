/** Reading what can be read of a value that has mistakes. */
import { z } from 'zod';
import { peel } from '../engine/peel.js';
import { child, isPlainObject } from './key-path.js';
import { alternative } from './schema-walk.js';

/** A value that is only partly right: what can be read of it, undefined for what can't. */
export type Partly<T> = T extends readonly (infer Item)[]
  ? readonly (Partly<Item> | undefined)[]
  : T extends object
    ? { readonly [K in keyof T]?: Partly<T[K]> | undefined }
    : T;

/**
 * As much of `value` as `schema` can read, with defaults: so that checks between keys still run over a file that has
 * mistakes elsewhere. For a value without mistakes it equals what the schema parses.
 */
export function salvage<S extends z.ZodType>(schema: S, value: unknown): Partly<z.infer<S>> | undefined {
  return salvageAny(schema, value) as Partly<z.infer<S>> | undefined;
}

function salvageAny(schema: z.ZodType, value: unknown): unknown {
  const { core, defaultValue } = peel(schema);
  if (value === undefined) return defaultValue;
  if (core instanceof z.ZodObject && isPlainObject(value)) {
    const entries = Object.entries(core.shape as Record<string, z.ZodType>)
      .map(([key, inner]) => [key, salvageAny(inner, child(value, key))] as const)
      // A key that is there but unreadable stays, as undefined; an absent optional one does not.
      .filter(([key, inner]) => inner !== undefined || Object.hasOwn(value, key));
    return Object.fromEntries(entries);
  }
  if (core instanceof z.ZodRecord && isPlainObject(value)) {
    const inner = core.valueType as z.ZodType;
    const entries = Object.entries(value).filter(([key]) => (core.keyType as z.ZodType).safeParse(key).success);
    return Object.fromEntries(entries.map(([key, item]) => [key, salvageAny(inner, item)]));
  }
  if (core instanceof z.ZodArray && Array.isArray(value)) {
    return value.map((item) => salvageAny(core.element as z.ZodType, item));
  }
  if (core instanceof z.ZodUnion) {
    const chosen = alternative(core, value);
    return chosen ? salvageAny(chosen, value) : undefined;
  }
  const result = core.safeParse(value);
  return result.success ? result.data : undefined;
}
