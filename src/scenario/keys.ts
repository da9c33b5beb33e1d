/** Every key a scenario can have, read from the schemas: for `jambeam keys`, for editors and for "that belongs there". */
import { z } from 'zod';
import { type Meta, peel } from '../engine/peel.js';
import { writtenSchema } from './schema.js';
import { rangeOf } from './schema-walk.js';

/** One key that a file can have: its range, unit and meaning. */
export interface KeyRow {
  /** `doors.*.traffic.mix.*.share`; `*` stands for an item's name or position. */
  readonly path: string;
  /** Which alternative the key belongs to, `kind: people`; absent where there is one only. */
  readonly only_for?: string;
  readonly unit?: string;
  readonly description: string;
  readonly required: boolean;
  /** As JSON; absent without one. */
  readonly default?: string;
  /** `number`, `whole number`, `text`, `true or false`, `list`, `map`, `choice`. */
  readonly type: string;
  readonly min?: number;
  readonly max?: number;
  readonly choices?: readonly string[];
}

/** All keys, in the order of the schema. */
export function listKeys(): readonly KeyRow[] {
  return keysOf(writtenSchema);
}

/** All keys of a file that a schema describes. */
export function keysOf(schema: z.ZodType): readonly KeyRow[] {
  return rowsBelow(schema, '', undefined);
}

let index: Map<string, readonly string[]> | undefined;

/** Paths of each key by its last segment, with the alternative they are for: where a misplaced key belongs. */
export function placesOfKeys(): ReadonlyMap<string, readonly string[]> {
  if (index) return index;
  index = new Map();
  for (const { path, only_for } of listKeys()) {
    const key = path.split('.').at(-1) ?? '';
    const paths = index.get(key) ?? [];
    const place = only_for === undefined ? path : `${path} (${only_for})`;
    if (!paths.includes(place)) index.set(key, [...paths, place]);
  }
  return index;
}

/** JSON Schema (draft 2020-12) of the scenario format, for editors that complete and check YAML. */
export function editorSchema(): object {
  return { ...describedSchema(writtenSchema), title: 'A scenario of jambeam, format 1' };
}

/** JSON Schema of what a user writes, units in the descriptions. */
export function describedSchema(written: z.ZodType): object {
  return z.toJSONSchema(written, {
    io: 'input',
    override: ({ jsonSchema }) => {
      // Editors show descriptions only: the unit goes there, our own keywords go away.
      const { unit, form: _form, only_for: _only_for, ...rest } = jsonSchema as Record<string, unknown>;
      for (const key of Object.keys(jsonSchema)) delete jsonSchema[key];
      Object.assign(jsonSchema, rest);
      if (typeof unit === 'string' && typeof rest.description === 'string')
        jsonSchema.description = `${rest.description} Unit: ${unit}.`;
    },
  });
}

function rowsBelow(schema: z.ZodType, path: string, only_for: string | undefined): KeyRow[] {
  const { core } = peel(schema);
  const below = (segment: string) => (path === '' ? segment : `${path}.${segment}`);
  if (core instanceof z.ZodObject) {
    const shape = core.shape as Record<string, z.ZodType>;
    return Object.entries(shape).flatMap(([key, inner]) => rowAndBelow(inner, below(key), only_for));
  }
  if (core instanceof z.ZodRecord) return rowsBelow(core.valueType as z.ZodType, below('*'), only_for);
  if (core instanceof z.ZodArray) return rowsBelow(core.element as z.ZodType, below('*'), only_for);
  if (core instanceof z.ZodUnion) {
    const options = core.options as readonly z.ZodType[];
    const key = core instanceof z.ZodDiscriminatedUnion ? core.def.discriminator : undefined;
    return options.flatMap((option) =>
      rowsBelow(option, path, key ? tagOf(option, key) : (peel(option).meta.only_for ?? only_for)),
    );
  }
  return [];
}

function rowAndBelow(schema: z.ZodType, path: string, only_for: string | undefined): KeyRow[] {
  const { core, optional, defaultValue, meta } = peel(schema);
  const row: KeyRow = {
    path,
    ...(only_for === undefined ? {} : { only_for }),
    ...(meta.unit === undefined ? {} : { unit: meta.unit }),
    description: meta.description ?? '',
    required: !optional,
    ...(defaultValue === undefined ? {} : { default: JSON.stringify(defaultValue) }),
    ...typeOf(core, meta),
  };
  return [row, ...rowsBelow(schema, path, only_for)];
}

function typeOf(core: z.ZodType, meta: Meta): Pick<KeyRow, 'type' | 'min' | 'max' | 'choices'> {
  if (core instanceof z.ZodNumber) {
    const { min, max } = rangeOf(core);
    const type = core.format === 'safeint' ? 'whole number' : 'number';
    return { type, ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) };
  }
  if (core instanceof z.ZodEnum) return { type: 'choice', choices: core.options.map(String) };
  if (core instanceof z.ZodLiteral) return { type: 'choice', choices: [...core.values].map(String) };
  if (core instanceof z.ZodBoolean) return { type: 'true or false' };
  if (core instanceof z.ZodString) return { type: meta.form === 'clock' ? 'HH:MM' : (meta.form ?? 'text') };
  if (core instanceof z.ZodArray || core instanceof z.ZodTuple) return { type: 'list' };
  if (core instanceof z.ZodUnion) {
    const options = core.options as readonly z.ZodType[];
    return { type: [...new Set(options.map((option) => typeOf(peel(option).core, {}).type))].join(' or ') };
  }
  return { type: 'map' };
}

function tagOf(option: z.ZodType, key: string): string | undefined {
  const tag = option instanceof z.ZodObject ? (option.shape[key] as z.ZodType | undefined) : undefined;
  return tag instanceof z.ZodLiteral ? `${key}: ${[...tag.values].join(', ')}` : undefined;
}
