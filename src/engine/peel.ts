/** A zod schema without its wrappers: what a key's default, unit and meaning are read from. */
import { z } from 'zod';

/** What schemas carry besides their shape. */
export interface Meta {
  readonly description?: string | undefined;
  readonly unit?: string | undefined;
  /** How a text must look: a `name`, a `clock` time. */
  readonly form?: string | undefined;
  /** What sets this alternative of a union apart: `profile: FILE`. */
  readonly only_for?: string | undefined;
}

/** A schema without its wrappers, and what the wrappers said. */
export interface Peeled {
  readonly core: z.ZodType;
  readonly optional: boolean;
  readonly defaultValue: unknown;
  readonly meta: Meta;
}

/** Takes off `optional` and `default`; of an intersection the first half counts, which holds the keys. */
export function peel(schema: z.ZodType): Peeled {
  let core = schema;
  let optional = false;
  let defaultValue: unknown;
  let meta: Meta = {};
  for (;;) {
    meta = { ...core.meta(), ...meta };
    if (core instanceof z.ZodOptional) {
      optional = true;
      core = core.unwrap() as z.ZodType;
    } else if (core instanceof z.ZodDefault) {
      optional = true;
      defaultValue = core.def.defaultValue;
      core = core.unwrap() as z.ZodType;
    } else if (core instanceof z.ZodIntersection) core = core.def.left as z.ZodType;
    else return { core, optional, defaultValue, meta };
  }
}
