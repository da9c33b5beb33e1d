/** Every value of metrics.json as a row, read from its published schema. */
import { metricsJsonSchema } from '../score/json-schema.js';

export interface MetricRow {
  /** `doors.*.wrong_per_100`; `*` stands for an item's name or position. */
  readonly path: string;
  /** `estimate` is a value with its interval. */
  readonly type: string;
  readonly unit?: string;
  readonly description: string;
}

interface SchemaNode {
  readonly type?: string | readonly string[];
  readonly description?: string;
  readonly unit?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly items?: SchemaNode;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly SchemaNode[];
  readonly const?: unknown;
}

export function listMetrics(): MetricRow[] {
  return rowsBelow(metricsJsonSchema() as SchemaNode, '');
}

function rowsBelow(node: SchemaNode, path: string): MetricRow[] {
  if (node.items) return rowsBelow(node.items, `${path}.*`);
  // An estimate is told as one thing: its parts are the same everywhere.
  if (!node.properties || isEstimate(node)) return [];
  return Object.entries(node.properties).flatMap(([key, inner]) => {
    const below = path === '' ? key : `${path}.${key}`;
    const { description = '', unit } = inner;
    return [
      { path: below, type: typeOf(inner), ...(unit === undefined ? {} : { unit }), description },
      ...rowsBelow(inner, below),
    ];
  });
}

function isEstimate({ properties }: SchemaNode): boolean {
  return properties !== undefined && 'low' in properties && 'high' in properties;
}

function typeOf(node: SchemaNode): string {
  if (isEstimate(node)) return 'estimate';
  if (node.anyOf) return node.anyOf.map(typeOf).join(' or ');
  if (node.enum) return node.enum.join(' | ');
  if (node.const !== undefined) return JSON.stringify(node.const);
  const words: Readonly<Record<string, string>> = {
    object: 'map',
    array: 'list',
    integer: 'whole number',
    string: 'text',
  };
  return words[String(node.type)] ?? String(node.type ?? 'value');
}
