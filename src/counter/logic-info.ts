/** What can be chosen as a logic, for the command that lists keys: read from the schema, so that it can't go stale. */
import type { z } from 'zod';
import { peel } from '../engine/peel.js';
import { DEFEATED_BY } from './hidden-markov/hidden-markov.js';
import { makeLogic } from './make-logic.js';
import { type LogicChoice, logicSchema } from './schema.js';

export interface LogicKey {
  readonly key: string;
  readonly description: string;
  readonly unit: string | null;
  /** What holds when the key is left out; null if nothing is filled in. */
  readonly default: unknown;
  readonly required: boolean;
}

export interface LogicInfo {
  readonly use: LogicChoice['use'];
  readonly description: string;
  readonly keys: readonly LogicKey[];
  readonly defeated_by: string;
}

/** Of those that can't be made of their settings alone. */
const OF_THEIR_KIND: Partial<Readonly<Record<LogicChoice['use'], string>>> = {
  table: 'Whatever its rules do not foresee; a table can say it under `defeated_by`.',
  'hidden-markov': DEFEATED_BY,
};

export function logicInfo(): readonly LogicInfo[] {
  return logicSchema.options.map(({ shape }) => {
    const [use] = shape.use.values as Set<LogicChoice['use']>;
    if (use === undefined) throw new Error('logicInfo: a logic without a name in the schema');
    return {
      use,
      description: shape.use.meta()?.description ?? '',
      keys: Object.entries(shape)
        .filter(([key]) => key !== 'use')
        .map(([key, schema]) => keyInfo(key, schema as z.ZodType)),
      defeated_by: OF_THEIR_KIND[use] ?? makeLogic(logicSchema.parse({ use }), { tables: {} }).defeated_by,
    };
  });
}

function keyInfo(key: string, schema: z.ZodType): LogicKey {
  const { meta, optional, defaultValue = null } = peel(schema);
  return {
    key,
    description: meta.description ?? '',
    unit: meta.unit ?? null,
    default: defaultValue,
    required: !optional,
  };
}
