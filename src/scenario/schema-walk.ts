/** Looking into zod schemas: what stands at a path, its unit, its range, its choices. */
import { z } from 'zod';
import { type Peeled, peel } from '../engine/peel.js';
import type { KeyPath } from './issue.js';
import { child, isPlainObject } from './key-path.js';

/** The alternative of a union that `value` is meant to be, judged by its discriminator or else by its type. */
export function alternative(union: z.ZodUnion, value: unknown): z.ZodType | undefined {
  const options = union.options as readonly z.ZodType[];
  if (union instanceof z.ZodDiscriminatedUnion) {
    const key = union.def.discriminator;
    return options.find((option) => {
      const tag = option instanceof z.ZodObject ? (option.shape[key] as z.ZodType | undefined) : undefined;
      return tag instanceof z.ZodLiteral && tag.values.has(child(value, key) as z.core.util.Literal);
    });
  }
  for (const option of options) {
    const { core } = peel(option);
    const chosen = core instanceof z.ZodUnion ? alternative(core, value) : accepts(core, value) ? core : undefined;
    if (chosen) return chosen;
  }
  return undefined;
}

/** Whether `value` has the type a schema is about; its range and keys may still be wrong. */
function accepts(core: z.ZodType, value: unknown): boolean {
  if (core instanceof z.ZodObject || core instanceof z.ZodRecord) return isPlainObject(value);
  if (core instanceof z.ZodArray || core instanceof z.ZodTuple) return Array.isArray(value);
  if (core instanceof z.ZodNumber) return typeof value === 'number';
  if (core instanceof z.ZodBoolean) return typeof value === 'boolean';
  if (core instanceof z.ZodLiteral) return core.values.has(value as z.core.util.Literal);
  return typeof value === 'string';
}

/** The schema of one key or item of `core`, which holds `value`. */
function childSchema(core: z.ZodType, value: unknown, segment: string | number): z.ZodType | undefined {
  if (core instanceof z.ZodObject)
    return Object.hasOwn(core.shape, segment) ? (core.shape[segment] as z.ZodType) : undefined;
  if (core instanceof z.ZodArray) return core.element as z.ZodType;
  if (core instanceof z.ZodRecord) return core.valueType as z.ZodType;
  if (core instanceof z.ZodTuple) return (core.def.items as readonly z.ZodType[])[Number(segment)];
  if (core instanceof z.ZodUnion) {
    const chosen = alternative(core, value);
    if (chosen) return childSchema(peel(chosen).core, value, segment);
  }
  return undefined;
}

/** What stands at `path` of a schema whose value is `root`; undefined where the schema knows nothing. */
export function schemaAt(schema: z.ZodType, root: unknown, path: KeyPath): Peeled | undefined {
  let at = peel(schema);
  let value = root;
  for (const segment of path) {
    const next = childSchema(at.core, value, segment);
    if (!next) return undefined;
    at = peel(next);
    value = child(value, segment);
  }
  return at;
}

/** Keys an object may have at this schema, given its value (a union's alternative is chosen by it). */
export function knownKeys(core: z.ZodType, value: unknown): readonly string[] {
  if (core instanceof z.ZodObject) return Object.keys(core.shape);
  if (core instanceof z.ZodUnion) {
    const chosen = alternative(core, value);
    return chosen ? knownKeys(peel(chosen).core, value) : [];
  }
  return [];
}

/** Lowest and highest number a schema takes; the bounds of safe integers are none of the user's concern. */
export function rangeOf(core: z.ZodType): { min?: number | undefined; max?: number | undefined } {
  if (!(core instanceof z.ZodNumber)) return {};
  const bound = (n: number | null) => (n === null || Math.abs(n) >= Number.MAX_SAFE_INTEGER ? undefined : n);
  return { min: bound(core.minValue), max: bound(core.maxValue) };
}
